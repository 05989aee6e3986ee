"""When each task came into the plan: with the plan as first written, or on the way.

The plan as first written is what was there at the end of the third work day: on the first days a
crew goes round the vehicle and writes down what it sees (common sense, no source). What came later
was found on the way, but for two kinds of tasks:

- Tasks set aside, and those finished before the logbook was kept, are neither.
- A crew may write its plan component by component. What came into a component that is written
  later, within four weeks of its first task and before anything in it was finished, is planning;
  unless the task names the finding that it came from.

A series is one task, which came with all its pieces. A task that is split later, or described anew
under another name, cannot be told from a find.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from typing import NamedTuple

from crewboard.logbook.logbook import Logbook
from crewboard.order.ahead.effort import usual_hours
from crewboard.order.board import Board
from crewboard.plan.task import Task

FIRST_DAYS = 3
TOGETHER = timedelta(weeks=4)


class Came(NamedTuple):
    """A task as it is written: its hours (means of the estimates, person-hours), when it came."""

    task: Task
    hours: float
    on: date | None

    @property
    def component(self) -> str:
        """The main component it is in."""
        return main_component(self.task)


class WhatCame(NamedTuple):
    """The tasks of the plan as first written and those found on the way.

    `since` is the day after which what came was found; None where nothing says when tasks came, or
    the crew met on fewer than three days yet. `finished` are the hours of estimated work in each
    main component that were finished after it.
    """

    since: date | None
    planned: tuple[Came, ...]
    found: tuple[Came, ...]
    finished: dict[str, float]

    @property
    def without_date(self) -> int:
        return sum(came.on is None for came in self.planned)


def main_component(task: Task) -> str:
    return task.component.partition("/")[0]


def what_came(board: Board) -> WhatCame:
    """The plan as first written, and what was found on the way, up to the board's moment."""
    today = board.at.date()
    known = [came for came in _all_that_came(board) if came.on is None or came.on <= today]
    since = _since(board, known)
    if since is None:
        return WhatCame(None, tuple(known), (), {})
    done = _finished(board)
    first = _first_of_each(known)
    first_done = {
        stem: min(day for at, day, _ in done if at == stem) for stem in {at for at, _, _ in done}
    }

    def found(came: Came) -> bool:
        if came.on is None or came.on <= since:
            return False
        begins, over = first[came.component], first_done.get(came.component, today)
        written_later = begins > since and came.on <= min(begins + TOGETHER, over)
        return bool(came.task.finding) or not written_later

    hours: dict[str, float] = {}
    for stem, day, worth in done:
        if day > since:
            hours[stem] = hours.get(stem, 0.0) + worth
    return WhatCame(
        since,
        tuple(came for came in known if not found(came)),
        tuple(came for came in known if found(came)),
        hours,
    )


def mean_hours(task: Task, usual: float) -> float:
    """The mean of the task's three-point estimate, or the usual, in person-hours."""
    estimate = task.estimate
    return (estimate.low + 4 * estimate.likely + estimate.high) / 6 if estimate else usual


def came_on(logbook: Logbook, task: Task) -> date | None:
    """When the task came into the plan, as it says itself or the finding that it came from."""
    if task.added is not None or not task.finding:
        return task.added
    entry = logbook.find(task.finding)
    return entry[0].date if entry is not None else None


def _all_that_came(board: Board) -> Iterator[Came]:
    usual = usual_hours(board.plan)
    for task in board.plan.all_written().values():
        series = board.plan.series.get(task.id)
        names = [task.id] if series is None else list(series.members.values())
        hours = [
            mean_hours(board.plan.tasks[name], usual)
            for name in names
            if name not in board.not_asked and board[name].state != "set aside"
        ]
        if hours and task.finished is None:
            yield Came(task, sum(hours), came_on(board.logbook, task))


def first_days_end(logbook: Logbook, today: date) -> date | None:
    """The day at whose end the plan is as first written; None before it."""
    days = sorted(d for d, lines in logbook.days.items() if lines.counting and d <= today)
    return days[FIRST_DAYS - 1] if len(days) >= FIRST_DAYS else None


def _since(board: Board, known: list[Came]) -> date | None:
    """The end of the first work days; later, where what says when tasks came begins later."""
    end = first_days_end(board.logbook, board.at.date())
    dates = [came.on for came in known if came.on is not None]
    return max(end, min(dates)) if end is not None and dates else None


def _first_of_each(known: list[Came]) -> dict[str, date]:
    """Main component -> the day of its first task; of one without a date the first day there is."""
    first: dict[str, date] = {}
    for came in known:
        day = came.on or date.min
        first[came.component] = min(day, first.get(came.component, day))
    return first


def _finished(board: Board) -> list[tuple[str, date, float]]:
    """Of the finished work in the logbook: main component, day, hours of its estimate."""
    usual = usual_hours(board.plan)
    done = []
    for name, standing in board.standings.items():
        course = board.history.courses.get(name)
        if standing.work_done and course is not None and course.finished is not None:
            day = course.finished.at.date()
            done.append((main_component(standing.task), day, mean_hours(standing.task, usual)))
    return done
