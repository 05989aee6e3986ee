"""What has to follow: work that has to be begun so soon after other work is finished.

Bare metal is primed the same day, glue is clamped before it skins. The time runs from the finish,
by the shop's clock, whether anybody is there or not, until the work is begun: a begin in time meets
it. A finish that is taken back or reopened, or whose piece failed, starts none; nor does one of
before the logbook was kept, of which only the day is known.
"""

from collections.abc import Iterator
from datetime import datetime
from functools import lru_cache
from typing import NamedTuple

from crewboard.logbook.acts import Begun, Finished
from crewboard.logbook.state import NOT_YET
from crewboard.order.board import Board
from crewboard.plan.duration import Duration
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task


class MustFollow(NamedTuple):
    """A task that has to be begun `by` then: at most `span` after `after`, `finished` at that
    moment. Of several before it the one whose time ends first. `late`: those whose time is over,
    which have to be done again first."""

    task: str
    after: str
    finished: datetime
    span: Duration
    by: datetime
    late: tuple[str, ...] = ()


@lru_cache(maxsize=4)
def must_follow(board: Board) -> dict[str, MustFollow]:
    """Task -> how it has to follow, the soonest first: the tasks not begun whose time runs, or is
    over."""
    following: list[MustFollow] = []
    for task in board.plan.tasks.values():
        if task.within and board[task.id].state in ("ready", *NOT_YET):
            following += _follows(board, task)
    return {follow.task: follow for follow in sorted(following, key=lambda f: f.by)}


def followed_by(plan: Plan, task_id: str) -> Iterator[tuple[Task, Duration]]:
    """The tasks that have to follow this one, and how long after it at most."""
    for task in plan.tasks.values():
        for named, span in task.within.items():
            if task_id in comes_after(plan, task, named):
                yield task, span


def comes_after(plan: Plan, task: Task, named: str) -> tuple[str, ...]:
    """The tasks that a name in its `within` stands for: of a series the same piece's task, or all
    where it is not done piece by piece."""
    series = plan.series.get(named)
    if series is None:
        return (named,) if named in plan.tasks else ()
    shares = series.shares_pieces_with(plan.series.get(task.series))
    same = series.of_pieces(task.pieces, shares)
    return tuple(series.members.values()) if same is None else same


def _follows(board: Board, task: Task) -> Iterator[MustFollow]:
    running = sorted(_running(board, task), key=lambda follow: follow.by)
    if running and not _was_begun_since(board, task.id, running[0].finished):
        late = tuple(follow.after for follow in running if follow.by < board.at)
        yield running[0]._replace(late=late)


def _running(board: Board, task: Task) -> Iterator[MustFollow]:
    for named, span in task.within.items():
        for before in comes_after(board.plan, task, named):
            finished = finished_at(board, before)
            if finished is not None:
                by = board.plan.clock.add(finished, span)
                yield MustFollow(task.id, before, finished, span, by)


def finished_at(board: Board, task_id: str) -> datetime | None:
    """When the work of a task was done, where the logbook says so and it still counts."""
    course = board.history.courses.get(task_id)
    if course is None or course.finished is None or task_id in board.readiness.facts.lost:
        return None
    act = course.finished.act
    assert isinstance(act, Finished)
    return act.clock or course.finished.at


def _was_begun_since(board: Board, task_id: str, finished: datetime) -> bool:
    """Of work that is open again: whether it had been begun after that finish."""
    if task_id not in board.history.reopened:
        return False
    return any(
        isinstance(entry.act, Begun) and entry.act.task == task_id
        for day in board.logbook.days.values()
        for entry in day.events
        if finished <= entry.at <= board.at
    )
