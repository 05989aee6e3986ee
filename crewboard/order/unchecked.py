"""Hours worked without a signed check. Hours are always taken; the record says so beside them."""

from __future__ import annotations

from datetime import datetime, time
from typing import NamedTuple

from crewboard.logbook.acts import HoursWorked
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.order.signatures import Signatures
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
        """ "worked without a signed check: area, watcher (hot work)"."""
        by_hazard: dict[str, list[str]] = {}
        for hazard, check in self.checks:
            by_hazard.setdefault(hazard.short, []).append(check.id)
        named = "; ".join(f"{', '.join(ids)} ({name})" for name, ids in by_hazard.items())
        return f"{SAYS}: {named}"


def unchecked_hours(plan: Plan, logbook: Logbook, day: Day) -> list[Unchecked]:
    """The day's hours on dangerous tasks whose before-checks were not signed.

    A check has to be signed before the work: before the task was begun on that day, or, where it
    was begun on an earlier one, before its hours were logged. Nothing is stored: sign a check late
    and the hours stay marked; correct the line of a check that was signed in time and they do not.
    """
    end = datetime.combine(day.date, time.max)
    found: list[Unchecked] = []
    said: dict[datetime, Signatures] = {}
    begun = Signatures(plan, logbook, end)
    for entry in day.counting:
        act = entry.act
        if not isinstance(act, HoursWorked) or act.task not in plan.tasks:
            continue
        hazards = _hazards(plan, act, entry)
        if not hazards:
            continue
        moment = min([*begun.begun_on(day.date, act.task), entry.at])
        if moment not in said:
            said[moment] = Signatures(plan, logbook, moment)
        unsigned = tuple(
            (hazard, check)
            for hazard in hazards
            for check in hazard.checks
            if check.when == "before" and said[moment].of(hazard, check, act.task, act.who) is None
        )
        if unsigned:
            found.append(Unchecked(entry, act.task, act.who, act.hours, unsigned))
    return found


def _hazards(plan: Plan, act: HoursWorked, entry: Entry) -> list[Hazard]:
    volunteer = plan.crew.get(act.who)
    minor = volunteer is not None and volunteer.minor_on(entry.at.date())
    named = plan.tasks[act.task].hazards
    return [
        hazard
        for hazard in plan.hazards.values()
        if (hazard.concerns == "minors" and minor)
        or (hazard.concerns == "task" and hazard.id in named)
    ]
