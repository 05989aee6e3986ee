"""Whether a job may have a place in the day beside what is placed there already."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from crewboard.order.day_plan.following import is_followed, may_be_finished
from crewboard.order.day_plan.jigs import jigs_suffice
from crewboard.order.day_plan.shop_day import Apart, Job, ShopDay, Slot


def is_sound(day: ShopDay, slot: Slot, placed: Mapping[int, Slot]) -> bool:
    """Every rule of the day, for one more slot."""
    job = day.jobs[slot.job]
    return (
        fits(day, job, slot)
        and is_a_crew(day, job, slot)
        and all(is_free(day, slot, who, placed.values()) for who in slot.people)
        and comes_in_turn(day, job, slot, placed)
        and has_room(day, job, slot, placed)
        and keeps_all(day, slot, placed)
    )


def fits(day: ShopDay, job: Job, slot: Slot) -> bool:
    """Whether it is long enough to be worth beginning, and lies within its time and no break."""
    in_time = job.since <= slot.start < slot.end <= job.by
    soon = job.begin_by is None or slot.start <= job.begin_by
    as_fixed = job.fixed_start is None or slot.start == job.fixed_start
    whole = day.may_be_cut(job) or not day.grid.is_cut(slot.start, slot.end)
    long_enough = slot.length >= job.shortest(len(slot.people))
    return in_time and soon and as_fixed and whole and long_enough and may_be_finished(job, slot)


def is_a_crew(day: ShopDay, job: Job, slot: Slot) -> bool:
    """Whether these people may do it together."""
    people, at_work = set(slot.people), set(slot.people) - set(slot.watch)
    return (
        people <= job.able
        and people.issuperset(job.always)
        and job.least <= len(people) <= job.most
        and len(slot.watch) == job.watch
        and all(cover & at_work for cover in job.covers)
        and all(is_accompanied(day, who, people) for who in people)
    )


def is_accompanied(day: ShopDay, who: str, crew: Iterable[str]) -> bool:
    """Whether whoever needs somebody beside them has them."""
    return who not in day.beside or bool(day.beside[who] & set(crew))


def is_free(day: ShopDay, slot: Slot, who: str, placed: Iterable[Slot]) -> bool:
    """Whether the person is here for the slot, and on nothing else."""
    first, last = day.may_from(day.jobs[slot.job], who)
    until = day.busy_until(slot, who)
    return (
        first <= slot.start
        and until <= last
        and not any(
            who in other.people and slot.start < day.busy_until(other, who) and other.start < until
            for other in placed
        )
    )


def keeps_all(
    day: ShopDay,
    slot: Slot,
    placed: Mapping[int, Slot],
    pairs: Sequence[Apart] | None = None,
) -> bool:
    """Whether jigs suffice and dangers stay apart. `pairs` are the day's with this job, for whoever
    asks often."""
    job, beside = day.jobs[slot.job], {**placed, slot.job: slot}
    if job.jigs and not jigs_suffice(day, beside):
        return False
    return all(
        keeps_apart(day, apart, beside)
        for apart in (day.apart if pairs is None else pairs)
        if slot.job in (apart.first, apart.then)
    )


def keeps_apart(day: ShopDay, apart: Apart, placed: Mapping[int, Slot]) -> bool:
    """Whether two jobs are kept apart as they must be, whichever of them comes first."""
    first, then = placed.get(apart.first), placed.get(apart.then)
    if first is None or then is None:
        return True
    if apart.people and apart.people.isdisjoint(placed[apart.on].people):
        return True
    if then.start < first.start:
        return True  # the other way round: another rule says what is asked then
    over = first.end + apart.gap <= then.start
    return over and (not apart.must_end or day.jobs[apart.first].is_finished(first))


def comes_in_turn(day: ShopDay, job: Job, slot: Slot, placed: Mapping[int, Slot]) -> bool:
    before = [(number, placed.get(number)) for number in job.after]
    if any(not day.jobs[n].is_finished(s) or (s and s.end > slot.start) for n, s in before):
        return False
    beside = {**placed, slot.job: slot}
    return all(is_followed(day, follow, slot.job, beside) for follow in job.follows)


def has_room(day: ShopDay, job: Job, slot: Slot, placed: Mapping[int, Slot]) -> bool:
    if not job.place or job.goes_on:
        return True
    there = [s for s in placed.values() if day.jobs[s.job].place == job.place]
    room = day.room.get(job.place, 1)
    moments = {slot.start, *(s.start for s in there if slot.start < s.start < slot.end)}
    return all(sum(s.start <= block < s.end for s in there) < room for block in moments)
