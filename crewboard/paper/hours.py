"""Hours statements: who worked how long, by month and year, on what."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from crewboard.logbook.logbook import Logbook
from crewboard.order.hours.sums import main_component
from crewboard.order.hours.worked import Totals, guest_totals, totals, worked
from crewboard.order.said import component_name, person, piece_name, task_title
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
    rows: list[list[object]] = [list(_HEAD)]
    for line in worked(plan, logbook, until):
        if (who and line.who != who) or not line.day.isoformat().startswith(period):
            continue
        name = person(plan, line.who) if line.who else as_guest(line.guest)
        on = line.on
        title, piece = task_title(plan, on.task), piece_name(plan, on.piece)
        component = component_name(plan, main_component(plan, on))
        worked_on = [component, title, line.hours, line.note, piece, on.other]
        rows.append([line.day, line.who, name, *worked_on])
    return rows


_HEAD = ("date", "person", "name", "component", "task", "hours", "note", "piece", "other")


def sum_rows(
    plan: Plan, logbook: Logbook, until: datetime | None = None, *, by: str = "month"
) -> list[list[object]]:
    """A table with its head: hours of each person by month or by year, and in all; guests last."""
    hours_of = totals(plan, logbook, until)
    guests = guest_totals(plan, logbook, until)
    both = (*hours_of.values(), *guests.values())
    keys = sorted({key for hours in both for key in _periods(hours, by)})
    rows: list[list[object]] = [["person", "name", *keys, "in all", "days"]]
    named = [(who, person(plan, who), hours) for who, hours in hours_of.items()]
    named.sort(key=lambda row: row[1].casefold())
    named += [("", as_guest(guest), hours) for guest, hours in sorted(guests.items())]
    for who, name, of_person in named:
        of_keys = _periods(of_person, by)
        hours = [of_keys.get(key, 0.0) for key in keys]
        rows.append([who, name, *hours, of_person.in_all, of_person.days])
    return rows


def as_guest(name: str) -> str:
    """ "Ines Bratt (guest)"."""
    return f"{name} (guest)"


def _periods(of_person: Totals, by: str) -> Mapping[str, float]:
    if by == "year":
        return {str(year): hours for year, hours in of_person.years.items()}
    return of_person.months
