"""What the variables of the solver's model are in a plan that is known: a whole hint is worth far
more than a part of one."""

from __future__ import annotations

from collections.abc import Mapping

from crewboard.order.day_plan.jigs import taken_until
from crewboard.order.day_plan.shop_day import LEARN_BESIDE, Follows, ShopDay, Slot


def is_of_size(number: int, size: int, slots: Mapping[int, Slot]) -> int:
    return int(number in slots and len(slots[number].people) == size)


def length_at_size(number: int, size: int, slots: Mapping[int, Slot]) -> int:
    return slots[number].length if is_of_size(number, size, slots) else 0


def blocks_of(number: int, who: str, slots: Mapping[int, Slot]) -> int:
    return slots[number].length if number in slots and who in slots[number].people else 0


def watches(number: int, who: str, slots: Mapping[int, Slot]) -> int:
    return int(number in slots and who in slots[number].watch)


def free_at(day: ShopDay, number: int, slots: Mapping[int, Slot]) -> int:
    return day.jobs[number].watched[slots[number].end if number in slots else 0]


def watches_on_for(day: ShopDay, number: int, slots: Mapping[int, Slot]) -> int:
    return free_at(day, number, slots) - (slots[number].end if number in slots else 0)


def ends_by(number: int, block: int, slots: Mapping[int, Slot]) -> int:
    return int(number in slots and slots[number].end <= block)


def learn(day: ShopDay, number: int, slots: Mapping[int, Slot]) -> int:
    slot, learners = slots.get(number), day.jobs[number].learners
    if slot is None:
        return 0
    return min(LEARN_BESIDE, len(learners.intersection(slot.people))) * slot.length


def latest(follow: Follows, slots: Mapping[int, Slot]) -> int:
    return follow.latest[slots[follow.first].end if follow.first in slots else 0]


def jigs_until(day: ShopDay, number: int, slots: Mapping[int, Slot]) -> int:
    slot, job = slots.get(number), day.jobs[number]
    return taken_until(day, job, slot.end if slot else 0, job.is_finished(slot))


def jigs_for(day: ShopDay, number: int, slots: Mapping[int, Slot]) -> int:
    slot, job = slots.get(number), day.jobs[number]
    since = 0 if job.has_jigs or slot is None else slot.start
    return jigs_until(day, number, slots) - since


def ends_from(number: int, block: int, slots: Mapping[int, Slot]) -> int:
    return int(number in slots and slots[number].end >= block)


def comes_first(one: int, two: int, slots: Mapping[int, Slot]) -> int:
    return int(one in slots and two in slots and slots[one].start < slots[two].start)
