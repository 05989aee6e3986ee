"""The clock on the shop's wall: the one place where the time of day is read."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime

from crewboard.plan.plan import Plan


def shop_now(plan: Plan) -> datetime:
    """What the clock on the shop's wall says, to the second.

    An example folder names the moment it is shown at, so that it does not age.
    """
    if plan.vehicle.shown_at is not None:
        return plan.vehicle.shown_at
    return real_now(plan)


def real_now(plan: Plan) -> datetime:
    """What it says in truth, also where an example folder is shown at another moment."""
    return datetime.now(plan.clock.zone).replace(tzinfo=None, microsecond=0)


def running_from(start: datetime) -> Callable[[], datetime]:
    """A clock that shows `start` now and runs on, also while summer time begins."""
    begun = datetime.now(UTC)
    return lambda: start + (datetime.now(UTC) - begun)
