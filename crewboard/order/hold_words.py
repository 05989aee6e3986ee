"""A standing hold in words: what it is on, since when it runs, and when it is over."""

from datetime import datetime

from crewboard.order.hold_ends import end_in_words
from crewboard.order.running import StandingHold
from crewboard.order.said import day_and_time, name_of, when
from crewboard.plan.hold import KINDS
from crewboard.plan.plan import Plan


def hold_title(plan: Plan, hold: StandingHold) -> str:
    """What the hold is on: its task, else its component."""
    return name_of(plan, hold.task, hold.component)


def course_in_words(plan: Plan, hold: StandingHold, now: datetime | None = None) -> str:
    """ "on the form since Sat 2 May 2026 16:00, until Tue 2 Jun 2026 16:00"; with `now`, days and
    times shorter."""
    since = f"{KINDS[hold.kind].words} since {_moment(hold.since, now)}"
    return f"{since}, {stage_in_words(plan, hold, now)}"


def stage_in_words(plan: Plan, hold: StandingHold, now: datetime | None = None) -> str:
    """Since when it is due for a look, or when it ends."""
    if hold.stage == "due":
        return "due for a look" + (f" since {_moment(hold.until, now)}" if hold.until else "")
    return end_in_words(hold.end, plan.vehicle.units, now)


def _moment(moment: datetime, now: datetime | None) -> str:
    return when(moment, now) if now is not None else day_and_time(moment)
