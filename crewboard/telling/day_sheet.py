"""The day sheet: what one work day brought, for the file and to hand on."""

from __future__ import annotations

from crewboard.logbook.acts import (
    HOURS,
    Begun,
    CheckSigned,
    ClosedDay,
    Expected,
    Finished,
    GuestCame,
    GuestLeft,
    Incident,
    Planned,
    SignIn,
    SignOut,
    Stopped,
)
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.order.presence import closed_at
from crewboard.order.reasons.why import hold_in_words, stop_in_words
from crewboard.order.safety.opening import first_aider_in_words
from crewboard.order.safety.unchecked import unchecked_hours
from crewboard.order.said import day_in_words, how_many
from crewboard.plan.hazard import CAUTION
from crewboard.telling.day_tables import checks_table, hours_told, people_tables, told, work_table
from crewboard.telling.line import Tone
from crewboard.telling.report import Chapter, Request, Sheet, points


def report(request: Request) -> Sheet:
    """The sheet of the board's day.

    Near misses and injuries are only counted: their names belong in the crew's own record.
    """
    board = request.board
    name = f"Day sheet, {day_in_words(board.at)}: {board.plan.vehicle.name}"
    day = board.logbook.days.get(board.at.date(), Day(board.at.date()))
    entries = [entry for entry in day.counting if entry.at <= board.at]
    goes_on = bool(entries) and closed_at(board) is None
    other = [entry for entry in entries if not isinstance(entry.act, _TOLD_APART)]
    tables = people_tables(board, entries)
    there = [
        Chapter("Who was there" if not number else "", table=table)
        for number, table in enumerate(tables)
    ]
    chapters = [
        *_texts({"Stop": _to_stop(board)}, "danger"),
        *there,
        *_texts({"Hours": _hours(board, day, entries)}),
        Chapter("Begun and finished", table=work_table(board, entries)),
        *_texts({"Stopped, to go on another day": _stopped(board, entries)}),
        Chapter(
            "Checks signed, in few words: the check sheet has each in full",
            table=checks_table(board, entries),
        ),
        *_texts(
            {
                "Also that day": [told(board, entry) for entry in other] + _closed(board, entries),
                "Near misses and injuries": _incidents(entries),
            }
        ),
        *_texts({"In an emergency": _emergency(board) if goes_on else []}, "must"),
        *_texts({"Left on hold": _holds(board)}),
    ]
    filled = tuple(chapter for chapter in chapters if not chapter.empty)
    signed = ("the lead of the day", "date") if entries else ()
    nothing = (Chapter("Nothing was written down that day"),)
    return Sheet(name, CAUTION, filled or nothing, signatures=signed)


def _stopped(board: Board, entries: list[Entry]) -> list[str]:
    stopped = (entry for entry in entries if isinstance(entry.act, Stopped))
    return [f"{entry.at:%H:%M} {told(board, entry)}" for entry in stopped]


def _texts(texts: dict[str, list[str]], tone: Tone = "strong") -> list[Chapter]:
    return [Chapter(head, points(lines, "plain"), tone) for head, lines in texts.items()]


_TOLD_APART = (
    *(SignIn, SignOut, GuestCame, GuestLeft, Expected, Planned, *HOURS),
    *(Begun, Finished, Stopped, CheckSigned, Incident, ClosedDay),
)  # fmt: skip


def _closed(board: Board, entries: list[Entry]) -> list[str]:
    return [
        f"{entry.at:%H:%M} {told(board, entry)}"
        for entry in entries
        if isinstance(entry.act, ClosedDay)
    ]


def _hours(board: Board, day: Day, entries: list[Entry]) -> list[str]:
    marks = {
        hours.entry.id: hours.says for hours in unchecked_hours(board.plan, board.logbook, day)
    }
    return list(hours_told(board, entries, marks))


def _to_stop(board: Board) -> list[str]:
    """Work under way over earlier work that is open again, or over a hold that runs again."""
    return [
        f'"{standing.task.title}": {stop}'
        for standing in board.in_state("under way")
        if (stop := stop_in_words(board, standing))
    ]


def _incidents(entries: list[Entry]) -> list[str]:
    count = sum(isinstance(entry.act, Incident) for entry in entries)
    return [f"{how_many(count, 'record')} in the logbook"] if count else []


def _emergency(board: Board) -> list[str]:
    shop = board.plan.vehicle.shop
    known = [("call", shop.emergency), ("hospital", shop.hospital)]
    known += [("first-aider", first_aider_in_words(board))]
    return [f"{word}: {fact}" for word, fact in known if fact]


def _holds(board: Board) -> list[str]:
    return [hold_in_words(board, hold) for hold in board.stopping()]
