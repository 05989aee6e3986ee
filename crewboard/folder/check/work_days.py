"""The work days against themselves: days that are added and left out, or added to the rule's."""

from __future__ import annotations

from collections.abc import Iterator

from crewboard.folder.read.fault import Remark
from crewboard.folder.read.files import VEHICLE
from crewboard.folder.read.folder import Folder
from crewboard.order.said import day_in_words, listed


def work_days_in_question(folder: Folder) -> Iterator[Remark]:
    """A day of `also` that is in `closed` too, or that the rule makes a work day anyway."""
    days = folder.plan.vehicle.work_days
    for number, (day, opening) in enumerate(days.also):
        path = ("work_days", "also", number)
        name = day_in_words(day)
        if days.called_off(day) is not None:
            sentence = f"{name} is added and left out: it is closed"
            hint = "take it out of one of the two"
            yield Remark(VEHICLE, path, "work-day", sentence, hint)
        elif days.is_regular(day):
            open_then = listed(map(str, days.openings_on(day)))
            sentence = f"{name} is a work day anyway: with what is added it is open {open_then}"
            hint = "take it out" if opening is None else "change its times if that is not meant"
            yield Remark(VEHICLE, path, "work-day", sentence, hint)
