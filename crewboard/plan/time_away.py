"""Weeks that are known beforehand: in which the crew does not meet, or somebody is away."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple


class TimeAway(NamedTuple):
    """From `since` until and with `until`; with `each_year` on the same dates of every year from
    then on (a 29 February counts as the 28th where there is none)."""

    since: date
    until: date
    each_year: bool = False
    why: str = ""

    def holds_on(self, day: date) -> bool:
        if day < self.since or not self.each_year:
            return self.since <= day <= self.until
        length = self.until - self.since
        return any(
            _in_year(self.since, year) <= day <= _in_year(self.since, year) + length
            for year in (day.year - 1, day.year)
            if year >= self.since.year
        )


def _in_year(day: date, year: int) -> date:
    leap = (day.month, day.day) == (2, 29) and (year % 4 or (year % 100 == 0 and year % 400))
    return day.replace(year=year, day=28) if leap else day.replace(year=year)
