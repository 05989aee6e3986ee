"""Where the time goes on the chain that sets the date: work, holds, deliveries, waits for people.

Courses are played again and watched. Along the chain of each, from now to its end, every span is
put down to what it was spent on; the spans of one course add up to all of its time.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from random import Random
from types import MappingProxyType
from typing import Literal, NamedTuple

from crewboard.order.ahead.work_time import DAY
from crewboard.order.forecast.days import WorkDayTable
from crewboard.order.forecast.draws import Drawn, draw
from crewboard.order.forecast.finds import TurnedUp, turn_up
from crewboard.order.forecast.model import Model
from crewboard.order.forecast.playing import Playing
from crewboard.order.forecast.runs import Progress

# "work": the task under way, nights and weeks between work days included. "found": the same for
# what it turned up. "hold": it sets, dries, or is looked at. "delivery": what it needs is not here.
# "people": ready, and nobody free who may, no room, or no work day. "date": a fixed date.
Spent = Literal["work", "found", "people", "hold", "delivery", "date"]
WAITS: tuple[Spent, ...] = ("people", "hold", "delivery", "date")
LONGEST = 10
_CHUNK = 20


class Wait(NamedTuple):
    """What was waited for before or after a task: days, on average over all courses."""

    spent: Spent
    task: str
    days: float


class Waited(NamedTuple):
    """Means over all courses: days from now to the end, what they were spent on; how many tasks
    the chain has, and on how many work days work on it was under way. Then the longest waits."""

    days: float
    spent: Mapping[Spent, float]
    tasks: float
    work_days: float
    longest: tuple[Wait, ...]


class _Chain(NamedTuple):
    """Of one course: each span with the task that it belongs to, in minutes."""

    spans: tuple[tuple[Spent, int, float], ...]
    tasks: int
    work_days: int


def waited(model: Model, runs: int, seed: int, progress: Progress | None = None) -> Waited:
    """Watch the first `runs` of the courses that `seed` gives; fewer where `progress` says so.
    Raises ValueError for less than one run."""
    if runs < 1:
        raise ValueError("nothing can be watched in no run")
    table, chains = WorkDayTable(model), list[_Chain]()
    for number in range(runs):
        if progress and number % _CHUNK == 0 and number and not progress(number, runs):
            break
        chains.append(_watched(model, table, Random(f"{seed}/{number}")))
    played = len(chains)
    mean: dict[tuple[Spent, int], float] = {}
    sums: dict[Spent, float] = {}
    for chain in chains:
        for spent, task, minutes in chain.spans:
            days = minutes / DAY / played
            mean[spent, task] = mean.get((spent, task), 0.0) + days
            sums[spent] = sums.get(spent, 0.0) + days
    longest = sorted((key for key in mean if key[0] in WAITS), key=lambda key: -mean[key])
    return Waited(
        sum(sums.values()),
        sums,
        sum(chain.tasks for chain in chains) / played,
        sum(chain.work_days for chain in chains) / played,
        tuple(Wait(key[0], model.tasks[key[1]], mean[key]) for key in longest[:LONGEST]),
    )


def _watched(model: Model, table: WorkDayTable, chance: Random) -> _Chain:
    """One course, the same as is played for the dates."""
    drawn = draw(model, table, chance)
    found = turn_up(model, Random(chance.getrandbits(60))) if model.finds else {}
    course = _Watched(model, table, drawn, found)
    chain = course.run(0).chain
    spans = tuple(_spans(course, chain, float(table.now)))
    days: set[int] = set()
    for task in chain:
        if task in course.first_begun:
            first, last = course.first_begun[task], max(0, course.done.get(task, 0) - 1)
            days.update(range(table.day_from(first), table.day_from(last) + 1))
    return _Chain(spans, len(chain), len(days))


def _spans(
    course: _Watched, chain: Sequence[int], now: float
) -> Iterator[tuple[Spent, int, float]]:
    before = -1
    for task in chain:
        # What the task before left behind; else a hold or a date of its own.
        behind: tuple[Spent, int] = ("hold", before) if before >= 0 else ("date", task)
        done = course.done.get(task, now)
        for (spent, whose), until in (
            (behind, course.could_begin.get(task, now)),
            (("delivery", task), course.supplied.get(task, now)),
            (("people", task), course.first_begun.get(task, now)),
            (("work", task), course.turned_up.get(task, done)),
            (("found", task), done),
        ):
            if until > now:
                yield spent, whose, until - now
                now = until
        before = task
    if before >= 0 and course.cleared_at[before] > now:
        yield "hold", before, course.cleared_at[before] - now


class _Watched(Playing):
    """A course that remembers when each task could begin, was supplied, begun and done."""

    def __init__(
        self,
        model: Model,
        table: WorkDayTable,
        drawn: Drawn,
        found: Mapping[int, TurnedUp] = MappingProxyType({}),
    ) -> None:
        super().__init__(model, table, drawn, found)
        self.could_begin: dict[int, float] = {}
        self.supplied: dict[int, float] = {}
        self.first_begun: dict[int, float] = {}
        self.turned_up: dict[int, float] = {}
        self.done: dict[int, float] = {}

    def _open(self, node: int) -> float | None:
        passed = super()._open(node)
        if node < len(self.model.work) and node not in self.begun:
            work = self.model.work[node]
            ready = self.could_begin[node] = max(self.ready_at[node], work.free)
            if work.orders or work.deliveries:
                self.supplied[node] = self.drawn.supplied(work, ready)
        return passed

    def _start(self, task: int, crew: int, now: float) -> None:
        self.first_begun.setdefault(task, now)
        super()._start(task, crew, now)

    def _turns_up(self, task: int, now: float) -> None:
        self.turned_up[task] = now
        super()._turns_up(task, now)

    def _finished(self, task: int, now: float) -> None:
        if task not in self.found:
            self.done[task] = now
        super()._finished(task, now)
