"""Hours worked against hours estimated, as the finished tasks tell it, and how surely."""

from __future__ import annotations

from math import log, sqrt

from crewboard.order.board import Board, openings_of
from crewboard.order.forecast.model import Pace
from crewboard.order.presence import days_with_people
from crewboard.plan.task import Estimate

# What is believed before the log says anything, as logarithms (common sense, no source): crews are
# somewhat slower than they think, by half or double at the outside, and tasks differ.
BEFORE_MEAN, BEFORE_DOUBT = 0.1, 0.4
BEFORE_SCATTER, BEFORE_TASKS = 0.35, 4.0
# A task that took five times its estimate, or a fifth, says as much as one still further off: one
# slip of the pen must not set the pace of all the others.
FURTHEST = log(5)
# Of a day in the shop some goes into tea and talk.
BEFORE_SHARE, BEFORE_VISITS = 0.75, 6.0
# How much the share of one visit differs from that of another.
_VISIT_SCATTER = 0.25


def evidence(board: Board) -> list[float]:
    """log(hours worked / mean of the estimate) of each finished task that has both."""
    ratios = []
    for standing in board.standings.values():
        estimate = standing.task.estimate
        if standing.work_done and standing.hours > 0 and estimate is not None:
            mean = (estimate.low + 4 * estimate.likely + estimate.high) / 6
            if mean > 0:
                ratio = log(standing.hours / mean)
                ratios.append(min(FURTHEST, max(-FURTHEST, ratio)))
    return ratios


def pace(board: Board) -> Pace:
    """The crew's pace: a normal mean with a normal belief before, its scatter shrunk likewise."""
    ratios = evidence(board)
    count = len(ratios)
    middle = sum(ratios) / count if count else BEFORE_MEAN
    squares = sum((r - middle) ** 2 for r in ratios)
    freedom = max(0, count - 1)
    variance = (BEFORE_TASKS * BEFORE_SCATTER**2 + squares) / (BEFORE_TASKS + freedom)
    sure_before, sure_now = 1 / BEFORE_DOUBT**2, count / variance
    mean = (BEFORE_MEAN * sure_before + middle * sure_now) / (sure_before + sure_now)
    inside = _range_of_estimates(board)
    share, share_doubt = _share(board)
    return Pace(
        mean,
        sqrt(1 / (sure_before + sure_now)),
        sqrt(max(0.0, variance - inside)),
        share,
        share_doubt,
    )


def _range_of_estimates(board: Board) -> float:
    """The scatter that the three-point estimates account for already, as a variance of logs."""
    asked = (task for name, task in board.plan.tasks.items() if name not in board.not_asked)
    known = [task.estimate for task in asked if task.estimate and task.estimate.likely > 0]
    return sum(_relative_variance(e) for e in known) / len(known) if known else 0.0


def _relative_variance(estimate: Estimate) -> float:
    mean = (estimate.low + 4 * estimate.likely + estimate.high) / 6
    return ((estimate.high - estimate.low) / 6 / mean) ** 2 if mean > 0 else 0.0


def _share(board: Board) -> tuple[float, float]:
    """How much of the open hours of those who came lately went into tasks, and how surely known."""
    worked = there = 0.0
    visits = 0
    for day, came in days_with_people(board.plan, board.logbook, board.at).items():
        openings = openings_of(board.plan, board.logbook, day)
        of_tasks = board.logbook.days[day].hours_by_task if openings else {}
        on_tasks = sum(hours for task, hours in of_tasks.items() if task)
        if on_tasks > 0:  # where nobody wrote hours down the day says nothing
            worked += on_tasks
            there += len(came) * sum(opening.length for opening in openings)
            visits += len(came)
    before = BEFORE_VISITS * (there / visits if visits else 7.0)
    share = (BEFORE_SHARE * before + worked) / (before + there)
    return min(1.0, max(0.1, share)), _VISIT_SCATTER / sqrt(BEFORE_VISITS + visits)
