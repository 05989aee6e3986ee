"""Hours worked, as the logbook has them: entry by entry, and summed by person."""

from collections.abc import Iterator, Mapping
from datetime import date, datetime
from typing import NamedTuple

from crewboard.logbook.acts import HoursWorked
from crewboard.logbook.logbook import Logbook


class Worked(NamedTuple):
    """Hours of one person on one thing on one day. `task` is empty for other work."""

    day: date
    who: str
    task: str
    hours: float
    note: str


def worked(logbook: Logbook, until: datetime | None = None) -> Iterator[Worked]:
    """Every hours entry that counts, day by day, up to and with the moment `until`."""
    for day in logbook.days.values():
        for entry in day.counting:
            act = entry.act
            if isinstance(act, HoursWorked) and (until is None or entry.at <= until):
                yield Worked(day.date, act.who, act.task, act.hours, act.note)


class Totals(NamedTuple):
    """One person's hours: by month ("2026-05"), by year, in all, and the days worked."""

    months: Mapping[str, float] = {}
    years: Mapping[int, float] = {}
    in_all: float = 0.0
    days: int = 0

    def around(self, day: date) -> tuple[float, float, float]:
        """Hours of the month of that day, of its year, and in all."""
        month = self.months.get(f"{day:%Y-%m}", 0.0)
        return month, self.years.get(day.year, 0.0), self.in_all


def totals(logbook: Logbook, until: datetime | None = None) -> dict[str, Totals]:
    """By person, in order of first work."""
    months: dict[str, dict[str, float]] = {}
    years: dict[str, dict[int, float]] = {}
    days: dict[str, set[date]] = {}
    for line in worked(logbook, until):
        month = f"{line.day:%Y-%m}"
        of_months = months.setdefault(line.who, {})
        of_months[month] = of_months.get(month, 0.0) + line.hours
        of_years = years.setdefault(line.who, {})
        of_years[line.day.year] = of_years.get(line.day.year, 0.0) + line.hours
        days.setdefault(line.who, set()).add(line.day)
    return {
        who: Totals(months[who], years[who], sum(years[who].values()), len(days[who]))
        for who in months
    }
