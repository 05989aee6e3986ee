"""What is in the steam box or the boiling trough now, and when it has to come out.

A clock of the day, not a hold: the work is under way and goes on, and nothing waits for it.
"""

from collections.abc import Iterator
from datetime import datetime, timedelta
from functools import lru_cache
from typing import NamedTuple

from crewboard.logbook.acts import Finished, PieceFailed, Reopened, Steamed, Stopped
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.order.said import quoted_title, when
from crewboard.plan.task import Task

_BOX, _BEND = "steam-box", "bend set"  # a sheet of hazards, a kind of hold
_OVERDUE = timedelta(hours=12)  # after that somebody only forgot to write that it came out


class InTheBox(NamedTuple):
    """What of a task went in, by the entry that says so, and when it has to come out."""

    id: str
    task: str
    since: datetime
    until: datetime
    boiling: bool = False

    @property
    def word(self) -> str:
        return "boiling" if self.boiling else "steaming"

    def due(self, at: datetime) -> bool:
        return self.until <= at


@lru_cache(maxsize=4)
def in_the_box(board: Board) -> tuple[InTheBox, ...]:
    """What went in on the board's day or the one before and did not come out, the first to come out
    first; overdue all day, and half a day across midnight. It came out when that is said, or when
    its task was finished, stopped or opened again; of one task what went in first comes out
    first."""
    inside: list[InTheBox] = []
    for entry in _entries(board):
        act = entry.act
        if isinstance(act, PieceFailed):
            gone = {task.id for task in board.plan.tasks_of(act.piece)}
            inside = [one for one in inside if one.task not in gone]
        elif isinstance(act, Finished | Stopped | Reopened):
            inside = [one for one in inside if one.task != act.task]
        elif isinstance(act, Steamed) and act.out:
            first = next((one for one in inside if one.task == act.task), None)
            inside = [one for one in inside if one is not first]
        elif isinstance(act, Steamed) and act.lasts is not None:
            until = board.plan.clock.add(entry.at, act.lasts)
            inside.append(InTheBox(entry.id, act.task, entry.at, until, act.boiling))
    midnight = board.at.replace(hour=0, minute=0, second=0, microsecond=0)
    since = min(midnight, board.at - _OVERDUE)
    still = (one for one in inside if one.until >= since and one.task in board.standings)
    return tuple(sorted(still, key=lambda one: one.until))


def bends(task: Task) -> bool:
    """Whether the work of a task puts something into the box: it has its hazard, or its hold is
    that of a bend."""
    return _BOX in task.hazards or (task.hold is not None and task.hold.kind == _BEND)


def of_task(board: Board, task_id: str) -> list[InTheBox]:
    """What of this task is in."""
    return [one for one in in_the_box(board) if one.task == task_id]


def out_in_words(board: Board, one: InTheBox) -> str:
    """ "out at 10:42"; once that is past "overdue since 10:42"."""
    return f"{'overdue since' if one.due(board.at) else 'out at'} {when(one.until, board.at)}"


def in_words(board: Board, one: InTheBox) -> str:
    """'"Bend the rib", steaming since 09:37, out at 10:42'."""
    since = f"{one.word} since {when(one.since, board.at)}"
    return f"{quoted_title(board.plan, one.task)}, {since}, {out_in_words(board, one)}"


def _entries(board: Board) -> Iterator[Entry]:
    """Of today and the day before, in order of time."""
    today = board.at.date()
    days = (board.logbook.days.get(day) for day in (today - timedelta(days=1), today))
    entries = [entry for day in days if day for entry in day.counting if entry.at <= board.at]
    yield from sorted(entries, key=lambda entry: entry.at)
