"""One course that the remaining job may take, day by day: who comes, what is worked, what waits.

On each work day the people who came take up work under way, then what is ready, by latest start;
who is left over joins in where more hands are of use. The loop is written out with plain integers
and lists, since it runs many thousand times.
"""

from __future__ import annotations

from bisect import insort
from collections.abc import Iterator, Mapping
from heapq import heappop, heappush
from types import MappingProxyType
from typing import NamedTuple

from crewboard.order.ahead.work_time import DAY
from crewboard.order.forecast.counts import Counts, Passing
from crewboard.order.forecast.days import WorkDayTable
from crewboard.order.forecast.draws import Drawn
from crewboard.order.forecast.finds import TurnedUp
from crewboard.order.forecast.in_one_go import InOneGo
from crewboard.order.forecast.model import Model
from crewboard.order.forecast.taken import Taken
from crewboard.order.may.covered import fewest

# A course that has not ended after so many days of the calendar is broken off.
MOST_DAYS = 366 * 50


class Course(NamedTuple):
    """How one course ended. Minutes since midnight before the model's start.

    `closings` in the order of the model's; `chain` are the tasks that each held up the next, first
    to last. `ended` is False where the course was broken off; the minutes are then too early.
    `soonest` is when it would have ended, had nothing in it ever waited for people, or turned up on
    the way. `planned` and `planned_ended` are its finish without what turns up.
    """

    finish: int
    closings: tuple[int, ...]
    chain: tuple[int, ...]
    ended: bool
    soonest: int
    planned: int
    planned_ended: bool


