"""Jigs in a day: each is on one job at a time, and stays taken while a hold runs on it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from crewboard.order.day_plan.shop_day import Job, ShopDay, Slot


def taken_until(day: ShopDay, job: Job, end: int, finished: bool) -> int:
    """Until which block a job that ends then has its jigs: to the end of the day, where a hold
    begins or the work is not finished."""
    return end if finished and not job.keeps_jigs else day.blocks


def jigs_suffice(day: ShopDay, placed: Mapping[int, Slot]) -> bool:
    """Whether of every jig there are always as many as the jobs placed, and those that have theirs
    already, take."""
    return all(_suffices(day, placed, jig) for jig in day.jigs)


def _suffices(day: ShopDay, placed: Mapping[int, Slot], jig: str) -> bool:
    times = list(_times(day, placed, jig))
    return all(
        sum(since <= start < until for since, until in times) <= day.jigs[jig]
        for start, end in times
        if start < end
    )


def _times(day: ShopDay, placed: Mapping[int, Slot], jig: str) -> Iterator[tuple[int, int]]:
    """From when till when each job has one of them."""
    for number, job in enumerate(day.jobs):
        if jig in job.jigs and (number in placed or job.has_jigs):
            slot = placed.get(number)
            since = 0 if job.has_jigs or slot is None else slot.start
            if slot is None:
                yield since, day.blocks
            else:
                finished = job.is_finished(slot)
                yield since, taken_until(day, job, slot.end, finished)
