"""Which work days take place, as the log tells it: days skipped, and long stops.

A day now and then on which nobody comes is a habit, and habits change: what is longer ago counts
less (discounting: West and Harrison, Bayesian Forecasting and Dynamic Models, 1997, chapter 6; from
memory). A stop of weeks (a winter, a summer) comes once in a while: of the whole past year its days
are counted, and it says as much as one event does, not as its many days.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from datetime import date, timedelta
from itertools import groupby
from typing import NamedTuple

from crewboard.plan.workdays import WorkDays

# By so much less each work day counts than the one after it: the last dozen or so tell the habit
# (within what the discounting of the module's source is used with: 0.9 to 0.99).
FADES = 0.92
# What is believed before the log says anything: of twenty days one does not take place, and stops
# are rare (common sense, no source).
BEFORE_HELD, BEFORE_SKIPPED = 4.75, 0.25
BEFORE_OPEN, BEFORE_SHUT = 2.0, 0.05
# From so long on it is a stop, and what is longer than a season does not come every year.
STOP, SEASON = timedelta(weeks=4), timedelta(weeks=13)
_STOP_DAYS = 4.0


class Held(NamedTuple):
    """Beliefs of the shares of work days, as what counts for and against in a beta distribution:
    `habit` of those that are held and skipped, `open` of those outside of stops and in them.
    `extra`: days held off the calendar for each of the calendar."""

    habit: tuple[float, float] = (BEFORE_HELD, BEFORE_SKIPPED)
    open: tuple[float, float] = (BEFORE_OPEN, BEFORE_SHUT)
    extra: float = 0.0


def held_as(days: WorkDays, came: Collection[date], today: date) -> Held:
    """What the days tell on which somebody came, from the first of them up to yesterday."""
    if not came:
        return Held()
    first = min(came)
    calendar = list(days.coming(first, (today - first).days))
    stops = list(_stops(calendar, came, today))
    shut = {day for stop in stops for day in stop}
    held, skipped, extra, weight = 0.0, 0.0, 0.0, 1.0
    for day in sorted({*calendar, *came}, reverse=True):
        if day in shut:
            continue
        if day not in calendar:
            extra += weight
            continue
        held, skipped = held + weight * (day in came), skipped + weight * (day not in came)
        weight *= FADES
    in_stops = sum(sum(day - stop[0] < SEASON for day in stop) for stop in stops)
    length = in_stops / len(stops) if stops else _STOP_DAYS
    return Held(
        (BEFORE_HELD + held, BEFORE_SKIPPED + skipped),
        (BEFORE_OPEN + (len(calendar) - len(shut)) / length, BEFORE_SHUT + len(stops)),
        extra / (BEFORE_HELD + held + skipped),
    )


def _stops(calendar: Sequence[date], came: Collection[date], today: date) -> list[list[date]]:
    """The work days of each long time in which nobody came."""
    ends = [*calendar[1:], today][: len(calendar)]
    runs: list[list[tuple[date, date]]] = [
        list(run)
        for nobody, run in groupby(
            zip(calendar, ends, strict=True), key=lambda day: day[0] not in came
        )
        if nobody
    ]
    return [[day for day, _ in run] for run in runs if run[-1][1] - run[0][0] >= STOP]
