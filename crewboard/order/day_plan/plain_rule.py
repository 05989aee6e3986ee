"""A plan for the day by a plain rule: the most pressing job first, each as early as can be.

Each job in turn gets the beginning and the crew with which most of it is done, the fewest hands
where that is equal. Sound under every rule of the day, but nothing is moved for the sake of a
later job: the solver does that.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import partial

from crewboard.order.day_plan.following import followers, is_followed, may_be_finished
from crewboard.order.day_plan.jigs import jigs_suffice
from crewboard.order.day_plan.shop_day import Apart, Job, ShopDay, Slot


def by_plain_rule(day: ShopDay) -> list[Slot]:
    """Slots in the order in which they were found.

    The jobs are taken by what they are worth by the block, and once more with what finishing them
    is worth spread over their blocks; the better of the two plans is given.
    """
    jobs = day.jobs
    plans = [
        _PlainRule(day).slots(lambda n: jobs[n].worth),
        _PlainRule(day).slots(lambda n: jobs[n].worth + jobs[n].bonus / jobs[n].need),
    ]
    return max(plans, key=lambda slots: worth(day, slots))


def worth(day: ShopDay, slots: Iterable[Slot]) -> int:
    """What a plan is worth: person-blocks by how pressing they are, and what gets finished."""
    total = 0
    for slot in slots:
        job = day.jobs[slot.job]
        done = len(slot.people) * slot.length
        total += job.worth * min(done, job.need) + (job.bonus if done >= job.need else 0)
    return total


def most_worth(day: ShopDay) -> int:
    """What no plan can be worth more than: everybody all day at what is worth most by the block.

    The bonus of finishing is spread over a job's blocks, as the relaxed knapsack does (Dantzig
    1957).
    """
    left = len(day.people) * day.blocks
    total = 0.0
    for job in sorted(day.jobs, key=lambda j: -(j.worth + j.bonus / j.need)):
        if len(job.able) >= job.least:
            taken = min(left, job.need, min(job.most, len(job.able)) * day.blocks)
            total += taken * (job.worth + job.bonus / job.need)
            left -= taken
    return int(total)


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
    return over and (not apart.must_end or is_finished(day, first))


def is_finished(day: ShopDay, slot: Slot) -> bool:
    """Whether a job's likely hours are done in its slot."""
    return len(slot.people) * slot.length >= day.jobs[slot.job].need


