"""Hours worked, as the logbook has them: entry by entry, and summed by person."""

from collections.abc import Iterable, Iterator, Mapping
from datetime import date, datetime
from typing import NamedTuple

from crewboard.logbook.acts import HOURS, WorkedOn, worked_on
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.visits import same_name
from crewboard.order.hours.guests import joined_since, worker
from crewboard.plan.plan import Plan


class Worked(NamedTuple):
    """Hours of one person on one thing on one day. `who` is the id of somebody of the crew, also
    where they were still a guest; of any other guest it is empty and `guest` has the name."""

    day: date
    who: str
    guest: str
    on: WorkedOn
    hours: float
    note: str

    @property
    def task(self) -> str:
        return self.on.task


def worked(plan: Plan, logbook: Logbook, until: datetime | None = None) -> Iterator[Worked]:
    """Every hours entry that counts, day by day, up to and with the moment `until`."""
    joined = joined_since(plan)
    for day in logbook.days.values():
        for entry in day.counting:
            act = entry.act
            if isinstance(act, HOURS) and (until is None or entry.at <= until):
                who, guest = worker(joined, act)
                yield Worked(day.date, who, guest, worked_on(act), act.hours, act.note)


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


def totals(plan: Plan, logbook: Logbook, until: datetime | None = None) -> dict[str, Totals]:
    """By person of the crew, in order of first work."""
    return _summed((line.who, line) for line in worked(plan, logbook, until) if line.who)


def guest_totals(plan: Plan, logbook: Logbook, until: datetime | None = None) -> dict[str, Totals]:
    """By guest, in order of first work, under the name that was written first."""
    names: dict[str, str] = {}
    return _summed(
        (names.setdefault(same_name(line.guest), line.guest), line)
        for line in worked(plan, logbook, until)
        if line.guest
    )


def _summed(lines: Iterable[tuple[str, Worked]]) -> dict[str, Totals]:
    months: dict[str, dict[str, float]] = {}
    years: dict[str, dict[int, float]] = {}
    days: dict[str, set[date]] = {}
    for key, line in lines:
        month = f"{line.day:%Y-%m}"
        of_months = months.setdefault(key, {})
        of_months[month] = of_months.get(month, 0.0) + line.hours
        of_years = years.setdefault(key, {})
        of_years[line.day.year] = of_years.get(line.day.year, 0.0) + line.hours
        days.setdefault(key, set()).add(line.day)
    return {
        key: Totals(months[key], years[key], sum(years[key].values()), len(days[key]))
        for key in months
    }
