"""When an act can hardly have been: in the future, before the work began, or by who was not there.

Asked about before an entry is written, and by the check of the folder of what is written already:
most often a year or a month was mistyped.
"""

from collections.abc import Iterable, Iterator
from datetime import date, datetime, timedelta
from itertools import pairwise
from typing import NamedTuple

from crewboard.logbook.acts import Act
from crewboard.logbook.fields import people_of
from crewboard.logbook.kinds import kind_of
from crewboard.order.presence import LATELY
from crewboard.order.said import day_and_time, day_in_words, person
from crewboard.plan.plan import Plan

# Clocks differ, and a moment typed to the minute may be the one that is just coming.
AHEAD = timedelta(minutes=10)


class Began(NamedTuple):
    """Before which day there was no work, and how that is known."""

    day: date
    says: str


def began(plan: Plan, days: Iterable[date]) -> Began | None:
    """When the work began: since when the work days hold, else a year before the first of the days
    of the logbook, but for those that stand alone by more than that. None where nothing says so."""
    since = plan.vehicle.work_days.since
    if since is not None:
        return Began(since, f"before the work began, {day_in_words(since)}")
    in_order = sorted(days)
    first = next(
        (a for a, b in pairwise(in_order) if b - a <= LATELY),
        in_order[-1] if in_order else None,
    )
    if first is None:
        return None
    says = f"more than a year before the first work day in the logbook, {day_in_words(first)}"
    return Began(first - min(LATELY, first - date.min), says)


def too_early(day: date, start: Began | None) -> str:
    """That the day lies before there was work, empty where it does not."""
    if start is None or day >= start.day:
        return ""
    return f"{day_in_words(day)} is {start.says}"


def to_come(act: Act, at: datetime, now: datetime) -> str:
    """That the moment is still to come, empty where it is not, or may be."""
    if at <= now + AHEAD or kind_of(act).ahead:
        return ""
    return f"{day_and_time(at)} is still to come: it is {day_and_time(now)}"


def not_of_the_crew(plan: Plan, act: Act, day: date) -> Iterator[str]:
    """Of each person whom the act names and who was not of the crew that day, that it is so."""
    for who in sorted(people_of(act)):
        volunteer = plan.crew.get(who)
        if volunteer is None or volunteer.with_us_on(day):
            continue
        name, left = person(plan, who), volunteer.left
        if volunteer.joined is not None and day < volunteer.joined:
            joined = day_in_words(volunteer.joined)
            yield f"{name} joined on {joined}, after {day_in_words(day)}"
        else:
            yield f"{name} left{f' on {day_in_words(left)}' if left else ''}, before that day"
