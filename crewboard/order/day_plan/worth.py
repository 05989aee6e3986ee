"""What a plan of a day is worth, and what no plan can be worth more than."""

from __future__ import annotations

from collections.abc import Iterable

from crewboard.order.day_plan.shop_day import LEARN_BESIDE, LEARNING, ShopDay, Slot


def worth(day: ShopDay, slots: Iterable[Slot]) -> int:
    """Person-blocks by how pressing they are, what gets finished, and a little for learning."""
    return sum(worth_of(day, slot) for slot in slots)


def worth_of(day: ShopDay, slot: Slot) -> int:
    """What one job's place in the day is worth."""
    job = day.jobs[slot.job]
    done = job.done(slot)
    learn = min(LEARN_BESIDE, len(job.learners.intersection(slot.people))) * slot.length
    return job.worth * min(done, job.need) + job.bonus * (done >= job.need) + LEARNING * learn


def most_worth(day: ShopDay) -> int:
    """What no plan can be worth more than: everybody all day at what is worth most by the block.

    The bonus of finishing is spread over a job's blocks, as the relaxed knapsack does (Dantzig
    1957).
    """
    here = {who: last - first for who in day.people for first, last in [day.here(who)]}
    left = sum(here.values())
    learn = {who for job in day.jobs for who in job.learners}
    total: float = LEARNING * sum(here[who] for who in learn)
    for job in sorted(day.jobs, key=lambda j: -(j.worth + j.bonus / j.need)):
        if len(job.able) >= job.least:
            taken = min(left, job.need, min(job.most, len(job.able)) * day.blocks)
            total += taken * (job.worth + job.bonus / job.need)
            left -= taken
    return int(total)
