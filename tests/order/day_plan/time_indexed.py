"""The best plan of a day by another formulation than the program's: time-indexed columns.

A column is a job with its start, its end and how many are on it, so that what it is worth, and when
it takes its place, its jigs and the peace of others, are plain numbers (time-indexed formulation:
Sousa and Wolsey 1992). People are assigned block by block. Written from the rules of the day
(`ShopDay`), not from the program's model.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from itertools import count
from typing import Any, NamedTuple

from crewboard.order.day_plan.shop_day import LEARN_BESIDE, LEARNING, Job, ShopDay


class Column(NamedTuple):
    """A job from a block to before another, with so many people."""

    job: int
    start: int
    end: int
    size: int
    done: int
    finished: bool


class Best(NamedTuple):
    """What the best plan found is worth, and what none is worth more than."""

    value: int
    bound: float


def columns_of(day: ShopDay, number: int) -> Iterator[Column]:
    job = day.jobs[number]
    last_start = job.by if job.begin_by is None else min(job.by, job.begin_by + 1)
    for start in range(max(0, job.since), max(0, last_start)):
        if job.fixed_start is not None and start != job.fixed_start:
            continue
        for end in range(start + 1, job.by + 1):
            whole = job.whole and not job.goes_on and not job.begun
            if whole and any(start < cut < end for cut in day.grid.cuts):
                continue
            for size in range(job.least, min(job.most, len(job.able)) + 1):
                hands = size - job.watch
                full = -(-job.need // max(1, hands))
                if end - start > full or end - start < job.shortest(size):
                    continue
                done = hands * (end - start)
                if done < job.need or job.may_finish:
                    yield Column(number, start, end, size, min(done, job.need), done >= job.need)


def best_of(day: ShopDay, work: float, seed: int = 1) -> Best | None:
    """The best plan within so much of the solver's own measure of work; None without one."""
    from ortools.sat.python import cp_model

    model = _Model(cp_model.CpModel(), day)
    solver = cp_model.CpSolver()
    solver.parameters.max_deterministic_time = work
    solver.parameters.num_workers = 1
    solver.parameters.interleave_search = True
    solver.parameters.random_seed = seed
    if solver.solve(model.model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return Best(round(solver.objective_value), solver.best_objective_bound)


class _Model:
    def __init__(self, model: Any, day: ShopDay) -> None:
        self.model, self.day = model, day
        self.names = count()
        self.x: list[dict[Column, Any]] = []
        self.on_it: list[dict[str, Any]] = []
        self.watch: list[dict[str, Any]] = []
        self.busy: dict[tuple[str, int], list[Any]] = defaultdict(list)
        self.value: list[Any] = []
        for number, job in enumerate(day.jobs):
            self._job(number, job)
        for terms in self.busy.values():
            model.add(sum(terms) <= 1)
        self._turns()
        self._places()
        self._jigs()
        self._apart()
        model.maximize(sum(self.value))

    def _new(self) -> Any:
        return self.model.new_bool_var(f"v{next(self.names)}")

    def _job(self, number: int, job: Job) -> None:
        model, day = self.model, self.day
        x = {column: self._new() for column in columns_of(day, number)}
        z = {who: self._new() for who in day.people if who in job.able}
        watch = {who: self._new() for who in z if job.watch and who not in day.minors}
        self.x.append(x)
        self.on_it.append(z)
        self.watch.append(watch)
        on = sum(x.values())
        model.add(on <= 1)
        self.value += [(job.worth * c.done + job.bonus * c.finished) * var for c, var in x.items()]
        model.add(sum(z.values()) == sum(c.size * var for c, var in x.items()))
        if job.must:
            model.add(sum(c.done * var for c, var in x.items()) >= job.must)
        model.add(sum(watch.values()) == job.watch * on)
        for who, watches in watch.items():
            model.add(watches <= z[who])
        for cover in job.covers:
            model.add(sum(z[w] - watch.get(w, 0) for w in z if w in cover) >= on)
        for who in z:
            if who in day.beside:
                model.add(z[who] <= sum(z[o] for o in z if o in day.beside[who]))
        for who in job.always:
            model.add((z.get(who, 0)) == on)
        self._blocks(number, job)

    def _blocks(self, number: int, job: Job) -> None:
        """Who is on it in which block, and watches on behind it; nobody outside their hours."""
        model, day, x = self.model, self.day, self.x[number]
        learn = []
        for who, z in self.on_it[number].items():
            first, last = day.may_from(job, who)
            for block in range(day.blocks):
                at = sum(var for c, var in x.items() if c.start <= block < c.end)
                if not first <= block < last:
                    model.add(z + at <= 1)
                    continue
                taken = self._new()
                model.add(taken >= z + at - 1)
                if who in job.learners:
                    model.add(taken <= z)
                    model.add(taken <= at)
                    learn.append((block, taken))
                self.busy[who, block].append(taken)
            watches = self.watch[number].get(who)
            for block in range(day.blocks) if watches is not None and job.watched else ():
                on = sum(var for c, var in x.items() if c.end <= block < job.watched[c.end])
                if not first <= block < last:
                    model.add(watches + on <= 1)
                    continue
                taken = self._new()
                model.add(taken >= watches + on - 1)
                self.busy[who, block].append(taken)
        for block in range(day.blocks) if learn else ():
            some = model.new_int_var(0, LEARN_BESIDE, f"learn {number} {block}")
            model.add(some <= sum(taken for b, taken in learn if b == block))
            self.value.append(LEARNING * some)

    def _turns(self) -> None:
        """What comes after other work, and what must follow it soon."""
        for number, job in enumerate(self.day.jobs):
            for before in job.after:
                for block in range(self.day.blocks):
                    begun = [v for c, v in self.x[number].items() if c.start <= block]
                    over = [v for c, v in self.x[before].items() if c.finished and c.end <= block]
                    self.model.add(sum(begun) <= sum(over))
            for follow in job.follows:
                for end in range(1, min(follow.later, self.day.blocks + 1)):
                    over = [
                        v for c, v in self.x[follow.first].items() if c.finished and c.end == end
                    ]
                    soon = [v for c, v in self.x[number].items() if c.start <= follow.latest[end]]
                    self.model.add(sum(over) <= sum(soon))

    def _places(self) -> None:
        for place in {job.place for job in self.day.jobs if job.place}:
            mine = [n for n, job in enumerate(self.day.jobs) if job.place == place]
            room = self.day.room.get(place, 1)
            for block in range(self.day.blocks):
                there = {
                    n: sum(v for c, v in self.x[n].items() if c.start <= block < c.end)
                    for n in mine
                }
                goes_on = [n for n in mine if self.day.jobs[n].goes_on]
                others = [there[n] for n in mine if n not in goes_on]
                most = max(room, len(goes_on))
                weight = most - room + 1
                self.model.add(sum(there[n] for n in goes_on) + weight * sum(others) <= most)

    def _jigs(self) -> None:
        for jig, number in self.day.jigs.items():
            using = [n for n, job in enumerate(self.day.jobs) if jig in job.jigs]
            for block in range(self.day.blocks):
                taken: list[Any] = []
                for n in using:
                    job = self.day.jobs[n]
                    if job.has_jigs:
                        free = [
                            v
                            for c, v in self.x[n].items()
                            if c.finished and not job.keeps_jigs and c.end <= block
                        ]
                        taken.append(1 - sum(free))
                    else:
                        taken += [
                            v
                            for c, v in self.x[n].items()
                            if c.start <= block
                            and (block < c.end or job.keeps_jigs or not c.finished)
                        ]
                self.model.add(sum(taken) <= number)

    def _apart(self) -> None:
        for apart in self.day.apart:
            young = [z for w, z in self.on_it[apart.on].items() if w in apart.people]
            for block in range(self.day.blocks):
                then = [v for c, v in self.x[apart.then].items() if c.start == block]
                near = [
                    v
                    for c, v in self.x[apart.first].items()
                    if c.start <= block
                    and (c.end + apart.gap > block or (apart.must_end and not c.finished))
                ]
                if not then or not near:
                    continue
                if not apart.people:
                    self.model.add(sum(then) + sum(near) <= 1)
                for z in young:
                    self.model.add(sum(then) + sum(near) + z <= 2)