class _PlainRule:
    def __init__(self, day: ShopDay) -> None:
        self.day = day
        self.placed: dict[int, Slot] = {}
        self.busy: dict[str, list[tuple[int, int]]] = {who: [] for who in day.people}
        self.followers = followers(day)

    def slots(self, by: Callable[[int], float]) -> list[Slot]:
        order = sorted(
            range(len(self.day.jobs)), key=lambda n: (*_decided(self.day.jobs[n]), -by(n))
        )
        again = True
        while again:  # a job may wait for one that comes later in the list
            again = False
            for number in order:
                job = self.day.jobs[number]
                if number not in self.placed and self._may_begin(job):
                    again = self._place(number, job) or again
        return list(self.placed.values())

    def _place(self, number: int, job: Job) -> bool:
        """Put the job where most of it is done; what must follow it soon right behind it."""
        for slot in self._slots(number, job):
            self._take(slot)
            if all(self._follows(then) for then in self.followers.get(number, ())):
                return True
            self._give_back(number)
        return job.goes_on and self._go_on(number, job)

    def _go_on(self, number: int, job: Job) -> bool:
        """What is under way goes on even where nothing can follow it in time."""
        for slot in self._slots(number, job)[:1]:
            self._take(slot)
        return number in self.placed

    def _follows(self, then: int) -> bool:
        job = self.day.jobs[then]
        if all(is_followed(self.day, follow, then, self.placed) for follow in job.follows):
            return True
        return then not in self.placed and self._may_begin(job) and self._place(then, job)

    def _take(self, slot: Slot) -> None:
        self.placed[slot.job] = slot
        for who in slot.people:
            self.busy[who].append((slot.start, slot.end))

    def _give_back(self, number: int) -> None:
        """Take the job out again, and what was put behind it."""
        for then in self.followers.get(number, ()):
            if then in self.placed:
                self._give_back(then)
        slot = self.placed.pop(number)
        for who in slot.people:
            self.busy[who].remove((slot.start, slot.end))

    def _may_begin(self, job: Job) -> bool:
        return all(n in self.placed and is_finished(self.day, self.placed[n]) for n in job.after)

    def _slots(self, number: int, job: Job) -> list[Slot]:
        """The slot in which most of the job is done; earlier, then smaller crews first. Of a job
        that others must follow soon all slots, the best first."""
        slots = (slot for slot in self._possible(number, job) if self._is_sound(slot))
        if number in self.followers:
            return sorted(slots, key=partial(_key, job))
        best = min(slots, key=partial(_key, job), default=None)
        return [best] if best is not None else []

    def _possible(self, number: int, job: Job) -> Iterator[Slot]:
        """Slots with a crew that has the time, and may do it together."""
        for start in self._starts(job):
            limit = min(job.by, self._free_until(number, job, start))
            for count in range(job.least, job.most + 1):
                full = start + job.longest(count)
                for end in dict.fromkeys((min(limit, full), min(limit, (start + full + 1) // 2))):
                    crew = self._crew(number, start, end, count)
                    if end > start and crew is not None:
                        shorter = min(end, start + job.longest(len(crew)))
                        yield Slot(number, crew, start, shorter)

    def _starts(self, job: Job) -> range:
        since = max([job.since, *(self.placed[n].end for n in job.after)])
        last = job.by - 1 if job.begin_by is None else min(job.by - 1, job.begin_by)
        for follow in job.follows:
            first = self.placed[follow.first]
            if first.end < follow.later:
                last = min(last, first.end + follow.within)
        if job.fixed_start is not None:
            return range(max(since, job.fixed_start), min(last, job.fixed_start) + 1)
        return range(since, last + 1)

    def _is_sound(self, slot: Slot) -> bool:
        """Whether it is worth beginning and keeps what it must from all that was placed."""
        job, day = self.day.jobs[slot.job], self.day
        if slot.length < job.shortest(len(slot.people)) or not may_be_finished(job, slot):
            return False
        placed = {**self.placed, slot.job: slot}
        if job.jigs and not jigs_suffice(day, placed):
            return False
        return all(
            keeps_apart(day, apart, placed)
            for apart in day.apart
            if slot.job in (apart.first, apart.then)
        )

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

    def _crew(self, number: int, start: int, end: int, count: int) -> tuple[str, ...] | None:
        """So many people who are free all the time and may do it together; the fewest skills
        first, so that the others stay free."""
        job = self.day.jobs[number]
        may = job.able - self._too_near(number, start, end) - self._needed_elsewhere(job)
        free = [who for who in self.day.people if who in may and self._is_free(who, start, end)]
        free.sort(key=lambda who: sum(who in c for j in self.day.jobs for c in j.covers))
        crew = list(job.always)
        if any(who not in free for who in crew):
            return None
        for cover in job.covers:
            if not cover & set(crew):
                crew += [who for who in free if who in cover][:1]
        if job.covers and any(not cover & set(crew) for cover in job.covers):
            return None
        for who in [*crew]:
            self._bring_companion(crew, who, free)
        for who in free:
            if len(crew) >= count:
                break
            if who not in crew and self._is_accompanied(who, crew):
                crew.append(who)
        sound = job.least <= len(crew) <= job.most and all(
            self._is_accompanied(who, crew) for who in crew
        )
        return tuple(crew) if sound else None

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

    def _bring_companion(self, crew: list[str], who: str, free: list[str]) -> None:
        if not self._is_accompanied(who, crew):
            crew += [
                companion
                for companion in free
                if companion in self.day.beside[who] and companion not in crew
            ][:1]

    def _is_accompanied(self, who: str, crew: Iterable[str]) -> bool:
        return who not in self.day.beside or bool(self.day.beside[who] & set(crew))

    def _is_free(self, who: str, start: int, end: int) -> bool:
        return all(end <= since or until <= start for since, until in self.busy[who])


def _decided(job: Job) -> tuple[bool, bool]:
    """First what goes on, then what the lead has fixed."""
    return not job.goes_on, job.fixed is None


def _key(job: Job, slot: Slot) -> tuple[int, int, int]:
    done = len(slot.people) * slot.length
    return -min(job.need, done), slot.start, len(slot.people)


def _limited(limit: int, start: int, since: int, until: int) -> int:
    """The limit, when the time from `since` to `until` is taken."""
    if until <= start:
        return limit
    return start if since <= start else min(limit, since)
