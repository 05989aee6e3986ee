"""Hours statements: who worked how long, by month and year, on what."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from crewboard.logbook.logbook import Logbook
from crewboard.order.hours.worked import Totals, totals, worked
from crewboard.order.said import person, task_title
from crewboard.plan.plan import Plan
from crewboard.telling.report import Listing, Request

_SHORT_NAMES = frozenset({"person"})  # the name beside is what people read


def report(request: Request) -> Listing:
    """The hours statement: every entry, or the hours of each person summed.

    As a text that was not narrowed down it is summed by years: every entry would be too long.
    """
    board = request.board
    narrowed = request.who or request.period or request.form == "csv"
    if request.by or not narrowed:
        by = request.by or "year"
        rows = sum_rows(board.plan, board.logbook, board.at, by=by)
        return Listing(rows, f"Hours by {by}", not_printed=_SHORT_NAMES)
    who, period = request.who, request.period
    title = " ".join(filter(None, ("Hours", _of_whom(board.plan, who), _of(period))))
    rows = hours_rows(board.plan, board.logbook, board.at, who=who, period=period)
    return Listing(rows, title, not_printed=_SHORT_NAMES)


def _of_whom(plan: Plan, who: str) -> str:
    return f"of {person(plan, who)}" if who else ""


def _of(period: str) -> str:
    return f"in {period}" if period else ""


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
    for line in worked(logbook, until):
        if (who and line.who != who) or not line.day.isoformat().startswith(period):
            continue
        task = plan.tasks.get(line.task)
        title = task_title(plan, line.task)
        component = plan.main_of(task.component).name if task else ""
        name = person(plan, line.who)
        rows.append([line.day, line.who, name, component, title, line.hours, line.note])
    return rows


def sum_rows(
    plan: Plan, logbook: Logbook, until: datetime | None = None, *, by: str = "month"
) -> list[list[object]]:
    """A table with its head: hours of each person by month or by year, and in all."""
    hours_of = totals(logbook, until)
    keys = sorted({key for hours in hours_of.values() for key in _periods(hours, by)})
    rows: list[list[object]] = [["person", "name", *keys, "in all", "days"]]
    for who in sorted(hours_of, key=lambda who: person(plan, who).casefold()):
        of_keys = _periods(hours_of[who], by)
        hours = [of_keys.get(key, 0.0) for key in keys]
        rows.append([who, person(plan, who), *hours, hours_of[who].in_all, hours_of[who].days])
    return rows


def _periods(of_person: Totals, by: str) -> Mapping[str, float]:
    if by == "year":
        return {str(year): hours for year, hours in of_person.years.items()}
    return of_person.months
