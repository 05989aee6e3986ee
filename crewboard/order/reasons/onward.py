"""What then: what finishing a task lets go, now and after its hold."""

from __future__ import annotations

from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.order.holds.running import StandingHold
from crewboard.order.holds.words import hold_if_finished
from crewboard.order.readiness import Ahead
from crewboard.order.sequence.links import gate_of


class Onward(NamedTuple):
    """Task ids. `now` become ready at once, `after_hold` when the hold that follows is over, or
    what else still keeps them; `goes_on` are under way, were stopped by the reopening of earlier
    work, and may go on; `closer` are next behind and still wait for other work. `behind` counts
    all that wait in the end."""

    now: tuple[str, ...]
    after_hold: tuple[str, ...]
    closer: tuple[str, ...]
    behind: int
    goes_on: tuple[str, ...] = ()


def what_then(board: Board, task_id: str) -> Onward:
    """What finishing the task would let go; raises KeyError if unknown."""
    ahead = _if_finished(board, task_id)
    now, later = _opened(board, ahead, task_id)
    closer = _closer(board, ahead, {*now, *later})
    behind = sum(not board[task].work_done for task in board.order.all_behind(task_id))
    return Onward(now, later, closer, behind, _going_on(board, ahead))


def lets_go(board: Board, task_id: str) -> tuple[str, ...]:
    """The tasks for which this is the last unfinished work before them."""
    now, later = _opened(board, _if_finished(board, task_id), task_id)
    return now + later


def _if_finished(board: Board, task_id: str) -> Ahead:
    return board.readiness.if_finished(board.plan, task_id, _hold_it_starts(board, task_id))


def _hold_it_starts(board: Board, task_id: str) -> StandingHold | None:
    """The hold that would run if the task were finished now."""
    hold = hold_if_finished(board, task_id)
    return hold if hold is not None and hold.stops_work else None


def _opened(board: Board, ahead: Ahead, task_id: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The tasks with no unfinished work before them any more: those ready at once, and those that
    something else still keeps."""
    counted = bool(board.plan.tasks[task_id].supplies)  # what it used is needed no longer
    stock = board.stock.if_finished(task_id) if counted else board.stock
    now, later = [], []
    for node in ahead.touched:
        if gate_of(node) or not _to_do(board, node):
            continue
        task = board.plan.tasks[node]
        stops = ahead.readiness.stops(task, stock.short_of(task))
        if not stops:
            now.append(node)
        elif not stops.waits:
            later.append(node)
    return tuple(now), tuple(later)


def _going_on(board: Board, ahead: Ahead) -> tuple[str, ...]:
    """The tasks under way that nothing reopened stands before any more."""
    done = ahead.readiness.passed.done
    return tuple(
        node
        for node in ahead.touched
        if not gate_of(node)
        and board[node].to_stop
        and not board[node].held_again
        and all(done[before] for before in board.order.before[node])
    )


def _closer(board: Board, ahead: Ahead, opened: set[str]) -> tuple[str, ...]:
    """The tasks next behind that would still wait for other work: of a component that comes after,
    those that it would begin with."""
    done, order = ahead.readiness.passed.done, board.order
    closer: dict[str, None] = {}
    for node in ahead.touched:
        if not done[node]:
            closer |= dict.fromkeys(order.tasks_right_behind(node) if gate_of(node) else [node])
    waiting = {task: None for task in closer if _to_do(board, task) and task not in opened}
    return tuple(task for task in waiting if not waiting.keys() & order.tasks_right_before(task))


def _to_do(board: Board, task_id: str) -> bool:
    return not board[task_id].work_done and board[task_id].state not in ("under way", "set aside")
