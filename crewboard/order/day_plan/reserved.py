"""What only one person here can do, and who that is."""

from __future__ import annotations

from crewboard.order.day_plan.shop_day import Job, ShopDay


def only_holders(day: ShopDay) -> dict[int, frozenset[str]]:
    """Job -> those without whom it could not be done today; of jobs that could be done, and where
    somebody else is here for the other work."""
    if len(day.people) < 2:
        return {}
    found = {}
    for number, job in enumerate(day.jobs):
        if not job.after and len(job.able) >= job.least and job.since < job.by and all(job.covers):
            only = _only(job) & job.able
            if only and len(only) < len(day.people):
                found[number] = only
    return found


def _only(job: Job) -> frozenset[str]:
    """The only holder of a skill or a certificate; all who may do it, where it needs them all."""
    alone = [cover for cover in job.covers if len(cover) == 1]
    if len(job.able) == job.least:
        alone.append(job.able)
    return frozenset[str]().union(*alone)
