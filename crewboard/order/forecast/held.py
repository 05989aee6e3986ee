"""Which work days take place, as the log tells it: days skipped, and long stops.

A day now and then on which nobody comes is a habit, and habits change: what is longer ago counts
less (discounting: West and Harrison, Bayesian Forecasting and Dynamic Models, 1997, chapter 6; from
memory). A stop of weeks (a winter, a summer) comes once in a while: of the whole past year its days
are counted, and it says as much as one event does, not as its many days.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Collection, Sequence
from datetime import date, timedelta
from itertools import groupby, pairwise
from typing import NamedTuple

from crewboard.plan.workdays import WorkDays

# By so much less each work day counts than the one after it: the last dozen or so tell the habit
# (within what the discounting of the module's source is used with: 0.9 to 0.99).
FADES = 0.92
# What is believed before the log says anything: of twenty days one does not take place, and stops
# are rare (common sense, no source).
BEFORE_HELD, BEFORE_SKIPPED = 4.75, 0.25
BEFORE_OPEN, BEFORE_SHUT = 2.0, 0.05
# From so long on, and two work days, it is a stop; what is longer than a season does not come every
# year (common sense, no source).
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
    stops = list(_stops(calendar, sorted(came), today))
    shut = {day for stop in stops for day in stop}
    held, skipped, extra, weight = 0.0, 0.0, 0.0, 1.0
    for day in sorted({*calendar, *came} - shut, reverse=True):
        if not calendar or day < calendar[0]:
            break  # the calendar did not say anything yet
        if days.openings_on(day):
            held, skipped = held + weight * (day in came), skipped + weight * (day not in came)
            weight *= FADES
        else:
            extra += weight
    moved = min(skipped, extra)  # a day held instead of another is a day held
    in_stops = sum(sum(day - stop[0] < SEASON for day in stop) for stop in stops)
    length = in_stops / len(stops) if stops else _STOP_DAYS
    return Held(
        (BEFORE_HELD + held + moved, BEFORE_SKIPPED + skipped - moved),
        (BEFORE_OPEN + (len(calendar) - len(shut)) / length, BEFORE_SHUT + len(stops)),
        (extra - moved) / (BEFORE_HELD + held + skipped),
    )


def _stops(calendar: Sequence[date], came: Sequence[date], today: date) -> list[list[date]]:
    """The work days of each long time in which nobody came, on those days or between."""
    spans = list(pairwise([*calendar, today]))

    def nobody(span: tuple[date, date]) -> bool:
        return bisect_left(came, span[0]) == bisect_left(came, span[1])

    runs = [list(run) for empty, run in groupby(spans, key=nobody) if empty]
    long = (run for run in runs if len(run) > 1 and run[-1][1] - run[0][0] >= STOP)
    return [[day for day, _ in run] for run in long]
