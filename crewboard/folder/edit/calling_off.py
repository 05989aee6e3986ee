"""A work day is called off, or held after all: the day and the reason among those left out."""

from __future__ import annotations

from datetime import datetime

from crewboard.folder.cannot import cannot
from crewboard.folder.edit.plan_edits import CallOff
from crewboard.folder.edit.texts import Texts
from crewboard.folder.read.files import VEHICLE
from crewboard.folder.toml.meant import exists, value_at
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.visits import visits
from crewboard.order.said import day_in_words
from crewboard.plan.plan import Plan

_PATH = ("work_days", "closed")


def call_off(edit: CallOff, plan: Plan, logbook: Logbook, texts: Texts) -> None:
    """Write the day into `closed`, or take it out. Raises CannotChange."""
    days, name = plan.vehicle.work_days, day_in_words(edit.day)
    left_out, why = days.called_off(edit.day), edit.why
    values = texts.values(VEHICLE)
    closed = value_at(values, _PATH) if exists(values, _PATH) else []
    if why is None:
        if left_out is None:
            raise cannot("not-off", f"{name} is not called off")
        for number in reversed(
            [n for n, written in enumerate(closed) if _day(written) == edit.day]
        ):
            texts.take_out(VEHICLE, (*_PATH, number))
        return
    if left_out is not None:
        raise cannot("twice", f"{name} is called off already{f' ({left_out})' if left_out else ''}")
    if not days.openings_on(edit.day):
        raise cannot("no-work-day", f"{name} is no work day", "name a day on which the crew meets")
    if visits(logbook.days.get(edit.day), datetime.max):
        raise cannot("people-came", f"on {name} people were in the shop: the day took place")
    if not why.strip():
        raise cannot("no-reason", f"nobody said why {name} is called off", "say why")
    texts.set(VEHICLE, _PATH, [*closed, {"date": edit.day, "why": why.strip()}])


def _day(written: object) -> object:
    return written.get("date") if isinstance(written, dict) else written
