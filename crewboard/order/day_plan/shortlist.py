"""The jobs worth the solver's time: the most valuable ones that fill the day twice over."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from crewboard.order.day_plan.following import followers
from crewboard.order.day_plan.shop_day import Job, ShopDay, Slot

# How many times over the jobs looked at would fill the day.
TIMES = 2
# So many jobs are never too many: the best plan can often be proven then.
FEW = 25


class Shortlist(NamedTuple):
    """A day of fewer jobs. `numbers`: of each of its jobs the number in the whole day. `whole`:
    nothing was left out, so that what is proven for it holds for the day."""

    day: ShopDay
    numbers: tuple[int, ...]
    whole: bool

    def inside(self, slots: Sequence[Slot]) -> list[Slot]:
        """Slots of the whole day as slots of this one."""
        place = {number: new for new, number in enumerate(self.numbers)}
        return [slot._replace(job=place[slot.job]) for slot in slots]

    def outside(self, slots: Sequence[Slot]) -> list[Slot]:
        """And back."""
        return [slot._replace(job=self.numbers[slot.job]) for slot in slots]


def shortlist(day: ShopDay, known: Sequence[Slot]) -> Shortlist:
    """The jobs of a known plan, those that the lead fixed, and the best others.

    A job that waits for another is kept only with it.
    """
    jobs = day.jobs
    if len(jobs) <= FEW:
        return Shortlist(day, tuple(range(len(jobs))), True)
    kept = {slot.job for slot in known} | {n for n, job in enumerate(jobs) if job.fixed}
    kept |= {before for number in kept for before in jobs[number].after}
    kept |= {number for number, job in enumerate(jobs) if any(f.first in kept for f in job.follows)}
    kept |= {number for number, job in enumerate(jobs) if job.has_jigs or job.goes_on}
    enough = TIMES * len(day.people) * day.blocks
    total = sum(jobs[number].need for number in kept)
    behind = followers(day)
    best = sorted(range(len(jobs)), key=lambda n: -(jobs[n].worth + jobs[n].bonus / jobs[n].need))
    for number in best:
        if total >= enough:
            break
        if number not in kept and kept.issuperset(jobs[number].after):
            kept |= {number, *behind.get(number, ())}
            if _can_be_done(jobs[number]):
                total += jobs[number].need
    numbers = tuple(sorted(kept))
    place = {number: new for new, number in enumerate(numbers)}
    fewer = tuple(
        jobs[number]._replace(
            after=tuple(place[before] for before in jobs[number].after),
            follows=tuple(f._replace(first=place[f.first]) for f in jobs[number].follows),
        )
        for number in numbers
    )
    apart = tuple(
        pair._replace(
            first=place[pair.first], then=place[pair.then], on=place.get(pair.on, pair.on)
        )
        for pair in day.apart
        if pair.first in place and pair.then in place
    )
    return Shortlist(day._replace(jobs=fewer, apart=apart), numbers, len(numbers) == len(jobs))


def _can_be_done(job: Job) -> bool:
    return len(job.able) >= job.least and all(job.covers) and job.since < job.by
