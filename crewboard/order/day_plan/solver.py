"""A plan for the day by a constraint solver (OR-Tools' CP-SAT, Apache licence), where installed.

Each job is at most one interval with a crew; what is done is crew times length, which a sum over
crew sizes keeps linear. The solver is loaded only when it is asked.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any, NamedTuple

from crewboard.order.day_plan.jigs import taken_until
from crewboard.order.day_plan.plain_rule import worth
from crewboard.order.day_plan.shop_day import Apart, Follows, Job, ShopDay, Slot

# The solver's own measure of work for an effort of 1 (tests/bench/ordering.py says how long).
WORK = 0.3


class Solved(NamedTuple):
    """The best plan found, and what no plan can be worth more than."""

    slots: list[Slot]
    bound: int


class NoSolver(Exception):
    """The solver library is not installed."""


def solve(day: ShopDay, hint: list[Slot], effort: float, seed: int = 1) -> Solved | None:
    """The best plan found with that effort, at least as good as `hint`; None where none was found.

    An effort of 1 is about a second's work on a usual machine. It is counted in steps, not by the
    clock, and the search takes turns on one core: the same day gives the same plan everywhere.
    Raises NoSolver where the library is missing.
    """
    try:
        from ortools.sat.python import cp_model
    except ImportError:
        raise NoSolver from None
    model = _DayModel(cp_model, day)
    model.hint(hint)
    solver = cp_model.CpSolver()
    solver.parameters.max_deterministic_time = effort * WORK
    solver.parameters.num_workers = 1
    solver.parameters.interleave_search = True
    solver.parameters.random_seed = seed
    status = solver.solve(model.model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    slots = model.read(solver)
    bound = int(solver.best_objective_bound + 1e-6)
    return Solved(slots, max(bound, worth(day, slots)))


class _DayModel:
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
        self.spent: list[Any] = []  # person-blocks of each job
        self.jig_times: dict[int, Any] = {}
        value: list[Any] = []
        for number, job in enumerate(day.jobs):
            self.interval.append(
                new.new_optional_interval_var(
                    self.start[number], self.length[number], self.end[number], self.on[number], ""
                )
            )
            self.has.append({who: new.new_bool_var("") for who in day.people if who in job.able})
            value.append(self._done(number, job) * job.worth + self.finished[number] * job.bonus)
            self._crew(number, job)
            self._when(number, job)
        self._people()
        self._places()
        self._jigs()
        self._following()
        self._apart()
        new.maximize(sum(value))

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
            self._read_off(is_size, partial(_is_of_size, number, size))
            self._read_off(length, partial(_length_at_size, number, size))
        new.add(sum(is_size for _, is_size in sizes) == self.on[number])
        new.add(sum(self.has[number].values()) == sum(size * chosen for size, chosen in sizes))
        new.add(self.length[number] == sum(length for _, length in lengths))
        done = new.new_int_var(0, job.need, "")
        new.add(done <= sum(size * length for size, length in lengths))
        self._read_off(done, lambda slots: min(job.need, _blocks(slots.get(number))))
        self._read_off(
            self.finished[number], lambda slots: int(_blocks(slots.get(number)) >= job.need)
        )
        new.add(done >= job.need * self.finished[number])
        self.spent.append(sum(size * length for size, length in lengths))
        return done

    def _crew(self, number: int, job: Job) -> None:
        has, on = self.has[number], self.on[number]
        # In the order of the people: a set's own differs from process to process, and with it the
        # plan that is found first.
        for cover in job.covers:
            self.model.add(sum(has[who] for who in has if who in cover) >= on)
        for who, companions in self.day.beside.items():
            if who in has:
                self.model.add(has[who] <= sum(has[other] for other in has if other in companions))
        for who in job.always:
            if who in has:
                self.model.add(has[who] == on)
            else:
                self.model.add(on == 0)

    def _when(self, number: int, job: Job) -> None:
        new, on = self.model, self.on[number]
        new.add(self.start[number] >= job.since).only_enforce_if(on)
        new.add(self.end[number] <= job.by).only_enforce_if(on)
        if job.fixed_start is not None:
            new.add(self.start[number] == job.fixed_start).only_enforce_if(on)
        for earlier in job.after:
            new.add_implication(on, self.finished[earlier])
            new.add(self.start[number] >= self.end[earlier]).only_enforce_if(on)

    def _people(self) -> None:
        """Nobody is in two places. The sums say nothing new, but they tell the solver early what
        cannot be reached."""
        day, new = self.day, self.model
        new.add(sum(self.spent) <= len(day.people) * day.blocks)
        works: list[dict[str, Any]] = []
        for number, has in enumerate(self.has):
            mine = {who: new.new_int_var(0, day.blocks, "") for who in has}
            for who, blocks in mine.items():
                self._read_off(blocks, partial(_blocks_of, number, who))
            for who, blocks in mine.items():
                new.add(blocks <= day.blocks * has[who])
                new.add(blocks <= self.length[number])
            new.add(sum(mine.values()) == self.spent[number])
            for cover in day.jobs[number].covers:
                new.add(sum(mine[who] for who in mine if who in cover) >= self.length[number])
            works.append(mine)
        for who in day.people:
            new.add(sum(mine[who] for mine in works if who in mine) <= day.blocks)
        for who in day.people:
            intervals = [
                self.model.new_optional_interval_var(
                    self.start[n], self.length[n], self.end[n], has[who], ""
                )
                for n, has in enumerate(self.has)
                if who in has
            ]
            self.model.add_no_overlap(intervals)

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
            self._read_off(until, partial(_jigs_until, self.day, number))
            self._read_off(lasts, partial(_jigs_for, self.day, number))
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
                new.add(self.spent[number] < job.need)
            for follow in job.follows:
                self._follow(number, follow)

    def _follow(self, number: int, follow: Follows) -> None:
        new, first = self.model, follow.first
        need = self.day.jobs[first].need
        new.add(self.spent[first] < need).only_enforce_if(self.finished[first].negated())
        late = [self.finished[first]]
        if follow.later <= self.day.blocks:
            later = new.new_bool_var("")
            self._read_off(later, partial(_ends_from, first, follow.later))
            new.add(self.end[first] >= follow.later).only_enforce_if(later)
            late.append(later.negated())
        new.add(self.on[number] == 1).only_enforce_if(late)
        new.add(self.start[number] <= self.end[first] + follow.within).only_enforce_if(late)

    def _apart(self) -> None:
        """Of each pair one ends, its wait included, before the other begins."""
        comes_first: dict[tuple[int, int], Any] = {}
        for apart in self.day.apart:
            pair = min(apart.first, apart.then), max(apart.first, apart.then)
            if pair not in comes_first:
                comes_first[pair] = self.model.new_bool_var("")
                self._read_off(comes_first[pair], partial(_comes_first, *pair))
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
            if slot is not None and (job.fixed is not None or job.goes_on):
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
            Slot(
                number,
                tuple(who for who, has in self.has[number].items() if solver.value(has)),
                solver.value(self.start[number]),
                solver.value(self.end[number]),
            )
            for number in range(len(self.day.jobs))
            if solver.value(self.on[number])
        ]


def _blocks(slot: Slot | None) -> int:
    return len(slot.people) * slot.length if slot else 0


def _is_of_size(number: int, size: int, slots: Mapping[int, Slot]) -> int:
    return int(number in slots and len(slots[number].people) == size)


def _length_at_size(number: int, size: int, slots: Mapping[int, Slot]) -> int:
    return slots[number].length if _is_of_size(number, size, slots) else 0


def _blocks_of(number: int, who: str, slots: Mapping[int, Slot]) -> int:
    return slots[number].length if number in slots and who in slots[number].people else 0


def _jigs_until(day: ShopDay, number: int, slots: Mapping[int, Slot]) -> int:
    slot, job = slots.get(number), day.jobs[number]
    end = slot.end if slot else 0
    return taken_until(day, job, end, _blocks(slot) >= job.need)


def _jigs_for(day: ShopDay, number: int, slots: Mapping[int, Slot]) -> int:
    slot, job = slots.get(number), day.jobs[number]
    since = 0 if job.has_jigs or slot is None else slot.start
    return _jigs_until(day, number, slots) - since


def _ends_from(number: int, block: int, slots: Mapping[int, Slot]) -> int:
    return int(number in slots and slots[number].end >= block)


def _comes_first(one: int, two: int, slots: Mapping[int, Slot]) -> int:
    return int(one in slots and two in slots and slots[one].start < slots[two].start)
