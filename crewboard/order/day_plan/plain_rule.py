"""A plan for the day by a plain rule: the most pressing job first, each as early as can be.

First comes what goes on and what the lead fixed, then number one of what goes first, then what only
one person here can do, then all else. Each job in turn gets the beginning and the crew with which
most of it is done, the fewest hands where that is equal. Sound under every rule of the day, but
nothing is moved for the sake of a later job: the solver does that.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from functools import partial

from crewboard.order.day_plan.crews import FreeHands
from crewboard.order.day_plan.following import followers, is_followed, may_be_finished
from crewboard.order.day_plan.reserved import only_holders
from crewboard.order.day_plan.shop_day import LEARN_BESIDE, Apart, Job, ShopDay, Slot
from crewboard.order.day_plan.sound import is_sound, keeps_all
from crewboard.order.day_plan.worth import worth


def by_plain_rule(day: ShopDay, kept: Sequence[Slot] = ()) -> list[Slot]:
    """Slots in the order in which they were found; those to be `kept` before all others, as far as
    they are still sound.

    The jobs are taken by what they are worth by the block, and once more with what finishing them
    is worth spread over their blocks; the better of the two plans is given.
    """
    jobs = day.jobs
    orders: list[Callable[[int], float]] = [
        lambda n: jobs[n].worth,
        lambda n: jobs[n].worth + jobs[n].bonus / jobs[n].need,
    ]
    plans = [_PlainRule(day).slots(kept, by) for by in orders]
    only = only_holders(day)
    # Number one may have taken whom the only holder of a paper needs beside them, or the time that
    # alone is long enough for what is done in one go.
    whole = [number for number, job in enumerate(jobs) if job.whole and not (kept or job.after)]
    for before in (only, whole):
        if any(not {slot.job for slot in plan}.issuperset(before) for plan in plans):
            plans += [_PlainRule(day).slots(kept, by, before) for by in orders]
    return max(plans, key=lambda slots: _well_led(day, only, slots))


def _well_led(
    day: ShopDay, only: Mapping[int, frozenset[str]], slots: Sequence[Slot]
) -> tuple[int, int, int]:
    """Number one begins early; only holders do what only they can; then what it is worth."""
    first = min(slots, key=lambda slot: day.jobs[slot.job].rank, default=None)
    begins = first.start if first is not None else 0
    rank = day.jobs[first.job].rank if first is not None else 0
    theirs = sum(min(day.jobs[s.job].need, day.jobs[s.job].done(s)) for s in slots if s.job in only)
    return -begins - day.blocks * rank, theirs, worth(day, slots)


def filled(day: ShopDay, slots: Sequence[Slot], *, moves: bool = True) -> list[Slot]:
    """A sound plan, with what can be placed besides, and whoever is free where they can be of use;
    where it `moves` nothing waits that could begin sooner.

    Filled once more it stays as it is.
    """
    rule = _PlainRule(day)
    rule.placed.update({slot.job: slot for slot in slots})
    rule.moves = moves
    order = sorted(range(len(day.jobs)), key=lambda n: -day.jobs[n].worth)
    before: dict[int, Slot] = {}
    while before != rule.placed:
        before = dict(rule.placed)
        rule.fill(order)
    return list(rule.placed.values())


class _PlainRule:
    def __init__(self, day: ShopDay) -> None:
        self.day = day
        self.placed: dict[int, Slot] = {}
        self.followers = followers(day)
        self.only = only_holders(day)
        self.crews = FreeHands(day, self.placed, self.only)
        self.apart: dict[int, list[Apart]] = {}  # of each job the pairs that it is in
        for apart in day.apart:
            for number in dict.fromkeys((apart.first, apart.then)):
                self.apart.setdefault(number, []).append(apart)
        self.kept: dict[int, Slot] = {}  # what the running plan has, job by job
        self.moves = True  # whether what is placed may begin sooner

    def slots(
        self, kept: Sequence[Slot], by: Callable[[int], float], before: Collection[int] = ()
    ) -> list[Slot]:
        """Those of `before` are placed before number one."""
        jobs = self.day.jobs
        order = sorted(range(len(jobs)), key=lambda n: -by(n))
        decided = sorted((n for n in order if _decided(jobs[n])), key=lambda n: _first(jobs[n]))
        self.kept = {slot.job: slot for slot in kept}
        self.moves = not kept
        for number in decided:
            if not (jobs[number].begun and self._keep(number)):
                self._place_all([number])
        for slot in sorted(kept, key=lambda slot: slot.start):
            self._keep(slot.job)
        self._place_all([number for number in order if number in before])
        self._number_one()
        self._place_all([number for number in order if number in self.only])
        self.fill(order)
        return list(self.placed.values())

    def fill(self, order: Sequence[int]) -> None:
        """Place all that still can be, let whoever is free join, and nothing wait for no reason."""
        self._place_all(order)
        self._join()
        if self.moves:
            self._begin_sooner()

    def _keep(self, number: int) -> bool:
        """Where the running plan has the job, with what must follow it soon."""
        slot = self.kept.get(number)
        if slot is None or number in self.placed or not is_sound(self.day, slot, self.placed):
            return False
        self.placed[number] = slot
        if all(self._follows(then) for then in self.followers.get(number, ())):
            return True
        self._give_back(number)
        return False

    def _number_one(self) -> None:
        """What goes first begins first: as early as it can, by those who are not the only ones for
        other work; if they cannot, by all."""
        jobs = self.day.jobs
        ranked = sorted(
            (n for n, job in enumerate(jobs) if not job.after), key=lambda n: jobs[n].rank
        )
        for number in ranked:
            if number in self.placed or jobs[number].looks:
                return
            mine = self.only.get(number, frozenset())
            others = [who for n, who in self.only.items() if n != number and n not in self.placed]
            for self.crews.spared in (frozenset[str]().union(*others) - mine, frozenset[str]()):
                if self._place(number, jobs[number], _as_early_as_can_be):
                    break
            self.crews.spared = frozenset()
            if number in self.placed:
                return

    def _place_all(self, numbers: Sequence[int]) -> None:
        again = True
        while again:  # a job may wait for one that comes later in the list
            again = False
            for number in numbers:
                job = self.day.jobs[number]
                if number not in self.placed and self._may_begin(job):
                    again = self._place(number, job) or again

    def _join(self) -> None:
        """Whoever is free joins what would not be finished, or sooner with them, or what they want
        to learn."""
        for slot in list(self.placed.values()):
            job = self.day.jobs[slot.job]
            for who in self.day.people:
                slot = self.placed[slot.job]
                learn = who in job.learners and len(job.learners & {*slot.people}) < LEARN_BESIDE
                sooner = job.longest(len(slot.people) + 1) < slot.length
                if who in slot.people or (job.is_finished(slot) and not (learn or sooner)):
                    continue
                crew = (*(w for w in slot.people if w not in slot.watch), who, *slot.watch)
                end = min(slot.end, slot.start + job.longest(len(crew)))
                joined = slot._replace(people=crew, end=end)
                others = {n: s for n, s in self.placed.items() if n != slot.job}
                if is_sound(self.day, joined, others) and self._still_follow(joined, others):
                    self.placed[slot.job] = joined

    def _begin_sooner(self) -> None:
        """Whatever could begin sooner with the same people does, for as long at least."""
        for slot in sorted(self.placed.values(), key=lambda slot: slot.start):
            job = self.day.jobs[slot.job]
            if _decided(job) or job.follows or slot.job in self.followers:
                continue
            others = {n: s for n, s in self.placed.items() if n != slot.job}
            sooner = (
                slot._replace(start=start, end=start + length)
                for start in range(job.since, slot.start)
                for length in dict.fromkeys((job.longest(len(slot.people)), slot.length))
            )
            sound = (one for one in sooner if is_sound(self.day, one, others))
            self.placed[slot.job] = next(sound, slot)

    def _still_follow(self, slot: Slot, others: dict[int, Slot]) -> bool:
        placed = {**others, slot.job: slot}
        jobs = self.day.jobs
        behind = (n for n in placed if slot.job in jobs[n].after)
        return all(jobs[slot.job].is_finished(slot) for _ in behind) and all(
            is_followed(self.day, follow, then, placed)
            for then in self.followers.get(slot.job, ())
            for follow in jobs[then].follows
        )

    def _place(self, number: int, job: Job, by: _By | None = None) -> bool:
        """Put the job where most of it is done; what must follow it soon right behind it."""
        for slot in self._slots(number, job, by or _most_done):
            self.placed[slot.job] = slot
            if all(self._follows(then) for then in self.followers.get(number, ())):
                return True
            self._give_back(number)
        return job.goes_on and self._go_on(number, job)

    def _go_on(self, number: int, job: Job) -> bool:
        """What is under way goes on even where nothing can follow it in time."""
        for slot in self._slots(number, job, _most_done)[:1]:
            self.placed[slot.job] = slot
        return number in self.placed

    def _follows(self, then: int) -> bool:
        job = self.day.jobs[then]
        if all(is_followed(self.day, follow, then, self.placed) for follow in job.follows):
            return True
        if then in self.placed or not self._may_begin(job):
            return False
        return self._keep(then) or self._place(then, job)

    def _give_back(self, number: int) -> None:
        """Take the job out again, and what was put behind it."""
        for then in self.followers.get(number, ()):
            if then in self.placed:
                self._give_back(then)
        del self.placed[number]

    def _may_begin(self, job: Job) -> bool:
        return all(self.day.jobs[n].is_finished(self.placed.get(n)) for n in job.after)

    def _slots(self, number: int, job: Job, by: _By) -> list[Slot]:
        """The best slot. Of a job that others must follow soon all slots, the best first."""
        self.crews.look_at(number)
        if number in self.followers:
            return sorted(self._possible(number, job), key=partial(by, job))
        best = min(self._possible(number, job, longest=True), key=partial(by, job), default=None)
        return [best] if best is not None else []

    def _possible(self, number: int, job: Job, *, longest: bool = False) -> Iterator[Slot]:
        """Sound slots with a crew that has the time, and may do it together; with `longest` for
        each beginning and each size of the crew the longest only, in which most is done."""
        leaves = self.crews.taken_from()
        for start in self._starts(job):
            limit = min(job.by, self._free_until(number, job, start))
            for count in range(job.least, job.most + 1):
                full = start + job.longest(count)
                ends = [min(limit, full), min(limit, (start + full + 1) // 2)]
                ends += [min(limit, last) for last in leaves if start < last < full]
                for end in sorted({end for end in ends if end > start}, reverse=True):
                    slots = self._with_crew(number, job, start, end, count)
                    sound = [slot for slot in slots if self._is_sound(slot)]
                    yield from sound
                    if sound and longest:
                        break

    def _with_crew(self, number: int, job: Job, start: int, end: int, count: int) -> Iterator[Slot]:
        crew, watch = self.crews.crew(number, start, end, count)
        if crew:
            shorter = min(end, start + job.longest(len(crew)))
            yield Slot(number, crew, start, shorter, watch)

    def _starts(self, job: Job) -> range:
        since = max([job.since, *(self.placed[n].end for n in job.after)])
        last = job.by - 1 if job.begin_by is None else min(job.by - 1, job.begin_by)
        for follow in job.follows:
            first = self.placed[follow.first]
            if first.end < follow.later:
                last = min(last, follow.latest[first.end])
        if job.fixed_start is not None:
            return range(max(since, job.fixed_start), min(last, job.fixed_start) + 1)
        return range(since, last + 1)

    def _is_sound(self, slot: Slot) -> bool:
        """Whether it is worth beginning and keeps what it must from all that was placed."""
        job, day = self.day.jobs[slot.job], self.day
        if slot.length < job.shortest(len(slot.people)) or not may_be_finished(job, slot):
            return False
        if not day.may_be_cut(job) and day.grid.is_cut(slot.start, slot.end):
            return False
        return keeps_all(day, slot, self.placed, self.apart.get(slot.job, ()))

    def _free_until(self, number: int, job: Job, start: int) -> int:
        """Until when nothing else forbids the job, begun at `start`; `start` where it may not."""
        limit = self._room_until(job, start)
        for apart in self.apart.get(number, ()):
            if apart.people:
                continue  # it depends on the crew
            if apart.then == number and apart.first in self.placed:
                other = self.placed[apart.first]
                limit = _limited(limit, start, other.start, other.end + apart.gap)
            elif apart.first == number and apart.then in self.placed:
                other = self.placed[apart.then]
                limit = _limited(limit, start, other.start - apart.gap, other.end)
        return limit

    def _room_until(self, job: Job, start: int) -> int:
        """Until when there is room for one more job in its place."""
        if not job.place or job.goes_on:
            return self.day.blocks
        there = [s for s in self.placed.values() if self.day.jobs[s.job].place == job.place]
        room = self.day.room.get(job.place, 1)
        for block in sorted({start, *(slot.start for slot in there if slot.start > start)}):
            if sum(slot.start <= block < slot.end for slot in there) >= room:
                return block
        return self.day.blocks


_By = Callable[[Job, Slot], tuple[int, int, int]]


def _most_done(job: Job, slot: Slot) -> tuple[int, int, int]:
    return -min(job.need, job.done(slot)), slot.start, len(slot.people)


def _as_early_as_can_be(job: Job, slot: Slot) -> tuple[int, int, int]:
    return slot.start, -min(job.need, job.done(slot)), len(slot.people)


def _decided(job: Job) -> bool:
    return job.goes_on or job.begun or job.fixed is not None


def _first(job: Job) -> tuple[bool, bool]:
    """First what goes on, then what the lead has fixed."""
    return not job.goes_on, not job.begun


def _limited(limit: int, start: int, since: int, until: int) -> int:
    """The limit, when the time from `since` to `until` is taken."""
    if until <= start:
        return limit
    return start if since <= start else min(limit, since)
