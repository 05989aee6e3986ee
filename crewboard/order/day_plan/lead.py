"""What a good lead sees to before all else: number one begins first, and the only holder of a skill
or a certificate does what only they can."""

from __future__ import annotations

from collections.abc import Sequence

from crewboard.order.day_plan.reserved import only_holders
from crewboard.order.day_plan.shop_day import ShopDay, Slot


def number_one(day: ShopDay, plain: Sequence[Slot]) -> Slot | None:
    """Where the plain rule, which places it before all else, has what goes first of what can be
    placed at all."""
    ranked = sorted(plain, key=lambda slot: day.jobs[slot.job].rank)
    first = [slot for slot in ranked if not day.jobs[slot.job].after]
    return first[0] if first else None


def as_led(day: ShopDay, plain: Sequence[Slot]) -> ShopDay:
    """The day in which no plan begins number one later than the plain rule does, or does less of
    what only one person here can do."""
    jobs = list(day.jobs)
    only = only_holders(day)
    for slot in plain:
        job = jobs[slot.job]
        if slot.job in only:
            jobs[slot.job] = job._replace(must=min(job.need, job.done(slot)))
    first = number_one(day, plain)
    if first is not None:
        job = jobs[first.job]
        by = first.start if job.begin_by is None else min(job.begin_by, first.start)
        jobs[first.job] = job._replace(begin_by=by, must=max(1, job.must))
    return day._replace(jobs=tuple(jobs))
