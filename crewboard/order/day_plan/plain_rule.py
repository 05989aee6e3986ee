"""A plan for the day by a plain rule: the most pressing job first, each as early as can be.

First comes what goes on and what the lead fixed, then number one of what goes first, then what only
one person here can do, then all else. Each job in turn gets the beginning and the crew with which
most of it is done, the fewest hands where that is equal. Sound under every rule of the day, but
nothing is moved for the sake of a later job: the solver does that.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial

from crewboard.order.day_plan.following import followers, is_followed, may_be_finished
from crewboard.order.day_plan.reserved import only_holders
from crewboard.order.day_plan.shop_day import LEARN_BESIDE, Job, ShopDay, Slot
from crewboard.order.day_plan.sound import is_accompanied, is_sound, keeps_all, keeps_apart
from crewboard.order.day_plan.worth import worth


def by_plain_rule(day: ShopDay, kept: Sequence[Slot] = ()) -> list[Slot]:
    """Slots in the order in which they were found; those to be `kept` before all others, as far as
    they are still sound.

    The jobs are taken by what they are worth by the block, and once more with what finishing them
    is worth spread over their blocks; the better of the two plans is given.
    """
    jobs = day.jobs
    plans = [
        _PlainRule(day).slots(kept, lambda n: jobs[n].worth),
        _PlainRule(day).slots(kept, lambda n: jobs[n].worth + jobs[n].bonus / jobs[n].need),
    ]
    return max(plans, key=lambda slots: worth(day, slots))


def filled(day: ShopDay, slots: Sequence[Slot]) -> list[Slot]:
    """A sound plan, with what can be placed besides, and whoever is free where they can be of use.

    Filled once more it stays as it is.
    """
    rule = _PlainRule(day)
    rule.placed = {slot.job: slot for slot in slots}
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
        self.spared: frozenset[str] = frozenset()
        self.kept: dict[int, Slot] = {}  # what the running plan has, job by job
        self.scarce = {
            who: sum(who in cover for job in day.jobs for cover in job.covers) for who in day.people
        }

    def slots(self, kept: Sequence[Slot], by: Callable[[int], float]) -> list[Slot]:
        jobs = self.day.jobs
        order = sorted(range(len(jobs)), key=lambda n: -by(n))
        decided = sorted((n for n in order if _decided(jobs[n])), key=lambda n: _first(jobs[n]))
        self.kept = {slot.job: slot for slot in kept}
        for number in decided:
            if not (jobs[number].begun and self._keep(number)):
                self._place_all([number])
        for slot in sorted(kept, key=lambda slot: slot.start):
            self._keep(slot.job)
        self._number_one()
        self._place_all([number for number in order if number in self.only])
        self.fill(order)
        return list(self.placed.values())

    def fill(self, order: Sequence[int]) -> None:
        """Place all that still can be, and let whoever is free join."""
        self._place_all(order)
        self._join()

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
            for self.spared in (frozenset[str]().union(*others) - mine, frozenset[str]()):
                if self._place(number, jobs[number], _as_early_as_can_be):
                    break
            self.spared = frozenset()
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
        """Whoever is free joins what would not be finished, or what they want to learn."""
        for slot in list(self.placed.values()):
            job = self.day.jobs[slot.job]
            for who in self.day.people:
                slot = self.placed[slot.job]
                learn = who in job.learners and len(job.learners & {*slot.people}) < LEARN_BESIDE
                if who in slot.people or (job.is_finished(slot) and not learn):
                    continue
                crew = (*(w for w in slot.people if w not in slot.watch), who, *slot.watch)
                end = min(slot.end, slot.start + job.longest(len(crew)))
                joined = slot._replace(people=crew, end=end)
                others = {n: s for n, s in self.placed.items() if n != slot.job}
                if is_sound(self.day, joined, others) and self._still_follow(joined, others):
                    self.placed[slot.job] = joined

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
        slots = (slot for slot in self._possible(number, job) if self._is_sound(slot))
        if number in self.followers:
            return sorted(slots, key=partial(by, job))
        best = min(slots, key=partial(by, job), default=None)
        return [best] if best is not None else []

    def _possible(self, number: int, job: Job) -> Iterator[Slot]:
        """Slots with a crew that has the time, and may do it together."""
        for start in self._starts(job):
            limit = min(job.by, self._free_until(number, job, start))
            for count in range(job.least, job.most + 1):
                full = start + job.longest(count)
                ends = [min(limit, full), min(limit, (start + full + 1) // 2)]
                ends += [
                    min(limit, last) for who in job.able if (last := self.day.here(who)[1]) < full
                ]
                for end in dict.fromkeys(ends):
                    if end > start:
                        yield from self._with_crew(number, job, start, end, count)

    def _with_crew(self, number: int, job: Job, start: int, end: int, count: int) -> Iterator[Slot]:
        crew, watch = self._crew(number, start, end, count)
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
        return keeps_all(day, slot, self.placed)

    def _free_until(self, number: int, job: Job, start: int) -> int:
        """Until when nothing else forbids the job, begun at `start`; `start` where it may not."""
        limit = self._room_until(job, start)
        for apart in self.day.apart:
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

    def _crew(
        self, number: int, start: int, end: int, count: int
    ) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """So many people who are free all the time and may do it together, and who of them watches;
        who learns there first, then the fewest skills, so that the others stay free. Nobody where
        there are none."""
        day, job = self.day, self.day.jobs[number]
        may = job.able - self._too_near(number, start, end) - self._needed_elsewhere(job)
        may -= self.spared
        free = [who for who in day.people if who in may and self._is_free(who, start, end)]
        free.sort(
            key=lambda who: (who not in job.learners, self._is_only(number, who), self.scarce[who])
        )
        watch = self._watch(job, start, end, free)
        crew = list(job.always)
        if any(who not in free for who in crew) or len(watch) < job.watch:
            return (), ()
        for cover in job.covers:
            if not cover & set(crew) - set(watch):
                crew += [who for who in free if who in cover and who not in (*watch, *crew)][:1]
        crew += [who for who in watch if who not in crew]
        for who in [*crew]:
            self._bring_companion(crew, who, free)
        for who in free:
            if len(crew) >= count:
                break
            if who not in crew and is_accompanied(day, who, crew):
                crew.append(who)
        at_work = [who for who in crew if who not in watch]
        sound = (
            job.least <= len(crew) <= job.most
            and all(cover & set(at_work) for cover in job.covers)
            and all(is_accompanied(day, who, crew) for who in crew)
        )
        return ((*at_work, *watch), watch) if sound else ((), ())

    def _watch(self, job: Job, start: int, end: int, free: Sequence[str]) -> tuple[str, ...]:
        """Who watches, and afterwards watches on: of age, and no paper of theirs is needed for the
        work, as far as others have it."""
        if not job.watch:
            return ()
        may = [who for who in free if who not in self.day.minors]
        may = [who for who in may if not job.watched or self._is_free(who, start, job.watched[end])]
        needed = [who for cover in job.covers for who in may if cover & set(may) == {who}]
        may.sort(key=lambda who: (who in needed, sum(who in cover for cover in job.covers)))
        return tuple(may[: job.watch])

    def _is_only(self, number: int, who: str) -> bool:
        """Whether they are the only ones for other work that has no place yet."""
        return any(who in p for n, p in self.only.items() if n != number and n not in self.placed)

    def _needed_elsewhere(self, job: Job) -> set[str]:
        """Who stays on other work that goes on: placed one after the other, each keeps its own."""
        if not job.goes_on:
            return set()
        others = (other for other in self.day.jobs if other.goes_on and other is not job)
        return {who for other in others for who in other.stay}

    def _too_near(self, number: int, start: int, end: int) -> set[str]:
        """Who may not be on the job then, because of what is placed near it."""
        barred: set[str] = set()
        for apart in self.day.apart:
            if apart.on == number and apart.people - barred:
                slot = Slot(number, tuple(apart.people), start, end)
                if not keeps_apart(self.day, apart, {**self.placed, number: slot}):
                    barred |= apart.people
        return barred

    def _bring_companion(self, crew: list[str], who: str, free: Sequence[str]) -> None:
        if not is_accompanied(self.day, who, crew):
            beside = self.day.beside[who]
            crew += [other for other in free if other in beside and other not in crew][:1]

    def _is_free(self, who: str, start: int, end: int) -> bool:
        first, last = self.day.here(who)
        return (
            first <= start
            and end <= last
            and all(
                end <= slot.start or self.day.busy_until(slot, who) <= start
                for slot in self.placed.values()
                if who in slot.people
            )
        )


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
