"""A slow one-person crew to check the forecast's courses by: half hour by half hour."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from dateutil.relativedelta import relativedelta

from crewboard.plan.plan import Plan

HALF = timedelta(minutes=30)


def finish(plan: Plan, now: datetime, turn: Sequence[str]) -> datetime:
    """When one person who is always there has done everything, holds and all.

    Of what is ready they take what stands first in `turn`, and stay at it till it is done. For
    plans whose hours are whole half hours.
    """
    left = {t.id: t.estimate.likely if t.estimate else 0.0 for t in plan.tasks.values()}
    done: dict[str, datetime] = {}
    clear: dict[str, datetime] = {}
    at_work = ""
    moment = now
    while len(done) < len(left):
        if not _is_open(plan, moment):
            moment += HALF
            continue
        if not at_work:
            ready = [t for t in turn if t not in done and _is_ready(plan, t, moment, done, clear)]
            at_work = ready[0] if ready else ""
        moment += HALF
        if at_work:
            left[at_work] -= 0.5
            if left[at_work] <= 0:
                done[at_work] = moment
                clear[at_work] = _hold_over(plan, at_work, moment)
                at_work = ""
    return max(clear.values())


def _is_open(plan: Plan, moment: datetime) -> bool:
    openings = plan.vehicle.work_days.openings_on(moment.date())
    return any(each.opens <= moment.time() < each.closes for each in openings)


def _is_ready(
    plan: Plan,
    name: str,
    moment: datetime,
    done: dict[str, datetime],
    clear: dict[str, datetime],
) -> bool:
    task = plan.tasks[name]
    return all(
        each in done and (each in task.during or clear[each] <= moment)
        for each in (*task.after, *task.during)
    )


def _hold_over(plan: Plan, name: str, moment: datetime) -> datetime:
    hold = plan.tasks[name].hold
    if hold is None or hold.lasts is None:
        return moment
    months, days, minutes = hold.lasts
    over = moment + relativedelta(months=months) + timedelta(days, minutes=minutes)
    while hold.release == "look" and not _is_open(plan, over):
        over += HALF
    return over
