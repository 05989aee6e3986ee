"""What then: what finishing a task lets go, now and after its hold."""

from __future__ import annotations

from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.order.links import gate_of


class Onward(NamedTuple):
    """Task ids. `now` become ready at once, `after_hold` when the hold that follows is over;
    `closer` are next behind and still wait for other work. `behind` counts all that wait in the
    end."""

    now: tuple[str, ...]
    after_hold: tuple[str, ...]
    closer: tuple[str, ...]
    behind: int


def what_then(board: Board, task_id: str) -> Onward:
    """What finishing the task would let go; raises KeyError if unknown."""
    opened, pending = _opened_by(board, task_id)
    now: list[str] = []
    later: list[str] = []
    for follower, clear in opened.items():
        standing = board[follower]
        not_before = standing.task.not_before
        early = not_before is not None and board.at.date() < not_before
        blocked = early or bool(standing.short_of) or bool(standing.holds)
        allowed = board.order.during.get(follower)
        if allowed is not None:
            clear = _clear_for(board, follower, task_id, allowed)
        (now if clear and not blocked else later).append(follower)
    closer: dict[str, None] = {}
    for node in pending:
        near = board.order.tasks_right_behind(node) if gate_of(node) else [node]
        closer |= dict.fromkeys(each for each in near if _to_do(board, each) and each not in opened)
    behind = sum(not board[each].work_done for each in board.order.all_behind(task_id))
    return Onward(tuple(now), tuple(later), tuple(closer), behind)


def _lets_go(board: Board, task_id: str) -> bool:
    """Whether no hold follows the finish, nor one that somebody started by hand goes on."""
    by_hand = any(hold.task == task_id and hold.stops_work for hold in board.holds.values())
    return board.plan.tasks[task_id].hold is None and not by_hand


def _to_do(board: Board, task_id: str) -> bool:
    return not board[task_id].work_done and board[task_id].state not in ("under way", "set aside")


def _opened_by(board: Board, task_id: str) -> tuple[dict[str, bool], list[str]]:
    """The tasks that the finish would open, each with whether no hold would stand before it; and
    the tasks and gates it comes right before that would still wait for other work.

    The finish is carried onward through the gates that it opens.
    """
    done, clear = board.passed
    before, behind = board.order.before, board.order.behind
    free = {task_id: _lets_go(board, task_id)}
    opened: dict[str, bool] = {}
    pending: dict[str, None] = {}
    ahead = list(behind[task_id])
    while ahead:
        node = ahead.pop(0)
        if node in free or node in opened:
            continue
        if not all(done[b] or b in free for b in before[node]):
            pending[node] = None
            continue
        pending.pop(node, None)
        unheld = all(free[b] if b in free else clear[b] for b in before[node])
        if gate_of(node):
            free[node] = unheld
            ahead += behind[node]
        elif _to_do(board, node):
            opened[node] = unheld
    return opened, list(pending)


def _clear_for(board: Board, follower: str, task_id: str, allowed: frozenset[str]) -> bool:
    """For a task that may start during holds: none but those it may start in stands before it."""
    return all(
        (_lets_go(board, task_id) if each == task_id else board.passed.clear[each])
        for each in board.order.tasks_right_before(follower)
        if each not in allowed
    )
