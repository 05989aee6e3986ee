"""A slow scheduler to check the quick one by: half hour by half hour through the calendar.

It shares no code with the program but the plan's types and the calendar's own word on a day.
Months are dateutil's.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, timedelta

from dateutil.relativedelta import relativedelta

from crewboard.plan.plan import Plan

HALF = timedelta(minutes=30)


def schedule(
    plan: Plan, now: datetime, not_before: Mapping[str, datetime] | None = None
) -> dict[str, tuple[datetime, datetime, datetime]]:
    """Task -> start, finish and end of its hold, everything as early as can be.

    For plans whose hours are whole half hours and whose tasks have a crew of one. `not_before`
    keeps single tasks back.
    """
    pushed = not_before or {}
    found: dict[str, tuple[datetime, datetime, datetime]] = {}
    while len(found) < len(plan.tasks):
        for task in plan.tasks.values():
            earlier = (*task.after, *task.during)
            if task.id in found or any(each not in found for each in earlier):
                continue
            ready = max([now, pushed.get(task.id, now)])
            for each in earlier:
                ready = max(ready, found[each][1 if each in task.during else 2])
            assert task.estimate is not None
            start, finish = _worked(plan, ready, task.estimate.likely)
            over = finish
            if task.hold is not None and task.hold.lasts is not None:
                months, days, minutes = task.hold.lasts
                over = finish + relativedelta(months=months) + timedelta(days, minutes=minutes)
                if task.hold.release == "look":
                    over = _open_from(plan, over)
            found[task.id] = (start, finish, over)
    return found


def _is_open(plan: Plan, moment: datetime) -> bool:
    openings = plan.vehicle.work_days.openings_on(moment.date())
    return any(each.opens <= moment.time() < each.closes for each in openings)


def _open_from(plan: Plan, moment: datetime) -> datetime:
    while not _is_open(plan, moment):
        moment += HALF
    return moment


def _worked(plan: Plan, ready: datetime, hours: float) -> tuple[datetime, datetime]:
    start = _open_from(plan, ready)
    moment, left = start, hours
    while True:
        if _is_open(plan, moment):
            left -= 0.5
        moment += HALF
        if left <= 0:
            return start, moment
