"""The page at the end of a day: hours, what began and finished, which clocks started, what next."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from crewboard.logbook.acts import HOURS, Begun, ClosedDay, Finished, GuestHours, Stopped
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.order.ahead.first import what_goes_first
from crewboard.order.board import Board
from crewboard.order.holds.words import hold_title, stage_in_words
from crewboard.order.said import (
    day_in_words,
    how_many,
    listed,
    person,
    quoted_title,
)
from crewboard.telling.line import GAP, Line, title

_FIRST = 3  # tasks named of the next day
_NOTHING = "nothing"


def closing_lines(board: Board, next_day: Board | None) -> Iterator[Line]:
    """What the board's day brought; `next_day` is the board at the opening of the next work day."""
    day = board.logbook.days.get(board.at.date(), Day(board.at.date()))
    entries = [entry for entry in day.counting if entry.at <= board.at]
    closed = ", closed" if any(isinstance(e.act, ClosedDay) for e in entries) else ""
    yield title(f"{day_in_words(board.at)}{closed}")
    yield from _hours(board, entries)
    yield GAP
    finished = dict.fromkeys(e.act.task for e in entries if isinstance(e.act, Finished))
    begun = dict.fromkeys(e.act.task for e in entries if isinstance(e.act, Begun))
    yield _of_tasks(board, "begun:", (task for task in begun if task not in finished))
    yield _of_tasks(board, "finished:", finished)
    stopped = dict.fromkeys(e.act.task for e in entries if isinstance(e.act, Stopped))
    if stopped:
        yield _of_tasks(board, "stopped for today:", stopped)
    yield from _goes_on(board)
    yield from _clocks(board)
    yield from _hours_left(board, entries)
    yield GAP
    yield from _next(next_day)


def _hours(board: Board, entries: list[Entry]) -> Iterator[Line]:
    hours: dict[str, float] = {}
    for entry in entries:
        if isinstance(entry.act, HOURS):
            act = entry.act
            if isinstance(act, GuestHours):
                who = f"{act.name}, a guest"
            else:
                who = person(board.plan, act.who)
            hours[who] = hours.get(who, 0.0) + act.hours
    if not hours:
        yield Line("nobody has hours on this day: h writes them", "warning", 0, "hours:")
        return
    each = (f"{who} {sum_:.10g} h" for who, sum_ in hours.items())
    in_all = f"{how_many(len(hours), 'person')}, {sum(hours.values()):.10g} h in all"
    yield Line(f"{'; '.join(each)}: {in_all}", "strong", 0, "hours:")
    without = [
        person(board.plan, who)
        for who in dict.fromkeys(visit.who for visit in board.history.visits)
        if person(board.plan, who) not in hours
    ]
    if without:
        yield Line(listed(without), "warning", 0, "no hours yet:")


def _of_tasks(board: Board, word: str, tasks: Iterable[str]) -> Line:
    titles = [quoted_title(board.plan, task) for task in tasks]
    return Line(listed(titles) or _NOTHING, "strong" if titles else "faint", 0, word)


def _goes_on(board: Board) -> Iterator[Line]:
    going = [quoted_title(board.plan, standing.task.id) for standing in board.in_state("under way")]
    if going:
        yield Line(listed(going), "plain", 0, "under way:")


def _clocks(board: Board) -> Iterator[Line]:
    """The holds that started on this day, each with when to look."""
    today = [hold for hold in board.stopping() if hold.since.date() == board.at.date()]
    for number, hold in enumerate(today):
        what = f'"{hold_title(board.plan, hold)}"'
        stage = stage_in_words(board.plan, hold, board.at)
        yield Line(f"{what} {stage}", "caution", 0, "clock started:" if not number else "and:")


def _hours_left(board: Board, entries: list[Entry]) -> Iterator[Line]:
    """What took longer than was thought, and is not finished: how much is left is asked."""
    worked = dict.fromkeys(e.act.task for e in entries if isinstance(e.act, HOURS) and e.act.task)
    over = [task for task in worked if task in board.plan.tasks and board[task].ask_left]
    if over:
        titles = listed(quoted_title(board.plan, task) for task in over)
        yield Line(f"{titles}: how many hours are left?", "warning", 0, "longer than thought:")


def _next(board: Board | None) -> Iterator[Line]:
    if board is None:
        yield Line("no further work day is planned", "faint", 0, "next:")
        return
    yield title(f"Next: {day_in_words(board.at)}")
    due = [hold for hold in board.stopping() if hold.stage == "due"]
    if due:
        looks = listed(f'"{hold_title(board.plan, hold)}"' for hold in due)
        yield Line(looks, "must", 0, "due for a look by then:")
    first = [one for one in what_goes_first(board) if not one.not_today][:_FIRST]
    for number, one in enumerate(first, 1):
        yield Line(quoted_title(board.plan, one.task), "strong", 2, f"{number}")
    if not first:
        yield Line("nothing can be done yet", "faint", 2)
