"""What comes next: what finishing a task frees, now and after its hold."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache, lru_cache
from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.order.holds.running import StandingHold
from crewboard.order.holds.words import hold_if_finished
from crewboard.order.readiness import Ahead
from crewboard.order.sequence.graph import OrderOfWork
from crewboard.order.sequence.links import gate_of
from crewboard.order.supplies import Stock


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


def what_then(board: Board, task_id: str, *, with_closer: bool = True) -> Onward:
    """What finishing the task would let go; raises KeyError if unknown.

    Without `with_closer` that is left empty: of a gate of thousands of tasks it takes a while.
    """
    ahead, now, later = _if_finished(board, task_id)
    closer = _closer(board, ahead, {*now, *later}) if with_closer else ()
    return Onward(now, later, closer, counts_behind(board)[task_id], _going_on(board, ahead))


def lets_go(board: Board, task_id: str) -> tuple[str, ...]:
    """The tasks for which this is the last unfinished work before them."""
    _, now, later = _if_finished(board, task_id)
    return now + later


# So much memory may the bits of one walk take: with all tasks of a large plan at once they would
# take more than an old laptop has.
_MOST_BITS = 8 * 64_000_000


@lru_cache(maxsize=4)
def counts_behind(board: Board) -> dict[str, int]:
    """How many unfinished tasks wait behind each task: so many at once as sets of bits, in one walk
    each."""
    order, counts = board.order, dict.fromkeys(board.standings, 0)
    open_tasks = [
        (place, node)
        for place, node in enumerate(order.sequence)
        if node in counts and not board[node].work_done and node not in board.not_asked
    ]
    at_once = max(1, _MOST_BITS // (len(order.sequence) + 1))
    for start in range(0, len(open_tasks), at_once):
        looked_for = open_tasks[start : start + at_once]
        last, _ = looked_for[-1]
        _count_behind(order, order.sequence[: last + 1], [task for _, task in looked_for], counts)
    return counts


def _count_behind(
    order: OrderOfWork, nodes: Sequence[str], looked_for: Sequence[str], counts: dict[str, int]
) -> None:
    """Add to the counts of these nodes those of the tasks looked for that stand behind them."""
    bit = {node: 1 << number for number, node in enumerate(looked_for)}
    reached: dict[str, int] = {}  # the node itself and what is behind it; nothing is left out
    for node in reversed(nodes):
        behind = 0
        for follower in order.behind[node]:
            if follower in reached:
                behind |= reached[follower]
        if behind and node in counts:
            counts[node] += behind.bit_count()
        if node in bit:
            behind |= bit[node]
        if behind:
            reached[node] = behind


def freed_by_all(board: Board, tasks: Sequence[str]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What would be ready at once, and what later, were all of these tasks finished now."""
    if len(tasks) == 1:
        return _if_finished(board, tasks[0])[1:]
    place = {node: number for number, node in enumerate(board.order.sequence)}
    readiness, stock, touched = board.readiness, board.stock, dict[str, None]()
    for task in sorted(tasks, key=lambda task_id: place[task_id]):
        ahead = readiness.if_finished(board.plan, task, _hold_it_starts(board, task))
        readiness, stock = ahead.readiness, stock.if_finished(task)
        touched |= dict.fromkeys(ahead.touched)
    nodes = [node for node in touched if node not in tasks]
    return _opened(board, Ahead(readiness, nodes), stock)


_Opened = tuple[Ahead, tuple[str, ...], tuple[str, ...]]


@lru_cache(maxsize=4)
def _looked_at(_board: Board) -> dict[str, _Opened]:
    """What was worked out for this board: the ranking, a row and its sheet ask for the same."""
    return {}


def _if_finished(board: Board, task_id: str) -> _Opened:
    """What would be so, the tasks that would be ready at once, and those after a hold."""
    known = _looked_at(board)
    if task_id not in known:
        hold = _hold_it_starts(board, task_id)
        ahead = board.readiness.if_finished(board.plan, task_id, hold)
        counted = bool(board.plan.tasks[task_id].supplies)  # what it used is needed no longer
        stock = board.stock.if_finished(task_id) if counted else board.stock
        known[task_id] = (ahead, *_opened(board, ahead, stock))
    return known[task_id]


def _hold_it_starts(board: Board, task_id: str) -> StandingHold | None:
    """The hold that would run if the task were finished now."""
    hold = hold_if_finished(board, task_id)
    return hold if hold is not None and hold.stops_work else None


def _opened(board: Board, ahead: Ahead, stock: Stock) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The tasks with no unfinished work before them any more: those ready at once, and those that
    something else still keeps."""
    now, later = [], []
    for node in ahead.touched:
        if gate_of(node) or not _to_do(board, node):
            continue
        task = board.plan.tasks[node]
        stops = ahead.readiness.stops(task, stock.short_of(task))
        if not stops and not board[node].unreadable:
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
        and not board[node].unreadable
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

    @cache  # a component's tasks have their gate in common
    def is_behind_one(gate: str) -> bool:
        return not waiting.keys().isdisjoint(order.tasks_right_before(gate))

    return tuple(
        task
        for task in waiting
        if not any(
            is_behind_one(node) if gate_of(node) else node in waiting for node in order.before[task]
        )
    )


def _to_do(board: Board, task_id: str) -> bool:
    return not board[task_id].work_done and board[task_id].state not in ("under way", "set aside")
