"""What a task may take of which nobody said how long it takes: about what the others take."""

from __future__ import annotations

from crewboard.order.ahead.effort import usual_hours
from crewboard.plan.plan import Plan
from crewboard.plan.task import Estimate

# It may take a third, or three times, of what is usual.
UNKNOWN = 3.0


def of_unknown(plan: Plan) -> Estimate:
    """Most likely the middle one of the others, and on average as much as these are on average: a
    few large tasks make that more. In person-hours."""
    usual = usual_hours(plan)
    known = [t.estimate for t in plan.tasks.values() if t.estimate is not None]
    mean = sum(mean_of(each) for each in known) / len(known) if known else usual
    low = usual / UNKNOWN
    return Estimate(low, usual, max(usual * UNKNOWN, 6 * mean - 4 * usual - low))


def mean_of(estimate: Estimate) -> float:
    """The mean of three points (beta-PERT: Malcolm et al. 1959)."""
    return (estimate.low + 4 * estimate.likely + estimate.high) / 6
