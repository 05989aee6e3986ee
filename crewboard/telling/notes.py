"""The notes of the logbook, where the next person sees them."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from functools import lru_cache
from typing import NamedTuple

from crewboard.logbook.acts import Noted
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.order.said import day_in_words, listed, person, quoted_name
from crewboard.telling.line import Line

_LAST = 3  # of the notes on one thing: the rest is in the logbook


class Notes(NamedTuple):
    """The notes up to the board's moment, oldest first: by the id of what they are on, and those on
    a day by the day."""

    on: dict[str, list[Entry]]
    of_day: dict[date, list[Entry]]


@lru_cache(maxsize=4)
def notes(board: Board) -> Notes:
    """All notes that count by the board's moment."""
    found = Notes({}, {})
    for day in board.logbook.days.values():
        for entry in day.counting:
            if isinstance(entry.act, Noted) and entry.at <= board.at:
                on = entry.act.task or entry.act.piece or entry.act.component
                if on:
                    found.on.setdefault(on, []).append(entry)
                else:
                    found.of_day.setdefault(day.date, []).append(entry)
    return found


def notes_around(board: Board, task_id: str) -> Iterator[Line]:
    """The last notes on a task's pieces and its component; those on itself stand in its logbook."""
    task = board.plan.tasks[task_id]
    components = dict.fromkeys((task.component, board.plan.main_of(task.component).id))
    for some_id in (*task.pieces, *components):
        yield from notes_on(board, some_id)


def notes_on(board: Board, *ids: str) -> Iterator[Line]:
    """The last notes on these, each with what it is on."""
    every = [entry for some_id in ids for entry in notes(board).on.get(some_id, ())]
    for entry in sorted(every, key=lambda entry: entry.at)[-_LAST:]:
        yield _line(board, entry)


def notes_of_last_time(board: Board) -> Iterator[Line]:
    """What was noted on the day itself, today and when people were last here."""
    days = sorted(day for day in notes(board).of_day if day <= board.at.date())
    people = sorted(day for day in board.logbook.days if day < board.at.date())
    lately = {board.at.date(), *people[-1:]}
    for day in days:
        if day in lately:
            yield from (_line(board, entry) for entry in notes(board).of_day[day])


def _line(board: Board, entry: Entry) -> Line:
    assert isinstance(entry.act, Noted)
    on = entry.act.piece or entry.act.component
    about = f" on {quoted_name(board.plan, on)}" if on else ""
    by = f", {person(board.plan, entry.by)}" if entry.by else ""
    pictures = f" (pictures: {listed(entry.act.pictures)})" if entry.act.pictures else ""
    return Line(f"{entry.act.text}{pictures}", "plain", 0, f"noted{about}, {_day(entry)}{by}:")


def _day(entry: Entry) -> str:
    return day_in_words(entry.at)
