"""What has to follow, in words."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime

from crewboard.logbook.state import NOT_YET
from crewboard.order.board import Board
from crewboard.order.said import day_and_time, quoted_title, titled, together, when
from crewboard.order.within import MustFollow, followed_by, must_follow
from crewboard.plan.duration import Duration
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task


def by_in_words(board: Board, follow: MustFollow, afters: str = "") -> str:
    """ "by 15:40: 4 hours after "Blast: Panel 1"", or "too late since 15:40: ..."; with the titles
    of all that it comes after, where several stand together."""
    until = when(follow.by, board.at)
    after = f"{follow.span} after {afters or quoted_title(board.plan, follow.after)}"
    return f"too late since {until}: {after}" if follow.late else f"by {until}: {after}"


def begin_by_in_words(board: Board, follow: MustFollow) -> str:
    """The whole sentence: until when it has to be begun, or what has to be done again."""
    after = quoted_title(board.plan, follow.after)
    finished = f"finished {day_and_time(follow.finished)}"
    if not follow.late:
        return f"to be begun by {day_and_time(follow.by)}: {follow.span} after {after} ({finished})"
    sentence = (
        f"too late since {day_and_time(follow.by)}: it had to be begun within {follow.span} after "
        f"{after} ({finished})"
    )
    if follow.late == (follow.after,):
        return f"{sentence}, which has to be done again (reopen it)"
    return f"{sentence}; {again_in_words(board, follow.late)}"


def again_in_words(board: Board, late: Sequence[str]) -> str:
    """ ""Blast: Panel 1" has to be done again (reopen it)"."""
    has, it = ("has", "it") if len(late) == 1 else ("have", "them")
    return f"{titled(board.plan, late)} {has} to be done again (reopen {it})"


def would_follow_in_words(board: Board, tasks: Sequence[str], at: datetime) -> Iterator[str]:
    """What would have to follow by when, were all of these finished at that moment."""
    spans: dict[Duration, dict[str, None]] = {}
    for task_id in tasks:
        for task, span in _still_to_follow(board, task_id):
            spans.setdefault(span, {})[task.id] = None
    for span, followers in spans.items():
        by = when(board.plan.clock.add(at, span), board.at)
        for some in together(board.plan, followers):
            yield f"{titled(board.plan, some)} by {by}: {span} after this"


def followed_in_words(board: Board, tasks: Sequence[str]) -> Iterator[str]:
    """What has to follow these tasks: of what is finished and runs by when, else how long after."""
    running = must_follow(board)
    followers = {task.id for done in tasks for task, _ in _still_to_follow(board, done)}
    due = [f for f in running.values() if f.task in followers and f.after in tasks]
    for some in _alike(board.plan, due):
        afters = titled(board.plan, dict.fromkeys(follow.after for follow in some))
        title = titled(board.plan, [follow.task for follow in some])
        yield f"{title} {by_in_words(board, some[0], afters)}"
    spans: dict[Duration, dict[str, None]] = {}
    for task_id in tasks:
        if not board[task_id].work_done:
            for task, span in _still_to_follow(board, task_id):
                spans.setdefault(span, {})[task.id] = None
    for span, later in spans.items():
        for some_tasks in together(board.plan, later):
            has = "has" if len(some_tasks) == 1 else "have"
            title = titled(board.plan, some_tasks)
            yield f"{title} {has} to be begun within {span} after it"


def _still_to_follow(board: Board, task_id: str) -> Iterator[tuple[Task, Duration]]:
    for task, span in followed_by(board.plan, task_id):
        if board[task.id].state in ("ready", *NOT_YET) and not board[task.id].work_done:
            yield task, span


def _alike(plan: Plan, follows: Iterable[MustFollow]) -> list[list[MustFollow]]:
    """Those of one series whose time ends at one moment, together."""
    groups: dict[tuple[str, datetime], list[MustFollow]] = {}
    for follow in follows:
        written = plan.tasks[follow.task].series or follow.task
        groups.setdefault((written, follow.by), []).append(follow)
    return list(groups.values())
