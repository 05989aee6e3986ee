"""What of a plan stands in the way of a job that has no place in it: the least that has to go."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from crewboard.order.day_plan.place_for import easier, place_for
from crewboard.order.day_plan.shop_day import Apart, ShopDay, Slot


class InTheWay(NamedTuple):
    """Without the slots `behind` the job has a place, and not without fewer of them. `because` of
    what they have: their "people", their "place", a "jig", that they are too "near"; several where
    it takes several."""

    slots: tuple[Slot, ...]
    because: tuple[str, ...]


def in_the_way(day: ShopDay, number: int, placed: Mapping[int, Slot]) -> InTheWay | None:
    """None where the job has no place even in a day of its own, behind what it comes after."""
    needed = _comes_after(day, number)
    others = [n for n in placed if n not in needed]
    if not place_for(day, number, _without(placed, others)):
        return None
    # One alone where that is enough: the longest, since after a short one it would be asked why
    # the job does not begin then.
    for other in sorted(others, key=lambda n: (-placed[n].length, n)):
        if _touches(day, number, placed[other]) and place_for(
            day, number, _without(placed, [other])
        ):
            return InTheWay((placed[other],), _because(day, number, placed, [other]))
    wanted = [n for n in others if _touches(day, number, placed[n])]
    if place_for(day, number, _without(placed, wanted)):
        others = wanted
    least = sorted(others, key=lambda n: day.jobs[n].rank)
    for other in list(least):  # put each back that need not go
        fewer = [n for n in least if n != other]
        if place_for(day, number, _without(placed, fewer)):
            least = fewer
    slots = tuple(placed[n] for n in sorted(least, key=lambda n: (placed[n].start, n)))
    return InTheWay(slots, _because(day, number, placed, least))


def _without(placed: Mapping[int, Slot], gone: list[int]) -> dict[int, Slot]:
    return {n: slot for n, slot in placed.items() if n not in gone}


def _comes_after(day: ShopDay, number: int) -> set[int]:
    """What it comes after, and what that comes after."""
    found: set[int] = set()
    to_see = [*day.jobs[number].after]
    while to_see:
        before = to_see.pop()
        if before not in found:
            found.add(before)
            to_see += day.jobs[before].after
    return found


def _touches(day: ShopDay, number: int, slot: Slot) -> bool:
    """Whether the slot has anything that the job could want."""
    job, other = day.jobs[number], day.jobs[slot.job]
    pair = {number, slot.job}
    return (
        bool(job.able & set(slot.people))
        or bool(job.place and job.place == other.place)
        or not set(job.jigs).isdisjoint(other.jigs)
        or any({apart.first, apart.then} == pair for apart in day.apart)
    )


def _because(
    day: ShopDay, number: int, placed: Mapping[int, Slot], gone: list[int]
) -> tuple[str, ...]:
    """Of what they have one thing, where that alone makes the difference; else all of it."""
    job = day.jobs[number]
    alone = {
        "place": easier(day, number, place=""),
        "jig": easier(day, number, jigs=()),
        "near": day._replace(apart=_apart_from(day, number, gone)),
    }
    for because, eased in alone.items():
        if place_for(eased, number, placed):
            return (because,)
    others = [placed[n] for n in gone]
    has = {
        "people": any(job.able & set(slot.people) for slot in others),
        "place": bool(job.place) and any(day.jobs[n].place == job.place for n in gone),
        "jig": any(not set(job.jigs).isdisjoint(day.jobs[n].jigs) for n in gone),
        "near": len(_apart_from(day, number, gone)) < len(day.apart),
    }
    return tuple(because for because, so in has.items() if so)


def _apart_from(day: ShopDay, number: int, gone: list[int]) -> tuple[Apart, ...]:
    """The day's pairs but for those of the job with these."""
    return tuple(
        pair
        for pair in day.apart
        if not (number in (pair.first, pair.then) and {pair.first, pair.then} & set(gone))
    )
