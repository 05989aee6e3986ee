"""The figures behind the dates, for whoever has to explain them to a crew or a funder."""

from __future__ import annotations

from math import exp, inf
from typing import NamedTuple

from crewboard.order.ahead.calendar_path import calendar_path
from crewboard.order.ahead.effort import hours_left
from crewboard.order.board import Board
from crewboard.order.forecast.delays import lateness
from crewboard.order.forecast.finish import Forecast
from crewboard.order.forecast.forecast import model_of
from crewboard.order.forecast.model import Attendance
from crewboard.order.forecast.runs import Progress
from crewboard.order.forecast.unknown import of_unknown
from crewboard.order.forecast.waits import Waited, waited

RUNS = 120
# How many standard deviations to either side hold eight tenths of a normal distribution.
_EIGHT_TENTHS = 1.2816


class Range(NamedTuple):
    """What is most plausible, and the ends of its 80 % interval."""

    middle: float
    low: float
    high: float


class Attended(NamedTuple):
    """On how many of the work days since they joined somebody came, in the past year."""

    who: str
    days: int
    of: int


class Figures(NamedTuple):
    """`left`: person-hours by the estimates: likely, lowest, highest. `pace`: hours worked for
    each hour estimated, from `paced` finished tasks. `share`: of the time in the shop so much goes
    into tasks. `people`: who came on a work day on average, of `held` days; on `dropped` nobody
    did. `seasons`: what winter, spring, summer and autumn multiply that with. `day`: hours the shop
    is open, on `days` work days in the coming year. `late`: by what deliveries take longer than
    promised, as is believed after `delivered` that came, of which `came_late` after their day;
    `longer`: the share of holds that are made longer."""

    left: Range
    pace: Range
    paced: int
    share: Range
    people: float
    came: tuple[Attended, ...]
    held: int
    dropped: int
    seasons: tuple[float, float, float, float]
    day: float
    days: int
    late: float
    delivered: int
    came_late: int
    longer: float
    waited: Waited

    @property
    def in_a_month(self) -> float:
        """Person-hours that go into tasks in a month, at that rate."""
        return self.people * self.day * self.share.middle * self.days / 12


def figures(
    board: Board, forecast: Forecast, runs: int = RUNS, progress: Progress | None = None
) -> Figures:
    """The figures; `runs` of the forecast's courses are played again for the waits. `progress` may
    answer False to stop that."""
    model = model_of(board)
    pace, attendance, delays = model.pace, model.attendance, model.delays
    late = lateness(board)
    usual = board.plan.vehicle.work_days.usual
    known = [person for person in attendance.people if person.came + person.stayed_away]
    return Figures(
        _left(board),
        _around(exp(pace.mean), pace.doubt),
        forecast.basis.tasks_with_hours,
        _around(pace.share, pace.share_doubt, most=1.0),
        sum(p.came for p in attendance.people) / attendance.held if attendance.held else 0.0,
        tuple(
            Attended(p.id, p.came, p.came + p.stayed_away)
            for p in sorted(known, key=lambda p: -p.came)
        ),
        attendance.held,
        attendance.dropped,
        _seasons(attendance),
        usual.length,
        sum(1 for _ in board.plan.vehicle.work_days.coming(board.at.date(), 365)),
        exp(delays.late_mean),
        len(late),
        sum(ratio > 0 for ratio in late),
        delays.extended,
        waited(model, runs, forecast.seed, progress),
    )


def _left(board: Board) -> Range:
    """Person-hours of the work to do, by its three-point estimates less what was worked."""
    path = calendar_path(board)
    likely = low = high = 0.0
    unknown = of_unknown(board.plan)
    for name in path.work:
        standing = board[name]
        if standing.state == "set aside":
            continue
        estimate = standing.task.estimate or unknown
        likely += hours_left(standing, path.usual)
        low += max(0.0, estimate.low - standing.hours)
        high += max(hours_left(standing, path.usual), estimate.high - standing.hours)
    return Range(likely, low, high)


def _around(middle: float, doubt: float, most: float = inf) -> Range:
    """The range about a middle whose logarithm is doubtful."""
    factor = exp(_EIGHT_TENTHS * doubt)
    return Range(middle, middle / factor, min(most, middle * factor))


def _seasons(attendance: Attendance) -> tuple[float, float, float, float]:
    by_month = attendance.seasons
    return by_month[0], by_month[3], by_month[6], by_month[9]