class Playing:
    """The state of one course: see the module."""

    def __init__(
        self,
        model: Model,
        table: WorkDayTable,
        drawn: Drawn,
        found: Mapping[int, TurnedUp] = MappingProxyType({}),
    ) -> None:
        self.model = model
        self.table = table
        self.drawn = drawn
        self.left = [*drawn.left]  # person-minutes to go
        # What is set aside turns nothing up.
        self.found = {task: its for task, its in found.items() if task not in drawn.aside}
        self.behind_found: dict[int, TurnedUp] = {}  # task -> what it turned up, while it is done
        self.waits = list(model.waits)
        self.ready_at: list[float] = list(model.earliest)
        self.cleared_at = [0.0] * len(model.work)
        self.held_up_by = [-1] * len(model.waits)  # what a node waited for last
        self.alone_until = [0] * len(model.work)
        # (ready from, task or counted gate); below 0 it wakes the shop up, and gives back the jigs
        # whose bits these are, all turned round: -1 for none.
        self.coming: list[tuple[float, int]] = []
        self.turn = drawn.turn  # task -> its place in the queue
        self.task_at = sorted(range(len(self.turn)), key=self.turn.__getitem__)
        self.ready: list[int] = []  # by their places, like `going`
        self.ready_since: dict[int, float] = {}
        self.going = sorted(self.turn[task] for task in model.going)
        self.begun = frozenset(model.going)
        self.running: dict[int, tuple[float, int]] = {}  # task -> since, people
        self.due: dict[int, float] = {}
        self.ends: list[tuple[float, int]] = []
        self.taken = Taken(model.room)
        self.needs = [*table.needs]
        self.closes = 0
        self.in_one_go = InOneGo(model.work, table, drawn.left)
        self.counts = Counts(model)
        self.unfinished = len(model.work)
        self.finished: list[int] = []
        self.last_freed = -1
        self.finish = 0.0

    def run(self, soonest: int) -> Course:
        for _ in self.days():
            pass
        ended = not self.unfinished
        closings = self.model.closings.values()
        return Course(
            round(self.finish),
            tuple(round(self.ready_at[node]) for node in closings),
            self._chain(),
            ended,
            min(soonest, round(self.finish)) if ended else soonest,
            round(self.finish),
            ended,
        )

    def days(self) -> Iterator[int]:
        """Work day after work day until all is done; gives the minute at which each closed."""
        self._take_jigs()
        for passing in self.counts.known():
            self._passes(passing)
        for node, waits in enumerate(self.model.waits):
            passed = None if waits else self._open(node)
            if passed is not None:
                self._pass_on(node, passed, passed)
        day = 0
        somebody = bool(self.model.attendance.people)
        hours, last = self.table.hours, MOST_DAYS * DAY
        while self.unfinished and somebody and hours(day)[0] < last:
            if not self.ready and not self.going:
                day = max(day, self.table.day_from(self.coming[0][0]))
            opens, closes = hours(day)
            self._work_day(day, opens, closes)
            yield closes
            day += 1

    # --- the order of work ---------------------------------------------------------------------

    def _open(self, node: int) -> float | None:
        """Nothing a node waited for is missing any more: a task comes up; of a gate the minute is
        given at which it passes on what comes behind it."""
        ready = self.ready_at[node]
        if node in self.begun:
            return None
        if node < len(self.model.work):
            work = self.model.work[node]
            ready = max(ready, work.free)
            if work.orders or work.deliveries:
                ready = max(ready, self.drawn.supplied(work, ready))
            heappush(self.coming, (ready, node))
            return None
        self.finish = max(self.finish, ready)
        return ready

    def _pass_on(self, node: int, done: float, clear: float) -> None:
        """Tell what waits for a node; a stack of our own, since gates may lie many deep."""
        model, ready_at, waits, held_up_by = self.model, self.ready_at, self.waits, self.held_up_by
        ahead, gates_of = [(node, done, clear)], self.counts.gates_of
        while ahead:
            node, done, clear = ahead.pop()
            by = node if node < len(model.work) else held_up_by[node]
            sides = ((model.behind_clear[node], clear), (model.behind_done[node], done))
            for nodes, moment in sides:
                for behind in nodes:
                    if moment > ready_at[behind]:
                        ready_at[behind] = moment
                        held_up_by[behind] = by
                    elif held_up_by[behind] < 0:
                        held_up_by[behind] = by
                    waits[behind] = missing = waits[behind] - 1
                    if not missing:
                        passed = self._open(behind)
                        if passed is not None:
                            ahead.append((behind, passed, passed))
            for gate in gates_of.get(node, ()) if gates_of else ():
                passing = self.counts.add(gate, by, done, clear)
                if passing is not None and (passed := self._passes(passing)) is not None:
                    ahead.append((gate, passed, passed))

    def _passes(self, passing: Passing) -> float | None:
        """A gate of which less than all is enough: it passes on when that moment has come, since
        what ends later may have the shorter hold; at once where nothing more can come."""
        gate, minute, by, surely = passing
        if self.waits[gate] < 0:
            return None  # it was passed before
        self.held_up_by[gate] = by
        self.ready_at[gate] = max(minute, self.model.earliest[gate])
        if not surely:
            heappush(self.coming, (self.ready_at[gate], gate))
            return None
        self.waits[gate] = -1
        return self._open(gate)

    def _moment_has_come(self, gate: int) -> None:
        if self.waits[gate] >= 0:
            self.waits[gate] = -1
            passed = self._open(gate)
            assert passed is not None
            self._pass_on(gate, passed, passed)

    def _turns_up(self, task: int, now: float) -> None:
        """What the task turned up is done in its place, as soon as what it needs is here."""
        found = self.behind_found[task] = self.found.pop(task)
        self.left[task] = found.minutes * self.drawn.slower
        allowed, _, _, taken = self.needs[task]
        self.needs[task] = (allowed, 1, (), taken)
        if found.kinds:
            its = found.kinds[0]
            self.needs[task] = (its.allowed, its.least, its.covers, taken)
        self.in_one_go.waits.pop(task, None)
        if found.ordered:
            heappush(self.coming, (now + found.ordered, task))
            return
        insort(self.ready, self.turn[task])
        self.ready_since[task] = now

    def _finished(self, task: int, now: float) -> None:
        if task in self.found:
            self._turns_up(task, now)
            return
        self.unfinished -= 1
        self.finished.append(task)
        self.last_freed = task
        work = self.model.work[task]
        clear = now
        if work.hold is not None or work.waits_for_word:
            clear = self.drawn.hold_over(task, work, now)
        if task in self.behind_found:
            kinds = self.behind_found.pop(task).kinds
            clear = max([clear, *(self.drawn.found_over(kind, now) for kind in kinds)])
        if work.blocks and clear > now:
            for blocked in work.blocks:
                self.alone_until[blocked] = max(self.alone_until[blocked], int(clear))
            heappush(self.coming, (clear, -1))
        if work.uses:
            heappush(self.coming, (clear, ~work.uses))
        self.cleared_at[task] = clear
        self.finish = max(self.finish, clear)
        self._pass_on(task, now, clear)

    # --- one work day --------------------------------------------------------------------------

    def _work_day(self, day: int, opens: int, closes: int) -> None:
        coming, ends, due, tasks = self.coming, self.ends, self.due, len(self.left)
        self.closes = closes
        free = self.drawn.present(day)
        now = float(opens)
        while True:
            while coming and coming[0][0] <= now:
                task = heappop(coming)[1]
                if 0 <= task < tasks:
                    insort(self.ready, self.turn[task])
                    self.ready_since[task] = now
                elif task < 0:
                    self.taken.free(~task)
                else:
                    self._moment_has_come(task)
            if free and now < closes:
                free = self._assign(now, free)
            wake = coming[0][0] if coming else closes
            while ends and due.get(ends[0][1]) != ends[0][0]:
                heappop(ends)  # people joined in: it ends earlier
            if ends and ends[0][0] <= closes and ends[0][0] <= wake:
                now, task = heappop(ends)
                free |= self._stop(task)
                self._finished(task, now)
            elif wake < closes:
                now = wake
            else:
                break
        self._go_home(closes)

    def _assign(self, now: float, free: int) -> int:
        """Give the free people something to do; who is left."""
        needs, alone, task_at = self.needs, self.alone_until, self.task_at
        full, whole = self.taken.full, self.in_one_go.waits
        for waiting in (self.going, self.ready):
            taken = []
            for turn in waiting:
                task = task_at[turn]
                allowed, least, covers, place = needs[task]
                able = free & allowed
                if not able or place & full or alone[task] > now:
                    continue
                if covers or least > 1:
                    if able.bit_count() < least or not (crew := fewest(able, least, covers)):
                        continue
                else:
                    crew = able & -able
                if whole and task in whole and waiting is self.ready:
                    crew = self._crew_in_one_go(task, crew, able, now)
                    if not crew:
                        continue
                free &= ~crew
                taken.append(turn)
                self._start(task, crew, now)
                full = self.taken.full
                if not free:
                    break
            for turn in taken:
                waiting.remove(turn)
            if not free:
                return 0
        return self._join(now, free)

    def _start(self, task: int, crew: int, now: float) -> None:
        self.running[task] = (now, crew)
        room = self.needs[task][3]
        if room:
            self.taken.take(room)
            if self.model.work[task].uses:
                self._has_jigs(task)
        end = now + self.left[task] / crew.bit_count()
        self.due[task] = end
        heappush(self.ends, (end, task))
        if self.ready_since.pop(task, now) < now and self.last_freed >= 0:
            # It was ready, and had to wait for people: whoever was freed last held it up.
            self.held_up_by[task] = self.last_freed

    def _join(self, now: float, free: int) -> int:
        """More hands for what is being worked on, by latest start."""
        needs, most, turn = self.needs, self.drawn.most, self.turn
        can = [
            (turn[task], task)
            for task, (_, crew) in self.running.items()
            if free & needs[task][0] and crew.bit_count() < most[task]
        ]
        for _, task in sorted(can) if len(can) > 1 else can:
            since, crew = self.running[task]
            room = most[task] - crew.bit_count()
            more = free & needs[task][0]
            if not more:
                continue
            self.left[task] -= crew.bit_count() * (now - since)
            while room and more:
                one = more & -more
                crew |= one
                more &= ~one
                free &= ~one
                room -= 1
            self.running[task] = (now, crew)
            end = now + max(0.0, self.left[task]) / crew.bit_count()
            self.due[task] = end
            heappush(self.ends, (end, task))
            if not free:
                break
        return free

    def _stop(self, task: int) -> int:
        """Take the people off a task; who they are."""
        del self.due[task]
        if place := self.model.work[task].place:
            self.taken.free(place)
        return self.running.pop(task)[1]

    def _go_home(self, closes: int) -> None:
        for task, (since, crew) in self.running.items():
            self.left[task] -= crew.bit_count() * (closes - since)
            insort(self.going, self.turn[task])
            self.taken.free(self.model.work[task].place)
        self.running.clear()
        self.due.clear()
        self.ends.clear()
        self.in_one_go.day_is_over()

    # --- jigs, and work in one go --------------------------------------------------------------

    def _take_jigs(self) -> None:
        """Those of work under way, and of holds that run."""
        for task in self.model.with_jigs:
            self.taken.take(self.model.work[task].uses)
            self._has_jigs(task)
        for bits, until in self.model.taken:
            self.taken.take(bits)
            heappush(self.coming, (until, ~bits))

    def _has_jigs(self, task: int) -> None:
        """It keeps them till its hold is over: from now on it asks only for room in its place."""
        allowed, least, covers, _ = self.needs[task]
        self.needs[task] = (allowed, least, covers, self.model.work[task].place)

    def _crew_in_one_go(self, task: int, crew: int, able: int, now: float) -> int:
        hours = (self.left[task], self.closes - now)
        return self.in_one_go.crew(task, crew, able, self.drawn.most[task], hours)

    def _chain(self) -> tuple[int, ...]:
        """Back from what ended last, through what held each up."""
        count = len(self.model.work)
        if not count:
            return ()
        node = max(range(count), key=lambda task: self.cleared_at[task])
        chain: list[int] = []
        seen: set[int] = set()
        while 0 <= node < count and node not in seen:
            seen.add(node)
            chain.append(node)
            node = self.held_up_by[node]
        return tuple(reversed(chain))
