"""The plan that the day runs by: what a lead took over, what is now by it and what comes next.

It authorises nothing, and nothing on the board is otherwise because of it.
"""

from collections.abc import Iterator
from datetime import datetime
from functools import lru_cache
from typing import NamedTuple

from crewboard.logbook.acts import Planned
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.order.day_plan.proposal import DayPlan, Placed, SmallJob
from crewboard.order.day_plan.through_holds import looks_before
from crewboard.order.presence import of_the_day


class Running(NamedTuple):
    """A plan that was taken over. `by` and `at` say by whom and when, `entries` are its lines."""

    by: str
    at: datetime
    placed: tuple[Placed, ...]
    small: tuple[SmallJob, ...]
    entries: tuple[str, ...]


class Turn(NamedTuple):
    """What somebody is to do by the running plan: a task, or the words of a small job. With `look`
    a hold still has to be looked at and released first."""

    task: str
    what: str
    people: tuple[str, ...]
    start: datetime
    end: datetime
    look: bool = False


@lru_cache(maxsize=4)
def running_plan(board: Board) -> Running | None:
    """The plan of the board's day that was taken over last; None where nobody took one over."""
    lines = [entry for entry, _ in planned_lines(board)]
    taking = max((_number(entry) for entry in lines), default=None)
    lines = [entry for entry in lines if _number(entry) == taking]
    if not lines:
        return None
    placed, small = [], []
    for entry in lines:
        act = entry.act
        assert isinstance(act, Planned)
        if act.begins is None or act.ends is None:  # a line with a mistake, which is told elsewhere
            continue
        start, end = (datetime.combine(board.at.date(), on) for on in (act.begins, act.ends))
        if act.task in board.plan.tasks:
            looks = looks_before(board, act.task) if act.look else ()
            placed.append(
                Placed(
                    *(act.task, act.people, start, end, act.finishes, act.watch),
                    learning=act.learning,
                    looks=looks,
                )
            )
        elif act.what:
            small.append(SmallJob(act.what, act.people, start, end))
    placed.sort(key=lambda each: each.start)
    last = lines[-1]
    ids = tuple(entry.id for entry in lines)
    return Running(last.by, last.at, tuple(placed), tuple(small), ids)


def planned_lines(board: Board) -> Iterator[tuple[Entry, Planned]]:
    """Every line that counts of a plan of the board's day, of whichever taking-over."""
    day = board.logbook.days.get(board.at.date())
    for entry in day.counting if day is not None else ():
        if isinstance(entry.act, Planned) and entry.at <= board.at:
            yield entry, entry.act


def rests_on(board: Board) -> tuple[object, ...]:
    """What a plan of the day rests on: who is here and who comes, what is begun and done,
    the plan of the work, which plan of the day runs. While it is the same nothing is to change."""
    running = running_plan(board)
    course = tuple(
        (task, standing.begun, standing.stopped, standing.work_done)
        for task, standing in board.standings.items()
        if standing.begun is not None or standing.work_done
    )
    here = tuple(of_the_day(board))
    return board.at.date(), here, course, board.plan, board.unreadable, running and running.entries


def taking_over(board: Board, plan: DayPlan, by: str) -> list[Planned]:
    """The lines by which the day runs by this plan, in place of any that was taken over before."""
    numbers = [_number(entry)[0] for entry, _ in planned_lines(board)]
    taking = f"{max(numbers, default=0) + 1} {board.at:%H:%M} {by}".rstrip()
    lines = [
        Planned(
            each.people,
            each.start.time(),
            each.end.time(),
            each.task,
            watch=each.watch,
            learning=each.learning,
            look=bool(each.looks),
            finishes=each.finishes,
            taking=taking,
        )
        for each in plan.placed
    ]
    return lines + [
        Planned(each.people, each.start.time(), each.end.time(), what=each.what, taking=taking)
        for each in plan.small
    ]


def now_by_plan(board: Board, running: Running) -> list[Turn]:
    """What is to go on now and is not done: also what has begun."""
    return [turn for turn in _turns(board, running) if turn.start <= board.at < turn.end]


def next_by_plan(board: Board, running: Running) -> list[Turn]:
    """Each person's next, in order of time: every turn that is the next of one of its people."""
    met: set[str] = set()
    coming: list[Turn] = []
    for turn in _turns(board, running):
        if turn.start > board.at:
            if not met.issuperset(turn.people):
                coming.append(turn)
            met.update(turn.people)
    return coming


def planned_for(board: Board, task: str) -> Placed | None:
    """When and by whom a task is to be done by the running plan, where that is not over."""
    running = running_plan(board)
    if running is None or task not in board.plan.tasks or board[task].work_done:
        return None
    return next((p for p in running.placed if p.task == task and p.end > board.at), None)


def _turns(board: Board, running: Running) -> list[Turn]:
    turns = [
        Turn(each.task, "", each.people, each.start, each.end, bool(each.looks))
        for each in running.placed
        if not board[each.task].work_done
    ]
    turns += [Turn("", s.what, s.people, s.start, s.end) for s in running.small]
    return sorted(turns, key=lambda turn: turn.start)


def _number(entry: Entry) -> tuple[int, str]:
    """The how-manieth plan of the day the line belongs to; two clones may each have one."""
    assert isinstance(entry.act, Planned)
    number, _, rest = entry.act.taking.partition(" ")
    known = number.isdecimal() and len(number) < 10
    return (int(number) if known else 0), rest
