"""Hours worked against hours estimated, as the finished tasks tell it, and how surely."""

from __future__ import annotations

from datetime import datetime
from math import log, sqrt

from crewboard.order.board import Board, openings_of
from crewboard.order.forecast.hours_fit import fitted
from crewboard.order.forecast.model import Pace
from crewboard.order.presence import days_with_people
from crewboard.plan.task import Estimate

# A task that took eight times its estimate, or an eighth, says as much as one still further off:
# one slip of the pen must not set the pace of all the others.
FURTHEST = log(8)
# Of a day in the shop some goes into tea and talk.
BEFORE_SHARE, BEFORE_VISITS = 0.75, 6.0
# How much the share of one visit differs from that of another.
_VISIT_SCATTER = 0.25


def evidence(board: Board) -> list[float]:
    """log(hours worked / mean of the estimate) of each finished task that has both, in the order in
    which they were finished."""
    ratios = []
    for standing in board.standings.values():
        estimate = standing.task.estimate
        if standing.work_done and standing.hours > 0 and estimate is not None:
            mean = (estimate.low + 4 * estimate.likely + estimate.high) / 6
            if mean > 0:
                ratio = log(standing.hours / mean)
                finished = standing.finished or datetime.min
                ratios.append((finished, min(FURTHEST, max(-FURTHEST, ratio))))
    return [ratio for _, ratio in sorted(ratios, key=lambda told: told[0])]


def pace(board: Board) -> Pace:
    """The crew's pace after what the log holds."""
    ratios = evidence(board)
    fit = fitted(ratios)
    inside = _range_of_estimates(board)
    tails = (t._replace(scatter=sqrt(max(0.0, t.scatter**2 - inside))) for t in fit.tails)
    share, share_doubt = _share(board)
    return Pace(
        fit.mean,
        fit.doubt,
        tuple(tails),
        fit.known,
        share,
        share_doubt,
        practice=fit.practice,
        practice_doubt=fit.practice_doubt,
        done=len(ratios),
        middle=fit.middle,
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
