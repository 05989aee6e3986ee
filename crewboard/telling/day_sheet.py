"""The day sheet: what one work day brought, for the file and to hand on."""

from __future__ import annotations

from datetime import datetime

from crewboard.logbook.acts import (
    Begun,
    CheckSigned,
    ClosedDay,
    Expected,
    Finished,
    GuestCame,
    GuestLeft,
    HoursWorked,
    Incident,
    SignIn,
    SignOut,
)
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.visits import guest_visits
from crewboard.order.board import Board
from crewboard.order.reasons.why import hold_in_words, stop_in_words
from crewboard.order.safety.opening import first_aider_in_words
from crewboard.order.safety.unchecked import unchecked_hours
from crewboard.order.said import day_in_words, how_many, person
from crewboard.plan.hazard import CAUTION
from crewboard.telling.entry_words import put_down_in_words, words_of
from crewboard.telling.report import Chapter, Request, Sheet, points


def report(request: Request) -> Sheet:
    """The sheet of the board's day.

    Near misses and injuries are only counted: their names belong in the crew's own record.
    """
    board = request.board
    name = f"Day sheet, {day_in_words(board.at)}: {board.plan.vehicle.name}"
    day = board.logbook.days.get(board.at.date(), Day(board.at.date()))
    entries = [entry for entry in day.counting if entry.at <= board.at]
    other = [entry for entry in entries if not isinstance(entry.act, _TOLD_APART)]
    texts = {
        "Who was there": _presence(board, entries),
        "Hours": _hours(board, day, entries),
        "Stop": _to_stop(board),
        "Begun": _of_kind(board, entries, Begun),
        "Finished": _of_kind(board, entries, Finished),
        "Checks signed": _of_kind(board, entries, CheckSigned),
        "Also that day": [_told(board, entry) for entry in other],
        "Near misses and injuries": _incidents(entries),
        "In an emergency": _emergency(board) if entries else [],
        "Left setting, curing, awaited": _holds(board),
        "The day": _of_kind(board, entries, ClosedDay),
    }
    chapters = tuple(
        Chapter(head, points(lines, "plain")) for head, lines in texts.items() if lines
    )
    return Sheet(name, CAUTION, chapters or (Chapter("Nothing was written down that day"),))


_TOLD_APART = (
    *(SignIn, SignOut, GuestCame, GuestLeft, Expected, HoursWorked),
    *(Begun, Finished, CheckSigned, Incident, ClosedDay),
)  # fmt: skip


def _of_kind(board: Board, entries: list[Entry], kind: type) -> list[str]:
    return [
        f"{entry.at:%H:%M} {_told(board, entry)}"
        for entry in entries
        if isinstance(entry.act, kind)
    ]


def _told(board: Board, entry: Entry) -> str:
    """What the entry says, and when it was put down where that was at another time."""
    put_down = put_down_in_words(entry)
    return words_of(board).of(entry) + (f" ({put_down})" if put_down else "")


def _presence(board: Board, entries: list[Entry]) -> list[str]:
    put_down = {
        (entry.act.who, entry.at): f" ({words})"
        for entry in entries
        if isinstance(entry.act, SignIn | SignOut) and (words := put_down_in_words(entry))
    }

    def moment(who: str, at: datetime) -> str:
        return f"{at:%H:%M}{put_down.get((who, at), '')}"

    return [
        f"{person(board.plan, visit.who)}: {moment(visit.who, visit.since)} to "
        + (moment(visit.who, visit.until) if visit.until else "(still here)")
        for visit in board.history.visits
    ] + [
        f"{visit.name}, a guest: {visit.since:%H:%M} to "
        + (f"{visit.until:%H:%M}" if visit.until else "(still here)")
        for visit in guest_visits(board.logbook.days.get(board.at.date()), board.at)
    ]


def _hours(board: Board, day: Day, entries: list[Entry]) -> list[str]:
    marks = {
        hours.entry.id: hours.says for hours in unchecked_hours(board.plan, board.logbook, day)
    }
    lines, in_all = [], 0.0
    for entry in entries:
        if isinstance(entry.act, HoursWorked):
            mark = f" - {marks[entry.id]}" if entry.id in marks else ""
            lines.append(_told(board, entry) + mark)
            in_all += entry.act.hours
    return [*lines, f"{in_all:g} h in all"] if lines else []


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
