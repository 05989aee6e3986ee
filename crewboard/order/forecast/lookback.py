"""The forecast held against the past: how long it would have said that what is done would take.

However a crew finds its work, loses time between jobs or tells its hours, it has come so far in so
many days. The same rules are played from a day of the past on: the one on which the crew began, or
a year ago, with the people who came. By how much the crew was really slower or quicker is taken
over for what is to come.

Work that was found on the way is played as the tasks it became, none begun before it was found, and
counts as done like any other: so it makes nobody slow, and is not counted twice. What is still to
be found is left out here.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime, time
from math import log, sqrt
from random import Random

from crewboard.order.ahead.work_time import DAY
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.forecast.attendance import attendance, past_attendance
from crewboard.order.forecast.came import came_on
from crewboard.order.forecast.course import work_days_until
from crewboard.order.forecast.days import WorkDayTable
from crewboard.order.forecast.model import Model
from crewboard.order.forecast.remaining import remaining
from crewboard.order.forecast.who_may import Crew
from crewboard.order.presence import lately
from crewboard.plan.task import Estimate

# What is believed before the log says anything, as logarithms (common sense, no source; how wide
# the doubt must be was set by the calibration over invented histories).
BEFORE_MEAN, BEFORE_DOUBT = 0.1, 0.25
# However long the past, the time to come may differ from it by this much.
STAYS = 0.12
# A past that was four times as slow, or as quick, says as much as one still further off.
FURTHEST = log(4)
_COURSES = 24


def with_lookback(board: Board, model: Model) -> Model:
    """The model with its pace put right by the past."""
    mean, doubt = _stretch(board, model)
    return model._replace(pace=model.pace._replace(stretch=mean, stretch_doubt=doubt))


def _stretch(board: Board, model: Model) -> tuple[float, float]:
    """How much longer things take than the rules say, as a logarithm, and how surely."""
    first = _first_day(board)
    if first is None:
        return BEFORE_MEAN, sqrt(BEFORE_DOUBT**2 + STAYS**2)
    then = assess(board.plan, board.logbook, datetime.combine(first, time()), board.order)
    crew = Crew(board, since=first)
    past = remaining(
        then,
        crew_as=crew,
        attendance_as=attendance(board, crew.order)._replace(
            answers={}, past=past_attendance(board, crew.order)
        ),
        pace_as=model.pace._replace(done=0),
        delays_as=model.delays,
    )
    past = past._replace(earliest=_found_then(board, past, first))
    worth = [_worth(board, name) for name in past.tasks]
    done = [board[name] for name in past.tasks if board[name].work_done]
    target = sum(w for w, name in zip(worth, past.tasks, strict=True) if board[name].work_done)
    if not target:
        return BEFORE_MEAN, sqrt(BEFORE_DOUBT**2 + STAYS**2)
    days = _days_taken(board, first, [standing.finished for standing in done])
    table = WorkDayTable(past)
    took = [
        work_days_until(past, table, Random(f"past/{number}"), worth, target)
        for number in range(_COURSES)
    ]
    far = (log(days / max(0.1, days_taken)) for days_taken in took)
    ratios = [min(FURTHEST, max(-FURTHEST, ratio)) for ratio in far]
    middle = sum(ratios) / _COURSES
    scatter = sum((r - middle) ** 2 for r in ratios) / (_COURSES - 1)
    sure_before, sure_now = 1 / BEFORE_DOUBT**2, 1 / (scatter + STAYS**2)
    mean = (BEFORE_MEAN * sure_before + middle * sure_now) / (sure_before + sure_now)
    return mean, sqrt(1 / (sure_before + sure_now) + STAYS**2)


def _first_day(board: Board) -> date | None:
    """The day from which on it is looked whether the crew came as far as the rules say."""
    told = (day for day, lines in board.logbook.days.items() if lines.counting)
    return next(iter(lately(told, board.at.date())), None)


def _found_then(board: Board, past: Model, first: date) -> tuple[int, ...]:
    """From which minute on each node can be worked on: a task that was found on the way from when
    it was."""
    earliest = list(past.earliest)
    for number, name in enumerate(past.tasks):
        added = came_on(board.logbook, board.plan.tasks[name])
        if added is not None and added > first:
            earliest[number] = max(earliest[number], (added - first).days * DAY)
    return tuple(earliest)


def _days_taken(board: Board, first: date, finished: Iterable[datetime | None]) -> int:
    """Work days of the calendar until the last of what is done was done."""
    last = max((moment.date() for moment in finished if moment is not None), default=first)
    work_days = board.plan.vehicle.work_days
    return max(1, sum(day <= last for day in work_days.coming(first, (last - first).days + 1)))


def _worth(board: Board, task: str) -> float:
    """By what a finished task counts as progress: its estimate."""
    estimate = board.plan.tasks[task].estimate or Estimate(1, 4, 8)
    return (estimate.low + 4 * estimate.likely + estimate.high) / 6
