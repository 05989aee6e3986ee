"""What still has a place in a plan that is made: looked for as the reasons look for it, so that
nothing with a place is told to have none."""

from __future__ import annotations

from collections.abc import Sequence

from crewboard.order.day_plan.place_for import job_is_done, places_for
from crewboard.order.day_plan.shop_day import ShopDay, Slot
from crewboard.order.day_plan.sound import is_sound
from crewboard.order.day_plan.worth import worth_of


def with_room_left(day: ShopDay, slots: Sequence[Slot]) -> list[Slot]:
    """The sound plan with every job that still has a place in it, what is worth most first, each
    where most of it is done."""
    placed = {slot.job: slot for slot in slots}
    order = sorted(range(len(day.jobs)), key=lambda number: -day.jobs[number].worth)
    again = True
    while again:  # a job may wait for one that comes later in the list
        again = False
        for number in order:
            job = day.jobs[number]
            if number in placed or not all(job_is_done(day, n, placed) for n in job.after):
                continue
            best = max(
                places_for(day, number, placed),
                key=lambda found: (worth_of(day, found[number]), -found[number].start),
                default=None,
            )
            if best is not None:
                placed = best
                placed[number] = _lengthened(day, placed, number)
                again = True
    return list(placed.values())


def _lengthened(day: ShopDay, placed: dict[int, Slot], number: int) -> Slot:
    """The slot for as long as its people have, where nothing else is against it."""
    job, slot = day.jobs[number], placed[number]
    others = {n: s for n, s in placed.items() if n != number}
    for end in range(slot.end + 1, slot.start + job.longest(len(slot.people)) + 1):
        longer = slot._replace(end=end)
        if not is_sound(day, longer, others):
            break
        if job.is_finished(longer) and any(
            follow.first == number for j in day.jobs for follow in j.follows
        ):
            break  # what must follow it soon has its place, or none, as it is
        slot = longer
    return slot
