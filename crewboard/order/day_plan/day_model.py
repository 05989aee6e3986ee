"""The rules of a day as the variables of a constraint solver.

Each job is at most one interval with a crew; what is done is crew times length, which a sum over
crew sizes keeps linear.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from typing import Any

from crewboard.order.day_plan import read_off
from crewboard.order.day_plan.shop_day import (
    LEARN_BESIDE,
    LEARNING,
    Apart,
    Follows,
    Job,
    ShopDay,
    Slot,
)

# How much it counts that a person stays on a job, that it begins and that it ends when it did.
PAIR, START, END = 5, 3, 1


class DayModel:
    """The variables and rules of one day."""

    def __init__(self, cp_model: Any, day: ShopDay) -> None:
        self.cp = cp_model
        self.model = cp_model.CpModel()
        self.day = day
        count = len(day.jobs)
        new = self.model
        self.on = [new.new_bool_var("") for _ in range(count)]
        self.finished = [new.new_bool_var("") for _ in range(count)]
        self.start = [new.new_int_var(0, day.blocks, "") for _ in range(count)]
        self.length = [new.new_int_var(0, day.blocks, "") for _ in range(count)]
        self.end = [new.new_int_var(0, day.blocks, "") for _ in range(count)]
        self.has: list[dict[str, Any]] = []
        self.interval = []
        self.hints: list[tuple[Any, Callable[[Mapping[int, Slot]], int]]] = []
        self.spent: list[Any] = []  # person-blocks of each job, watchers' too
        self.worked: list[Any] = []  # of these, those of work
        self.watches: list[dict[str, Any]] = []
        self.mine: list[dict[str, Any]] = []  # of each job each person's blocks
        self.free_at: dict[int, Any] = {}  # until when the watchers of a job are taken
        self.jig_times: dict[int, Any] = {}
        self.value: list[Any] = []
        for number, job in enumerate(day.jobs):
            self.interval.append(
                new.new_optional_interval_var(
                    self.start[number], self.length[number], self.end[number], self.on[number], ""
                )
            )
            self.has.append({who: new.new_bool_var("") for who in day.people if who in job.able})
            done = self._done(number, job)
            self.value.append(done * job.worth + self.finished[number] * job.bonus)
            self._watch(number, job)
            self._crew(number, job)
            self._when(number, job)
        self._people()
        self._learning()
        self._places()
        self._jigs()
        self._following()
        self._apart()

    def most_worth(self) -> None:
        """The plan is to be worth as much as can be."""
        self.model.maximize(sum(self.value))

    def most_kept(self, kept: Sequence[Slot], at_least: int) -> None:
        """It is to keep as much as can be of these slots, and be worth so much at least."""
        same: list[Any] = []
        for slot in kept:
            n, on = slot.job, self.on[slot.job]
            same += [PAIR * self.has[n][who] for who in slot.people if who in self.has[n]]
            for variable, was, weight in (
                (self.start[n], slot.start, START),
                (self.end[n], slot.end, END),
            ):
                is_same = self.model.new_bool_var("")
                self.model.add(variable == was).only_enforce_if(is_same)
                self.model.add_implication(is_same, on)
                same.append(weight * is_same)
        self.model.add(sum(self.value) >= at_least)
        self.model.maximize((1 + at_least // 10) * sum(same) + sum(self.value))

    def _done(self, number: int, job: Job) -> Any:
        """The person-blocks done, no more than the job needs."""
        new, day = self.model, self.day
        most = min(job.most, len(self.has[number]))
        sizes, lengths = [], []
        for size in range(job.least, most + 1):
            is_size = new.new_bool_var("")
            longest = min(day.blocks, job.longest(size))
            length = new.new_int_var(0, longest, "")
            new.add(length <= longest * is_size)
            new.add(length >= job.shortest(size) * is_size)
            sizes.append((size, is_size))
            lengths.append((size, length))
            self._read_off(is_size, partial(read_off.is_of_size, number, size))
            self._read_off(length, partial(read_off.length_at_size, number, size))
        new.add(sum(is_size for _, is_size in sizes) == self.on[number])
        new.add(sum(self.has[number].values()) == sum(size * chosen for size, chosen in sizes))
        new.add(self.length[number] == sum(length for _, length in lengths))
        done = new.new_int_var(0, job.need, "")
        self.worked.append(sum((size - job.watch) * length for size, length in lengths))
        new.add(done <= self.worked[number])
        self._read_off(done, lambda slots: min(job.need, job.done(slots.get(number))))
        self._read_off(self.finished[number], lambda slots: int(job.is_finished(slots.get(number))))
        if job.must:
            new.add(done >= job.must)
        new.add(done >= job.need * self.finished[number])
        self.spent.append(sum(size * length for size, length in lengths))
        return done

    def _crew(self, number: int, job: Job) -> None:
        has, on = self.has[number], self.on[number]
        # In the order of the people: a set's own differs from process to process, and with it the
        # plan that is found first.
        watch = self.watches[number]
        for cover in job.covers:
            there = [has[who] - watch.get(who, 0) for who in has if who in cover]
            self.model.add(sum(there) >= on)
        for who, companions in self.day.beside.items():
            if who in has:
                self.model.add(has[who] <= sum(has[other] for other in has if other in companions))
        for who in job.always:
            if who in has:
                self.model.add(has[who] == on)
            else:
                self.model.add(on == 0)

    def _watch(self, number: int, job: Job) -> None:
        """Who watches and does no work, and until when."""
        day, new, has = self.day, self.model, self.has[number]
        may = [who for who in has if job.watch and who not in day.minors]
        watch = {who: new.new_bool_var("") for who in may}
        self.watches.append(watch)
        for who, watches in watch.items():
            new.add_implication(watches, has[who])
            self._read_off(watches, partial(read_off.watches, number, who))
        if job.watch:
            new.add(sum(watch.values()) == job.watch * self.on[number])
        if job.watched:
            self.free_at[number] = new.new_int_var(0, day.blocks, "")
            new.add_element(self.end[number], job.watched, self.free_at[number])
            self._read_off(self.free_at[number], partial(read_off.free_at, day, number))

    def _when(self, number: int, job: Job) -> None:
        new, on = self.model, self.on[number]
        new.add(self.start[number] >= job.since).only_enforce_if(on)
        new.add(self.end[number] <= job.by).only_enforce_if(on)
        if job.fixed_start is not None:
            new.add(self.start[number] == job.fixed_start).only_enforce_if(on)
        for who, has in self.has[number].items():
            first, last = self.day.may_from(job, who)
            if (first, last) != (0, self.day.blocks):
                new.add(self.start[number] >= first).only_enforce_if(has)
                new.add(self.end[number] <= last).only_enforce_if(has)
                if number in self.free_at and who in self.watches[number]:
                    watches = self.watches[number][who]
                    new.add(self.free_at[number] <= last).only_enforce_if(watches)
        for block in () if self.day.may_be_cut(job) else self.day.grid.cuts:
            before = new.new_bool_var("")
            new.add(self.end[number] <= block).only_enforce_if(on, before)
            new.add(self.start[number] >= block).only_enforce_if(on, before.negated())
            self._read_off(before, partial(read_off.ends_by, number, block))
        for earlier in job.after:
            new.add_implication(on, self.finished[earlier])
            new.add(self.start[number] >= self.end[earlier]).only_enforce_if(on)

    def _people(self) -> None:
        """Nobody is in two places. The sums say nothing new, but they tell the solver early what
        cannot be reached."""
        day, new = self.day, self.model
        here = {who: last - first for who in day.people for first, last in [day.here(who)]}
        new.add(sum(self.spent) <= sum(here.values()))
        for number, has in enumerate(self.has):
            mine = {who: new.new_int_var(0, here[who], "") for who in has}
            for who, blocks in mine.items():
                self._read_off(blocks, partial(read_off.blocks_of, number, who))
                new.add(blocks <= here[who] * has[who])
                new.add(blocks <= self.length[number])
            new.add(sum(mine.values()) == self.spent[number])
            for cover in day.jobs[number].covers:
                new.add(sum(mine[who] for who in mine if who in cover) >= self.length[number])
            self.mine.append(mine)
        for who in day.people:
            new.add(sum(mine[who] for mine in self.mine if who in mine) <= here[who])
            new.add_no_overlap(list(self._times_of(who)))

    def _times_of(self, who: str) -> Iterator[Any]:
        """The intervals in which a person may be taken, watching after the work too."""
        new = self.model
        for n, has in enumerate(self.has):
            if who in has:
                yield new.new_optional_interval_var(
                    self.start[n], self.length[n], self.end[n], has[who], ""
                )
            if n in self.free_at and who in self.watches[n]:
                lasts = new.new_int_var(0, self.day.blocks, "")
                self._read_off(lasts, partial(read_off.watches_on_for, self.day, n))
                new.add(lasts == self.free_at[n] - self.end[n])
                yield new.new_optional_interval_var(
                    self.end[n], lasts, self.free_at[n], self.watches[n][who], ""
                )

    def _learning(self) -> None:
        """A little for each block in which somebody learns."""
        for number, job in enumerate(self.day.jobs):
            mine = [blocks for who, blocks in self.mine[number].items() if who in job.learners]
            if mine:
                learn = self.model.new_int_var(0, LEARN_BESIDE * self.day.blocks, "")
                self.model.add(learn <= sum(mine))
                self.model.add(learn <= LEARN_BESIDE * self.length[number])
                self._read_off(learn, partial(read_off.learn, self.day, number))
                self.value.append(LEARNING * learn)

    def _places(self) -> None:
        places: dict[str, list[int]] = {}
        for number, job in enumerate(self.day.jobs):
            if job.place:
                places.setdefault(job.place, []).append(number)
        for place, numbers in places.items():
            room = self.day.room.get(place, 1)
            intervals = [self.interval[number] for number in numbers]
            go_on = [self.day.jobs[number].goes_on for number in numbers]
            most = max(room, sum(go_on))
            if most == 1:
                self.model.add_no_overlap(intervals)
            else:  # where more goes on than there is room for, nothing else begins beside it
                takes = [1 if goes_on else most - room + 1 for goes_on in go_on]
                self.model.add_cumulative(intervals, takes, most)
            self.model.add(sum(self.length[number] for number in numbers) <= most * self.day.blocks)

    def _jigs(self) -> None:
        """Of each jig there are always enough; a hold, or work left unfinished, keeps its own."""
        for jig, count in self.day.jigs.items():
            using = [n for n, job in enumerate(self.day.jobs) if jig in job.jigs]
            times = [self._has_jigs(number) for number in using]
            self.model.add_cumulative(times, [1] * len(times), count)

    def _has_jigs(self, number: int) -> Any:
        """From when till when a job has its jigs."""
        new, blocks, job = self.model, self.day.blocks, self.day.jobs[number]
        if number not in self.jig_times:
            since: Any = 0 if job.has_jigs else self.start[number]
            until = new.new_int_var(0, blocks, "")
            lasts = new.new_int_var(0, blocks, "")
            given_back = [] if job.keeps_jigs else [self.finished[number]]
            for finished in given_back:
                new.add(until == self.end[number]).only_enforce_if(finished)
            new.add(until == blocks).only_enforce_if([free.negated() for free in given_back])
            self._read_off(until, partial(read_off.jigs_until, self.day, number))
            self._read_off(lasts, partial(read_off.jigs_for, self.day, number))
            present = 1 if job.has_jigs else self.on[number]
            self.jig_times[number] = new.new_optional_interval_var(since, lasts, until, present, "")
        return self.jig_times[number]

    def _following(self) -> None:
        """What must be begun by some time, or so soon after other work; and what must not be
        finished, since nothing could follow it."""
        new = self.model
        for number, job in enumerate(self.day.jobs):
            if job.begin_by is not None:
                new.add(self.start[number] <= job.begin_by).only_enforce_if(self.on[number])
            if not job.may_finish:
                new.add(self.worked[number] < job.need)
            for follow in job.follows:
                self._follow(number, follow)

    def _follow(self, number: int, follow: Follows) -> None:
        new, first = self.model, follow.first
        need = self.day.jobs[first].need
        new.add(self.worked[first] < need).only_enforce_if(self.finished[first].negated())
        late = [self.finished[first]]
        if follow.later <= self.day.blocks:
            later = new.new_bool_var("")
            self._read_off(later, partial(read_off.ends_from, first, follow.later))
            new.add(self.end[first] >= follow.later).only_enforce_if(later)
            late.append(later.negated())
        new.add(self.on[number] == 1).only_enforce_if(late)
        latest = new.new_int_var(min(follow.latest), self.day.blocks, "")
        new.add_element(self.end[first], follow.latest, latest)
        self._read_off(latest, partial(read_off.latest, follow))
        new.add(self.start[number] <= latest).only_enforce_if(late)

    def _apart(self) -> None:
        """Of each pair one ends, its wait included, before the other begins."""
        comes_first: dict[tuple[int, int], Any] = {}
        for apart in self.day.apart:
            pair = min(apart.first, apart.then), max(apart.first, apart.then)
            if pair not in comes_first:
                comes_first[pair] = self.model.new_bool_var("")
                self._read_off(comes_first[pair], partial(read_off.comes_first, *pair))
            order = comes_first[pair]
            if apart.first != pair[0]:
                order = order.negated()
            when = [self.on[apart.first], self.on[apart.then], order]
            if not apart.people:
                self._first_then(apart, when)
            for who in self.day.people:
                if who in apart.people and who in self.has[apart.on]:
                    self._first_then(apart, [*when, self.has[apart.on][who]])

    def _first_then(self, apart: Apart, when: list[Any]) -> None:
        over = self.end[apart.first] + apart.gap <= self.start[apart.then]
        self.model.add(over).only_enforce_if(when)
        if apart.must_end:
            self.model.add(self.finished[apart.first] == 1).only_enforce_if(when)

    def hint(self, slots: list[Slot]) -> None:
        """Begin from a plan that is known to be sound."""
        placed = {slot.job: slot for slot in slots}
        for variable, value_in in self.hints:
            self.model.add_hint(variable, value_in(placed))
        for number, job in enumerate(self.day.jobs):
            slot = placed.get(number)
            if slot is not None and (job.fixed is not None or job.goes_on or job.begun):
                self.model.add(self.on[number] == 1)  # it is decided, and it can be done
            self.model.add_hint(self.on[number], int(slot is not None))
            for who, has in self.has[number].items():
                self.model.add_hint(has, int(slot is not None and who in slot.people))
            self.model.add_hint(self.start[number], slot.start if slot else 0)
            self.model.add_hint(self.length[number], slot.length if slot else 0)
            self.model.add_hint(self.end[number], slot.end if slot else 0)

    def _read_off(self, variable: Any, value_in: Callable[[Mapping[int, Slot]], int]) -> None:
        """Remember how to read the variable off a plan: a whole hint is worth far more."""
        self.hints.append((variable, value_in))

    def read(self, solver: Any) -> list[Slot]:
        return [
            self._slot(number, solver)
            for number in range(len(self.day.jobs))
            if solver.value(self.on[number])
        ]

    def _slot(self, number: int, solver: Any) -> Slot:
        watch = tuple(who for who, on in self.watches[number].items() if solver.value(on))
        crew = [who for who, has in self.has[number].items() if solver.value(has)]
        people = (*(who for who in crew if who not in watch), *watch)
        start, end = solver.value(self.start[number]), solver.value(self.end[number])
        return Slot(number, people, start, end, watch)
