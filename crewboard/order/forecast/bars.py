"""The spread of a forecast's finish as bars and as a curve, for pictures of any kind."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import NamedTuple

from crewboard.order.said import SHORT_MONTHS

# Months in a bar: the shortest with which there are few enough bars.
_STEPS = (1, 2, 3, 6, 12, 24, 60, 120)


class Bar(NamedTuple):
    """The courses that end from `first` to before `until`: their share, and that of all up to
    then. Shares go from 0 to 1."""

    first: date
    until: date
    share: float
    by_then: float

    @property
    def label(self) -> str:
        """ "May 2028", "May to Jul 2028", "2028"."""
        last = self.until - timedelta(days=1)
        start = f"{SHORT_MONTHS[self.first.month - 1]} {self.first.year}"
        if (self.first.year, self.first.month) == (last.year, last.month):
            return start
        if self.first.month == 1 and last.month == 12:
            if self.first.year == last.year:
                return str(last.year)
            return f"{self.first.year} to {last.year}"
        if self.first.year == last.year:
            start = start[:3]
        return f"{start} to {SHORT_MONTHS[last.month - 1]} {last.year}"


def bars(courses: Sequence[date | None], most: int = 14) -> list[Bar]:
    """At most about `most` bars of equal months over all courses that ended; none where none did.

    `courses` in order, those that never ended (None) last.
    """
    ended = [day for day in courses if day is not None]
    if not ended:
        return []
    months = _month_number(ended[-1]) - _month_number(ended[0]) + 1
    step = next((step for step in _STEPS if months <= most * step), _STEPS[-1])
    start = _month_number(ended[0]) // step * step
    bars: list[Bar] = []
    counted = 0
    while counted < len(ended):
        until = _first_of(start + step)
        inside = sum(day < until for day in ended[counted:])
        counted += inside
        share, by_then = inside / len(courses), counted / len(courses)
        bars.append(Bar(_first_of(start), until, share, by_then))
        start += step
    return bars


def _month_number(day: date) -> int:
    return day.year * 12 + day.month - 1


def _first_of(month: int) -> date:
    year, month = divmod(month, 12)
    return date(min(year, 9999), month + 1, 1)
