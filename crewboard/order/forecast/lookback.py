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
from crewboard.order.forecast.aside import is_aside
from crewboard.order.forecast.attendance import attendance, past_attendance
from crewboard.order.forecast.came import came_on
from crewboard.order.forecast.course import work_days_until
from crewboard.order.forecast.days import WorkDayTable
from crewboard.order.forecast.model import Model, Work
from crewboard.order.forecast.remaining import remaining
from crewboard.order.forecast.unknown import mean_of, of_unknown
from crewboard.order.forecast.who_may import Crew
from crewboard.order.presence import days_with_people, lately
from crewboard.plan.plan import Plan

# How far off the rules may be before the log says anything, as a logarithm (common sense, no
# source; how wide was set by the calibration over invented histories). That crews are slower than
# they think is in the pace already (`hours_fit`), and what turns up in `growth`.
BEFORE_DOUBT = 0.25
# However long the past, the time to come may differ from it by this much.
STAYS = 0.12
# A past that was four times as slow, or as quick, says as much as one still further off.
FURTHEST = log(4)
_COURSES = 24


def with_lookback(board: Board, model: Model) -> Model:
    """The model with its pace put right by the past, and by the days off the calendar on which the
    crew meets as well."""
    mean, doubt = _stretch(board, model)
    mean -= log(1 + model.attendance.takes_place.extra)
    return model._replace(pace=model.pace._replace(stretch=mean, stretch_doubt=doubt))


def _stretch(board: Board, model: Model) -> tuple[float, float]:
    """How much longer things take than the rules say, as a logarithm, and how surely."""
    first = _first_day(board)
    if first is None:
        return 0.0, sqrt(BEFORE_DOUBT**2 + STAYS**2)
    plan = _as_lived(board, first)
    then = assess(plan, board.logbook, datetime.combine(first, time()), board.order)
    crew = Crew(board, since=first)
    past = remaining(
        then,
        crew_as=crew,
        attendance_as=attendance(board, crew.order)._replace(
            answers={}, past=past_attendance(board, crew.order)
        ),
        pace_as=model.pace._replace(done=0),
        delays_as=model.delays._replace(aside=None),
    )
    past = past._replace(
        earliest=_found_then(board, past, first), work=tuple(_as_it_came(board, past))
    )
    unknown = of_unknown(plan)
    # By what a finished task counts as progress.
    worth = [mean_of(plan.tasks[name].estimate or unknown) for name in past.tasks]
    done = [board[name] for name in past.tasks if board[name].work_done]
    target = sum(w for w, name in zip(worth, past.tasks, strict=True) if board[name].work_done)
    if not target:
        return 0.0, sqrt(BEFORE_DOUBT**2 + STAYS**2)
    days = _days_taken(plan, first, [standing.finished for standing in done])
    table = WorkDayTable(past)
    known = _hours_taken(board, past)
    took = [
        work_days_until(past, table, Random(f"past/{number}"), worth, target, known)
        for number in range(_COURSES)
    ]
    far = (log(days / max(0.1, days_taken)) for days_taken in took)
    ratios = [min(FURTHEST, max(-FURTHEST, ratio)) for ratio in far]
    middle = sum(ratios) / _COURSES
    scatter = sum((r - middle) ** 2 for r in ratios) / (_COURSES - 1)
    sure_before, sure_now = 1 / BEFORE_DOUBT**2, 1 / (scatter + STAYS**2)
    mean = middle * sure_now / (sure_before + sure_now)
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


def _hours_taken(board: Board, past: Model) -> dict[int, float]:
    """Finished task -> the minutes that it took since then: what is known is not drawn again."""
    return {
        number: 60 * board[name].hours - work.done
        for number, (name, work) in enumerate(zip(past.tasks, past.work, strict=True))
        if board[name].work_done and 60 * board[name].hours > work.done
    }


def _as_it_came(board: Board, past: Model) -> Iterable[Work]:
    """The work, and none of it where a task was set aside since."""
    for name, work in zip(past.tasks, past.work, strict=True):
        yield work._replace(low=0.0, range=0.0, hold=None) if is_aside(board, name) else work


def _as_lived(board: Board, first: date) -> Plan:
    """The plan with a calendar that has each day since then on which somebody came: the crew may
    have met on other days than it does now."""
    plan = board.plan
    days = plan.vehicle.work_days
    held = days_with_people(plan, board.logbook, board.at)
    off = tuple((day, None) for day in held if day >= first and not days.openings_on(day))
    if not off:
        return plan
    lived = days._replace(
        also=(*days.also, *off), closed=tuple(c for c in days.closed if c[0] not in held)
    )
    return plan._replace(vehicle=plan.vehicle._replace(work_days=lived))


def _days_taken(plan: Plan, first: date, finished: Iterable[datetime | None]) -> int:
    """Work days of the calendar until the last of what is done was done."""
    last = max((moment.date() for moment in finished if moment is not None), default=first)
    work_days = plan.vehicle.work_days
    return max(1, sum(day <= last for day in work_days.coming(first, (last - first).days + 1)))
