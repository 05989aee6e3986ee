"""What is to go on now and what comes next, by the plan of the day that was taken over."""

from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.order.day_plan.proposal import Placed
from crewboard.order.day_plan.taken_over import (
    Turn,
    next_by_plan,
    now_by_plan,
    planned_for,
    running_plan,
)
from crewboard.order.may.on_it import on_it
from crewboard.order.said import listed, person, short_names
from crewboard.telling.line import Line

NOW, NEXT = "By the plan now:", "Next:"


class ByPlan(NamedTuple):
    """What should be begun now by the plan of the day, and each person's next, soonest first."""

    now: Sequence[Turn] = ()
    coming: Sequence[Turn] = ()


def by_plan(board: Board) -> ByPlan:
    """Nothing in it where no plan was taken over, or where it is done."""
    running = running_plan(board)
    if running is None:
        return ByPlan()
    now = [turn for turn in now_by_plan(board, running) if not _is_so(board, turn)]
    return ByPlan(now, next_by_plan(board, running))


def by_plan_lines(board: Board) -> list[Line]:
    """The same as lines, in full."""
    told = by_plan(board)
    now = "; ".join(_turn(board, turn) for turn in told.now)
    times = "; ".join(
        f"{turns[0].start:%H:%M} {'; '.join(_turn(board, turn) for turn in turns)}"
        for turns in _by_time(told.coming)
    )
    lines = [Line(now, "must", word=NOW)] if now else []
    return [*lines, Line(times, "faint", word=NEXT)] if times else lines


def _by_time(turns: Iterable[Turn]) -> list[list[Turn]]:
    return [list(same) for _, same in groupby(turns, key=lambda turn: turn.start)]


def planned_shortly(board: Board, tasks: Iterable[str]) -> str:
    """ "now", or when the soonest of these tasks is to begin by the plan: "11:00"; empty for what
    it does not have."""
    found = filter(None, (planned_for(board, task) for task in tasks))
    first = min(found, key=lambda placed: placed.start, default=None)
    if first is None:
        return ""
    return "now" if first.start <= board.at else f"{first.start:%H:%M}"


def planned_in_words(board: Board, task: str) -> str:
    """ "by the plan 09:00 to 12:00: Ada, Ben and Cleo", empty for what it does not have."""
    placed = planned_for(board, task)
    if placed is None:
        return ""
    return f"by the plan {placed.start:%H:%M} to {placed.end:%H:%M}: {_who(board, placed)}"


def _who(board: Board, placed: Placed) -> str:
    return listed(short_names(board.plan, placed.people))


def _is_so(board: Board, turn: Turn) -> bool:
    """Whether all who are to be on it are."""
    return bool(turn.task) and set(on_it(board, turn.task)).issuperset(turn.people)


def title_of(board: Board, turn: Turn) -> str:
    """The title of its task, with the look that comes first, or the words of the small job."""
    first = "a look, then: " if turn.look else ""
    return f"{first}{board.plan.tasks[turn.task].title}" if turn.task else turn.what


def _turn(board: Board, turn: Turn) -> str:
    names = listed(person(board.plan, who) for who in turn.people)
    return f"{title_of(board, turn)} ({names})"
