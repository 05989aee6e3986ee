"""What then: what finishing a task lets go, now and after its hold."""

from __future__ import annotations

from typing import NamedTuple

from crewboard.order.board import Board


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
    task = board.plan.tasks[task_id]
    now: list[str] = []
    later: list[str] = []
    closer: list[str] = []
    for follower in board.order.tasks_right_behind(task_id):
        standing = board[follower]
        if standing.work_done or standing.state in ("under way", "set aside"):
            continue
        earlier = board.order.tasks_right_before(follower)
        if any(not board[e].work_done for e in earlier if e != task_id):
            closer.append(follower)
            continue
        allowed = board.order.during.get(follower, frozenset())
        held = (task.hold is not None and task_id not in allowed) or any(
            board[e].state == "held" for e in earlier if e not in allowed and e != task_id
        )
        blocked = bool(standing.short_of) or bool(standing.holds)
        (later if held or blocked else now).append(follower)
    behind = sum(not board[each].work_done for each in board.order.all_behind(task_id))
    return Onward(tuple(now), tuple(later), tuple(closer), behind)
