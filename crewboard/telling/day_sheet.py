"""The day sheet: what one work day brought, for the file and to hand on."""

from __future__ import annotations

from typing import NamedTuple

from crewboard.logbook.acts import (
    Begun,
    CheckSigned,
    ClosedDay,
    Expected,
    Finished,
    HoursWorked,
    Incident,
    SignIn,
    SignOut,
)
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.order.reasons.why import hold_in_words, stop_in_words
from crewboard.order.safety.unchecked import unchecked_hours
from crewboard.order.said import day_in_words, how_many, person
from crewboard.paper.page import html_page, points, section
from crewboard.paper.plain import Paper
from crewboard.plan.hazard import CAUTION
from crewboard.telling.entry_words import entry_in_words


class Chapter(NamedTuple):
    """A heading and its points."""

    heading: str
    points: list[str]


def day_sheet_lines(board: Board, width: int = 80) -> list[str]:
    """The sheet of the board's day, as lines."""
    paper = Paper(width)
    paper.line(_title(board))
    for chapter in chapters(board):
        paper.heading(chapter.heading)
        paper.items(chapter.points)
    paper.line()
    paper.line(CAUTION)
    return paper.lines


def day_sheet_page(board: Board) -> str:
    """The sheet as one HTML page to print, every text escaped."""
    body = "".join(section(each.heading, points(each.points)) for each in chapters(board))
    return html_page(_title(board), CAUTION, body)


def _title(board: Board) -> str:
    return f"Day sheet, {day_in_words(board.at)}: {board.plan.vehicle.name}"


def chapters(board: Board) -> list[Chapter]:
    """What the sheet says; a heading with nothing below it is left out.

    Near misses and injuries are only counted: their names belong in the crew's own record.
    """
    day = board.logbook.days.get(board.at.date(), Day(board.at.date()))
    said = [entry for entry in day.counting if entry.at <= board.at]
    other = [each for each in said if not isinstance(each.act, _TOLD_APART)]
    found = [
        Chapter("Who was there", _presence(board)),
        Chapter("Hours", _hours(board, day, said)),
        Chapter("Stop", _to_stop(board)),
        Chapter("Begun", _told(board, said, Begun)),
        Chapter("Finished", _told(board, said, Finished)),
        Chapter("Checks signed", _told(board, said, CheckSigned)),
        Chapter("Also that day", [entry_in_words(board.plan, each) for each in other]),
        Chapter("Near misses and injuries", _incidents(said)),
        Chapter("Left setting, curing, awaited", _holds(board)),
        Chapter("The day", _told(board, said, ClosedDay)),
    ]
    return [chapter for chapter in found if chapter.points] or [
        Chapter("Nothing was written down that day", ["-"])
    ]


_TOLD_APART = (
    SignIn, SignOut, Expected, HoursWorked, Begun, Finished, CheckSigned, Incident, ClosedDay
)  # fmt: skip


def _told(board: Board, said: list[Entry], kind: type) -> list[str]:
    return [
        f"{each.at:%H:%M} {entry_in_words(board.plan, each)}"
        for each in said
        if isinstance(each.act, kind)
    ]


def _presence(board: Board) -> list[str]:
    return [
        f"{person(board.plan, visit.who)}: {visit.since:%H:%M} to "
        + (f"{visit.until:%H:%M}" if visit.until else "(still here)")
        for visit in board.history.visits
    ]


def _hours(board: Board, day: Day, said: list[Entry]) -> list[str]:
    marks = {each.entry.id: each.says for each in unchecked_hours(board.plan, board.logbook, day)}
    lines, in_all = [], 0.0
    for each in said:
        if isinstance(each.act, HoursWorked):
            mark = f" - {marks[each.id]}" if each.id in marks else ""
            lines.append(entry_in_words(board.plan, each) + mark)
            in_all += each.act.hours
    return [*lines, f"{in_all:g} h in all"] if lines else []


def _to_stop(board: Board) -> list[str]:
    """Work under way over earlier work that is open again."""
    return [
        f'"{standing.task.title}": {stop}'
        for standing in board.in_state("under way")
        if (stop := stop_in_words(board, standing))
    ]


def _incidents(said: list[Entry]) -> list[str]:
    count = sum(isinstance(each.act, Incident) for each in said)
    return [f"{how_many(count, 'record')} in the logbook"] if count else []


def _holds(board: Board) -> list[str]:
    return [hold_in_words(board, hold) for hold in board.stopping()]
