"""Whether one more job has a place beside what is placed: looked for everywhere, by every crew."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations, islice
from typing import Any

from crewboard.order.day_plan.following import followers, is_followed
from crewboard.order.day_plan.jigs import jigs_suffice
from crewboard.order.day_plan.shop_day import Apart, Job, ShopDay, Slot
from crewboard.order.day_plan.sound import (
    comes_in_turn,
    fits,
    has_room,
    is_a_crew,
    is_free,
    keeps_apart,
)

# Of so many crews that could be it for one time at most each is tried.
_CREWS = 200


def place_for(day: ShopDay, number: int, placed: Mapping[int, Slot]) -> Slot | None:
    """A sound place for the job, with one for each that must follow it soon; None where there is
    none. The earliest beginning first, then the smallest crew."""
    return next((found[number] for found in places_for(day, number, placed)), None)


def places_for(day: ShopDay, number: int, placed: Mapping[int, Slot]) -> Iterator[dict[int, Slot]]:
    """What is placed, with each place that `place_for` could give and what follows there."""
    behind = followers(day).get(number, ())
    for slot in _slots(day, number, placed):
        found = _followed(day, behind, {**placed, number: slot})
        if found is not None:
            yield found


def _followed(
    day: ShopDay, behind: Sequence[int], placed: dict[int, Slot]
) -> dict[int, Slot] | None:
    """With what must follow soon; None where some of it has no place."""
    for then in behind:
        if not all(is_followed(day, follow, then, placed) for follow in day.jobs[then].follows):
            found = None if then in placed else next(places_for(day, then, placed), None)
            if found is None:
                return None
            placed = found
    return placed


def _slots(day: ShopDay, number: int, placed: Mapping[int, Slot]) -> Iterator[Slot]:
    job = day.jobs[number]
    if not all(job_is_done(day, before, placed) for before in job.after):
        return
    apart = [pair for pair in day.apart if number in (pair.first, pair.then)]
    busy = _busy(day, job, placed)
    for start in range(job.since, job.by):
        for size in range(job.least, min(job.most, len(job.able)) + 1):
            for length in dict.fromkeys((job.shortest(size), job.longest(size))):
                slot = Slot(number, (), start, min(start + length, job.by))
                asked = _bits(slot.start, slot.end)
                free = [who for who, taken in busy.items() if not taken & asked]
                if _could_be(job, size, free) and _may_be(day, job, slot, size, placed, apart):
                    yield from islice(_manned(day, job, slot, size, free, placed, apart), 1)


def _busy(day: ShopDay, job: Job, placed: Mapping[int, Slot]) -> dict[str, int]:
    """In which blocks each who may be on the job is on something else, or not here: bit by bit,
    since it is asked very often."""
    busy = {}
    for who in day.people:
        if who in job.able:
            first, last = day.may_from(job, who)
            busy[who] = _bits(0, first) | _bits(last, day.blocks + 1)
    for slot in placed.values():
        for who in slot.people:
            if who in busy:
                busy[who] |= _bits(slot.start, day.busy_until(slot, who))
    return busy


def _bits(start: int, end: int) -> int:
    """The blocks from `start` to before `end`, a bit each."""
    return (1 << max(start, end)) - (1 << start)


def _could_be(job: Job, size: int, free: Sequence[str]) -> bool:
    """Whether those who have the time are enough, and have what is asked for."""
    return (
        len(free) >= size
        and set(job.always).issubset(free)
        and not any(cover.isdisjoint(free) for cover in job.covers)
    )


def _may_be(
    day: ShopDay,
    job: Job,
    slot: Slot,
    size: int,
    placed: Mapping[int, Slot],
    apart: Sequence[Apart],
) -> bool:
    """Whether nothing is against that time, whoever does it: asked before crews are tried."""
    anybody = slot._replace(people=("",) * size, watch=("",) * job.watch)
    beside = {**placed, slot.job: anybody}
    return (
        fits(day, job, anybody)
        and has_room(day, job, anybody, placed)
        and comes_in_turn(day, job, anybody, placed)
        and (not job.jigs or jigs_suffice(day, beside))
        and all(keeps_apart(day, pair, beside) for pair in apart if not pair.people)
    )


def _manned(
    day: ShopDay,
    job: Job,
    slot: Slot,
    size: int,
    free: Sequence[str],
    placed: Mapping[int, Slot],
    apart: Sequence[Apart],
) -> Iterator[Slot]:
    """The slot with crews of that size who may do it together, those who watch last."""
    rest = [who for who in free if who not in job.always]
    teams = combinations(rest, max(0, size - len(job.always)))
    for others in islice(teams, _CREWS):
        team = (*job.always, *others)
        may_watch = [who for who in team if who not in day.minors]
        for watch in combinations(may_watch, job.watch):
            crew = (*(who for who in team if who not in watch), *watch)
            manned = slot._replace(people=crew, watch=watch)
            if (
                is_a_crew(day, job, manned)
                and all(is_free(day, manned, who, placed.values()) for who in watch)
                and all(
                    keeps_apart(day, pair, {**placed, slot.job: manned})
                    for pair in apart
                    if pair.people
                )
            ):
                yield manned


def easier(day: ShopDay, number: int, **asks: Any) -> ShopDay:
    """The day with a job that asks for less."""
    jobs = list(day.jobs)
    jobs[number] = jobs[number]._replace(**asks)
    return day._replace(jobs=tuple(jobs))


def job_is_done(day: ShopDay, number: int, placed: Mapping[int, Slot]) -> bool:
    """Whether its likely hours are done where it is placed."""
    return day.jobs[number].is_finished(placed.get(number))
