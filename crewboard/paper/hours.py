"""Hours statements: who worked how long, by month and year, on what."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime
from typing import NamedTuple

from crewboard.logbook.acts import HoursWorked
from crewboard.logbook.logbook import Logbook
from crewboard.order.said import person
from crewboard.plan.plan import Plan


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

    months: dict[str, float]
    years: dict[int, float]
    in_all: float
    days: int


def totals(logbook: Logbook, until: datetime | None = None) -> dict[str, Totals]:
    """By person, in order of first work."""
    months: dict[str, dict[str, float]] = {}
    years: dict[str, dict[int, float]] = {}
    days: dict[str, set[date]] = {}
    for each in worked(logbook, until):
        month = f"{each.day:%Y-%m}"
        of_months = months.setdefault(each.who, {})
        of_months[month] = of_months.get(month, 0.0) + each.hours
        of_years = years.setdefault(each.who, {})
        of_years[each.day.year] = of_years.get(each.day.year, 0.0) + each.hours
        days.setdefault(each.who, set()).add(each.day)
    return {
        who: Totals(months[who], years[who], sum(years[who].values()), len(days[who]))
        for who in months
    }


def hours_rows(
    plan: Plan,
    logbook: Logbook,
    until: datetime | None = None,
    *,
    who: str = "",
    period: str = "",
) -> list[list[object]]:
    """A table with its head: a row for each entry, of one person or all.

    `period` is the beginning of an ISO date: "2026" or "2026-05".
    """
    rows: list[list[object]] = [["date", "person", "name", "component", "task", "hours", "note"]]
    for each in worked(logbook, until):
        if (who and each.who != who) or not each.day.isoformat().startswith(period):
            continue
        task = plan.tasks.get(each.task)
        title = task.title if task else each.task
        component = plan.main_of(task.component).name if task else ""
        name = person(plan, each.who)
        rows.append([each.day, each.who, name, component, title, each.hours, each.note])
    return rows


def sum_rows(
    plan: Plan, logbook: Logbook, until: datetime | None = None, *, by: str = "month"
) -> list[list[object]]:
    """A table with its head: hours of each person by month or by year, and in all."""
    found = totals(logbook, until)
    keys = sorted({key for each in found.values() for key in _periods(each, by)})
    rows: list[list[object]] = [["person", "name", *keys, "in all", "days"]]
    for who in sorted(found, key=lambda each: person(plan, each).casefold()):
        of_keys = _periods(found[who], by)
        hours = [of_keys.get(key, 0.0) for key in keys]
        rows.append([who, person(plan, who), *hours, found[who].in_all, found[who].days])
    return rows


def _periods(of_person: Totals, by: str) -> dict[str, float]:
    if by == "year":
        return {str(year): hours for year, hours in of_person.years.items()}
    return of_person.months
