"""Questions about hours, holds and dates."""

from __future__ import annotations

from collections.abc import Iterator, Set
from datetime import timedelta

from crewboard.order.ahead.calendar_path import CalendarPath
from crewboard.order.board import Board
from crewboard.order.review.question import Question
from crewboard.order.said import day_in_words, how_many
from crewboard.order.sequence.graph import OrderOfWork
from crewboard.plan.duration import Duration, parse_duration
from crewboard.plan.hold import KINDS
from crewboard.plan.task import Task

# A wait longer than this should say where its time comes from.
TO_BE_EXPLAINED = timedelta(days=14)
# A task that takes its usual crew more work days than this should be several (see RULES).
LONG_TASK_DAYS = 6


def about_times(board: Board, path: CalendarPath) -> Iterator[Question]:
    for name in path.work:
        task = board.plan.tasks[name]
        yield from _hold(board, task)
        yield from _hours(board, path, task)
    yield from _follow_too_soon(board, path)
    yield from _ranges(board, path)
    yield from _dates(board, path)
    yield from _calendar(board)


def _span(board: Board, span: Duration) -> timedelta:
    return board.plan.clock.add(board.at, span) - board.at


def _hold(board: Board, task: Task) -> Iterator[Question]:
    hold = task.hold
    if hold is None or hold.lasts is None:
        return
    lasts = _span(board, hold.lasts)
    longest = KINDS[hold.kind].longest
    if lasts > _span(board, parse_duration(longest)):
        yield Question(
            "long hold",
            "task",
            task.id,
            f'the hold after "{task.title}" lasts {hold.lasts}: a {hold.kind} seldom takes more '
            f"than {longest}",
            "check the unit, and the label",
            "hold",
        )
    elif lasts > TO_BE_EXPLAINED and not hold.note and not hold.source:
        yield Question(
            "hold without a reason",
            "task",
            task.id,
            f'the hold after "{task.title}" lasts {hold.lasts} and does not say why',
            "give its source: the label, the book, the shop's own practice",
            "hold",
        )


def _follow_too_soon(board: Board, path: CalendarPath) -> Iterator[Question]:
    for name in dict.fromkeys(board.plan.tasks[task].series or task for task in path.work):
        task = board.plan.written(name)
        yield from _follows_too_soon(board, task) if task else ()


def _follows_too_soon(board: Board, task: Task) -> Iterator[Question]:
    """A time to follow in that is over before the hold of what it follows is."""
    for named, within in task.within.items():
        before = board.plan.written(named)
        hold = before.hold if before else None
        if before is None or hold is None or hold.lasts is None or named in task.during:
            continue
        if _span(board, within) < _span(board, hold.lasts):
            yield Question(
                "follows too soon",
                "task",
                task.id,
                f'"{task.title}" has to be begun within {within} after "{before.title}", and the '
                f"hold of that lasts {hold.lasts}",
                "give it more time, or name the other one in its during instead of its after",
                "within",
            )


def _hours(board: Board, path: CalendarPath, task: Task) -> Iterator[Question]:
    standing = board[task.id]
    if standing.state == "set aside":
        return
    if task.estimate is None and standing.left is None:
        yield Question(
            "no estimate",
            "task",
            task.id,
            f'nobody has said how many hours "{task.title}" takes',
            "write hours = [low, likely, high] in person-hours",
        )
        return
    days = path.work[task.id] / 60 / max(1.0, board.plan.vehicle.work_days.usual.length)
    if days > LONG_TASK_DAYS:
        yield Question(
            "long task",
            "task",
            task.id,
            f'"{task.title}" takes its usual crew {days:.0f} work days',
            "make several tasks of it, so that it can be seen how far it is",
            "hours",
        )


def _ranges(board: Board, path: CalendarPath) -> Iterator[Question]:
    sure = [
        name
        for name in path.work
        if (estimate := board.plan.tasks[name].estimate) and estimate.low == estimate.high
    ]
    if sure:
        has = "has" if len(sure) == 1 else "have"
        yield Question(
            "no range",
            "vehicle",
            "",
            f"{how_many(len(sure), 'task')} {has} one number of hours and no range, such as "
            f'"{board.plan.tasks[sure[0]].title}"',
            "write hours = [low, likely, high], so that a forecast knows how sure they are",
        )


def _dates(board: Board, path: CalendarPath) -> Iterator[Question]:
    for name in path.late_for_due():
        task, times = board.plan.tasks[name], path.of_task(name)
        if times is not None and task.due is not None:
            yield Question(
                "date cannot be kept",
                "task",
                name,
                f'"{task.title}" is due on {day_in_words(task.due)} and cannot be finished before '
                f"{day_in_words(times.finish)}, even if nothing waits for people",
                "move the date, or shorten what comes before it",
                "due",
            )
    for task in board.plan.tasks.values():
        if task.finished is not None and task.finished > board.at.date():
            yield Question(
                "finished in the future",
                "task",
                task.id,
                f'"{task.title}" is called finished on {day_in_words(task.finished)}, which is to '
                "come",
                "correct the date, or remove it",
                "finished",
            )
    yield from _set_aside(board)


def _set_aside(board: Board) -> Iterator[Question]:
    waiting = {
        s.task.id
        for s in board.standings.values()
        if not s.work_done and s.task.id not in board.not_asked
    }
    before_waiting: set[str] = set()  # the nodes behind which unfinished work stands
    for node in reversed(board.order.sequence):
        if any(b in waiting or b in before_waiting for b in board.order.behind[node]):
            before_waiting.add(node)
    for standing in board.in_state("set aside"):
        if standing.task.id in before_waiting and standing.task.id not in board.not_asked:
            yield Question(
                "blocked by what is set aside",
                "task",
                standing.task.id,
                f'"{standing.task.title}" is set aside and '
                f"{_waiting_behind(board.order, standing.task.id, waiting)} behind it",
                "pick it up again, or remove it from what must come first",
            )


# So many unfinished tasks behind one are counted; of more it is said that they are at least these.
_COUNTED = 100


def _waiting_behind(order: OrderOfWork, task: str, waiting: Set[str]) -> str:
    """How many unfinished tasks wait behind a task: "1 task waits", "at least 100 tasks wait"."""
    seen, ahead, count = {task}, [task], 0
    while ahead and count <= _COUNTED and len(seen) <= 10 * _COUNTED:
        for node in order.behind[ahead.pop()]:
            if node not in seen:
                seen.add(node)
                ahead.append(node)
                count += node in waiting
    most = min(count, _COUNTED)
    more = "at least " if ahead or count > most else ""
    return f"{more}{how_many(most, 'task')} {'wait' if more or most != 1 else 'waits'}"


def _calendar(board: Board) -> Iterator[Question]:
    days = board.plan.vehicle.work_days
    if next(days.coming(board.at.date(), 366), None) is None:
        yield Question(
            "no work days",
            "vehicle",
            "",
            "the calendar names no work day within the next year",
            'write the rule in vehicle.toml: every = ["first saturday"]',
        )
