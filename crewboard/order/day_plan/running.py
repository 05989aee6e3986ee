"""The plan that the day runs by, as slots of the day as it is now."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from crewboard.order.board import Board
from crewboard.order.day_plan.plain_rule import by_plain_rule
from crewboard.order.day_plan.proposal import Placed
from crewboard.order.day_plan.shop_day import ShopDay, Slot
from crewboard.order.day_plan.worth import worth
from crewboard.order.may.on_it import begun_today

# What may be given up, of what the best plan is worth, so that less has to be changed.
GIVEN_UP = 0.01


def late(board: Board, day: ShopDay, running: Sequence[Placed]) -> frozenset[str]:
    """The tasks of it that should be over when the day goes on, and nobody has begun today."""
    begun = {act.task for act in begun_today(board)}
    over = {placed.task for placed in running if not day.grid.ended_by(placed.end)}
    return frozenset(over - begun)


def running_slots(
    day: ShopDay, running: Sequence[Placed], late: Collection[str] = ()
) -> list[Slot]:
    """What of it is still to come, or goes on; without those who are not here any more. What is
    `late` comes now."""
    number = {job.task: n for n, job in enumerate(day.jobs)}
    slots = []
    for placed in running:
        start, end = day.grid.first_from(placed.start), day.grid.ended_by(placed.end)
        if placed.task not in number:
            continue
        job = day.jobs[number[placed.task]]
        if placed.task in late:
            long = day.grid.passed_since(placed.start) - day.grid.passed_since(placed.end)
            start, end = 0, min(day.blocks, max(1, long))
        on_it = job.stay if job.begun or job.goes_on else ()
        people = tuple(who for who in dict.fromkeys((*on_it, *placed.people)) if who in day.people)
        if start < end and people:
            watch = tuple(who for who in placed.watch if who in people)
            slots.append(Slot(number[placed.task], people, start, end, watch))
    return slots


def least_worth(value: int) -> int:
    """What a plan has to be worth beside one of that value, so that it is kept."""
    return -int(-value * (1 - GIVEN_UP) // 1)


def kept_by_plain_rule(day: ShopDay, running: Sequence[Slot], best: int) -> list[Slot] | None:
    """Most of the running plan that is worth keeping: all of it, else three quarters, half, what
    goes on now; what is free is given to others. None where nothing of it is worth it."""
    for kept in _less_and_less(day, running):
        plan = by_plain_rule(day, kept)
        if worth(day, plan) >= least_worth(best):
            return plan
    return None


def _less_and_less(day: ShopDay, running: Sequence[Slot]) -> Iterator[list[Slot]]:
    kept = sorted(running, key=lambda slot: (not day.jobs[slot.job].begun, slot.start))
    counts = [len(kept), len(kept) * 3 // 4, len(kept) // 2]
    for count in dict.fromkeys((*counts, sum(slot.start == 0 for slot in kept))):
        if count:
            yield kept[:count]


def keeps_all_of(running: Sequence[Slot], slots: Sequence[Slot]) -> bool:
    """Whether nothing of the running plan is changed, but for others who join it."""
    now = {slot.job: slot for slot in slots}
    return all(
        slot.job in now
        and now[slot.job].start == slot.start
        and set(slot.people) <= {*now[slot.job].people}
        for slot in running
    )


def kept_pairs(running: Sequence[Slot], slots: Sequence[Slot]) -> int:
    """How many (person, job) pairs of the running plan the other has too."""
    have = {(slot.job, who) for slot in slots for who in slot.people}
    return sum((slot.job, who) in have for slot in running for who in slot.people)
