"""`crewboard report`: day sheet, hours statement, calendar, near misses."""

from __future__ import annotations

import os
from collections.abc import Callable
from typing import TYPE_CHECKING

from crewboard.command import naming
from crewboard.command.exits import Exit, Refused, WrongCall
from crewboard.command.opened import AT, moment, open_bench
from crewboard.command.typed import Call, Command, Option, Word

if TYPE_CHECKING:
    from crewboard.order.board import Board

_WAYS: dict[str, tuple[str, ...]] = {
    "day": ("text", "html"),
    "hours": ("text", "csv"),
    "calendar": ("ics",),
    "incidents": ("text", "html"),
}


def _report(call: Call) -> Exit:
    kind = call.word("KIND")
    if kind not in _WAYS:
        raise WrongCall(f'there is no report "{kind}"', f"reports are {', '.join(_WAYS)}")
    way = call.option("as", _WAYS[kind][0])
    if way not in _WAYS[kind]:
        raise WrongCall(f'the {kind} report is not made as "{way}"', f"as {_WAYS[kind]}")
    bench = open_bench(call)
    board = bench.board(moment(call, bench.plan))
    text = _MAKERS[kind](call, board, way)
    if call.given("to"):
        _save(call, text)
    else:
        call.out.text(text)
    return Exit.FINE


def _day(call: Call, board: Board, way: str) -> str:
    from crewboard.telling.day_sheet import day_sheet_lines, day_sheet_page

    return (
        day_sheet_page(board) if way == "html" else _lines(day_sheet_lines(board, call.out.width))
    )


def _hours(call: Call, board: Board, way: str) -> str:
    from crewboard.paper.hours import hours_rows, sum_rows
    from crewboard.paper.spreadsheet import csv_text, text_table

    by = call.option("sum")
    if by not in ("", "month", "year"):
        raise WrongCall(f'hours are not summed by "{by}"', "write --sum month or --sum year")
    who = naming.person(board.plan, call.option("person")) if call.given("person") else ""
    period = call.option("in")
    if by or (way == "text" and not who and not period):
        rows = sum_rows(board.plan, board.logbook, board.at, by=by or "year")
    else:
        rows = hours_rows(board.plan, board.logbook, board.at, who=who, period=period)
    return csv_text(rows) if way == "csv" else _lines(text_table(rows, call.out.width))


def _calendar(_call: Call, board: Board, _way: str) -> str:
    from crewboard.paper.calendar import calendar

    return calendar(board)


def _incidents(call: Call, board: Board, way: str) -> str:
    from crewboard.telling.incidents import (
        incident_lines,
        incident_page,
        incidents,
        incidents_told,
    )

    names = call.given("names")
    found = incidents(board.logbook, until=board.at.date())
    told = incidents_told(board.plan, found, names=names)
    if way == "html":
        return incident_page(told, names=names)
    return _lines(incident_lines(told, names=names, width=call.out.width))


_MAKERS: dict[str, Callable[[Call, Board, str], str]] = {
    "day": _day,
    "hours": _hours,
    "calendar": _calendar,
    "incidents": _incidents,
}


def _lines(lines: list[str]) -> str:
    return "".join(line + "\n" for line in lines)


def _save(call: Call, text: str) -> None:
    """Into a new file: what is there already is never written over."""
    path = call.option("to")
    try:
        with open(path, "x", encoding="utf-8", newline="", errors="backslashreplace") as file:
            file.write(text)
    except FileExistsError:
        raise Refused(f'"{path}" is there already', "name another file") from None
    call.out.talk(f"written to {os.path.abspath(path)}")


report = Command(
    _report,
    "Makes a report: day (the day sheet), hours (the hours statement: every entry, or summed by "
    "month or year), calendar (work days, holds due, deliveries, as an ICS file), incidents (near "
    "misses and injuries, without names unless --names).",
    (Word("KIND", "day, hours, calendar or incidents"), Word("DIR", "the vehicle's folder")),
    (
        Option("as", "text, html (day, incidents), csv (hours), ics (calendar)", "FORM"),
        Option("person", "hours of one person only", "WHO"),
        Option("in", "hours of one year or month only: 2026 or 2026-05", "PERIOD"),
        Option("sum", "hours summed by month or year", "PERIOD"),
        Option("names", "incidents with names: for the crew's own record, not to be shared"),
        Option("to", "into a new file instead of the standard output", "FILE"),
        AT,
    ),
    (
        "crewboard report day sample_project --at 2026-04-25T17:00 --as html --to day.html",
        "crewboard report hours sample_project --person mirela --in 2026 --as csv",
        "crewboard report calendar sample_project --to work-days.ics",
    ),
)
