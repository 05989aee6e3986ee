"""Hours worked without a signed check. Hours are always taken; the record says so beside them."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, time
from typing import NamedTuple

from crewboard.logbook.acts import HOURS, GuestHours
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.order.may.needs import hazards_for
from crewboard.order.safety.signatures import Signatures
from crewboard.plan.hazard import Check, Hazard
from crewboard.plan.plan import Plan

SAYS = "worked without a signed check"


class Unchecked(NamedTuple):
    """One line of hours, and the before-checks that were not signed when its work began."""

    entry: Entry
    task: str
    who: str
    hours: float
    checks: tuple[tuple[Hazard, Check], ...]

    @property
    def says(self) -> str:
        """ "worked without a signed check: fire watcher named (hot work)"."""
        by_hazard: dict[str, list[str]] = {}
        for hazard, check in self.checks:
            by_hazard.setdefault(hazard.short, []).append(check.short)
        named = "; ".join(f"{', '.join(titles)} ({name})" for name, titles in by_hazard.items())
        return f"{SAYS}: {named}"


def unchecked_hours(plan: Plan, logbook: Logbook, *days: Day) -> list[Unchecked]:
    """The hours of these days (of all, where none is given) on dangerous tasks whose before-checks
    were not signed.

    A check has to be signed before the work: before the task was begun on that day, or, where it
    was begun on an earlier one, before its hours were logged. Nothing is stored: sign a check late
    and the hours stay marked; correct the line of a check that was signed in time and they do not.
    """
    asked = days or tuple(logbook.days.values())
    if not asked:
        return []
    last = max(day.date for day in asked)
    signed = Signatures(plan, logbook, datetime.combine(last, time.max))
    return [marked for day in asked for marked in _of_day(plan, signed, day)]


def _of_day(plan: Plan, signed: Signatures, day: Day) -> Iterator[Unchecked]:
    for entry in day.counting:
        act = entry.act
        if not isinstance(act, HOURS) or act.task not in plan.tasks:
            continue
        who = f"guest {act.name}" if isinstance(act, GuestHours) else act.who
        moment = min([*signed.begun_on(day.date, act.task), entry.at])
        unsigned = tuple(
            (hazard, check)
            for hazard in hazards_for(plan, plan.tasks[act.task], (who,), entry.at.date())
            for check in hazard.checks
            if check.when == "before"
            and not signed.was_signed(hazard, check, act.task, who, moment)
        )
        if unsigned:
            yield Unchecked(entry, act.task, who, act.hours, unsigned)
