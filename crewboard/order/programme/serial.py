"""An order of the jobs becomes a course of work: one after the other, each as early as it can be.

The serial scheme of Kolisch, European Journal of Operational Research 90 (1996), with people where
that has capacities: in each sitting a job is given the beginning and the crew with which most of it
is done, and goes on in the next with whoever is there then. Nothing that was placed is moved.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from heapq import heappop, heappush
from itertools import takewhile
from typing import NamedTuple

from crewboard.order.ahead.work_time import DAY
from crewboard.order.programme.ahead import BLOCK, Sitting, after_a_break
from crewboard.order.programme.best_spell import BestSpell
from crewboard.order.programme.frame import (
    AsPlanned,
    CourseFrame,
    CourseOfWork,
    Spell,
    is_let_go,
    ready_at,
)
from crewboard.order.programme.jobs import TaskAhead
from crewboard.plan.duration import Duration

SHORTEST = 2
"""Blocks: nobody is sent to a job for less, unless that ends it (common practice, no source)."""
_NEVER = 10**9


def course_of(frame: CourseFrame, order: Sequence[int], many_hands: bool = False) -> CourseOfWork:
    """The course of work in this order of the jobs; one that waits for another is taken up when
    that is finished. With `many_hands` a job gets as many people as it can use, else as few as do
    as much of it."""
    return _Serial(frame, order, many_hands).course()


class _State(NamedTuple):
    """What changes with each job that is placed."""

    free: list[int]
    left: list[int]
    spells: dict[int, list[Spell]]
    finished: dict[int, int]
    clear: dict[int, int]
    places: dict[str, list[int]]
    jigs: dict[str, list[tuple[int, int]]]  # (job, until)
    tried: set[int]

    def copy(self) -> _State:
        return _State(
            self.free[:],
            self.left[:],
            {job: found[:] for job, found in self.spells.items()},
            self.finished.copy(),
            self.clear.copy(),
            {place: used[:] for place, used in self.places.items()},
            {jig: used[:] for jig, used in self.jigs.items()},
            self.tried.copy(),
        )


class _Serial:
    def __init__(self, frame: CourseFrame, order: Sequence[int], many_hands: bool) -> None:
        self.frame = frame
        self.many_hands = many_hands
        self.young = 0
        for bits in frame.crews.young:
            self.young |= bits
        self.rank = [0] * len(frame.jobs)
        for place, job in enumerate(order):
            # What people are on, and what has to be begun by some time, is not held up.
            soonest = bool(frame.jobs[job].stay) or frame.jobs[job].begin_by is not None
            self.rank[job] = place - len(order) * soonest
        self.state = _State(
            list(frame.free),
            [job.need for job in frame.jobs],
            {},
            {},
            {},
            {},
            {jig: [(-1, u) for j, u in frame.taken if j == jig] for jig in frame.jigs},
            set(),
        )
        for number, its in enumerate(frame.jobs):
            for jig in dict.fromkeys(its.task.uses if its.has_jigs else ()):
                self.state.jigs[jig].append((number, _NEVER))

    def course(self) -> CourseOfWork:
        jobs = self.frame.jobs
        if self.frame.first is not None:
            self._keep(self.frame.first.kept)
        eligible = [(self.rank[n], n) for n in range(len(jobs)) if self._may_begin(n)]
        eligible.sort()
        seen, passed = {number for _, number in eligible}, set[int]()
        while eligible:
            _, number = heappop(eligible)
            if number not in self.state.tried:
                self._place(number, jobs[number].begin_by)
            over = self.state.finished.keys() - passed
            passed |= over
            for then in sorted({then for one in over for then in self.frame.behind[one]}):
                if then not in seen and self._may_begin(then):
                    seen.add(then)
                    heappush(eligible, (self.rank[then], then))
        state = self.state
        found = sorted(
            (s for many in state.spells.values() for s in many), key=lambda s: (s.first, s.job)
        )
        return CourseOfWork(tuple(found), state.finished, state.clear, tuple(state.left))

    # --- when ----------------------------------------------------------------------------------

    def _may_begin(self, number: int) -> bool:
        return is_let_go(self.frame.jobs[number], self.state.finished)

    # --- the first day by its own plan -----------------------------------------------------------

    def _keep(self, kept: Sequence[AsPlanned]) -> None:
        """Put the work of the first day in as its own plan has it."""
        for spell, placed in kept:
            job = self.frame.jobs[spell.job]
            if spell.first < spell.end:
                self._occupy(spell)
            if placed.finishes:
                self._finish(spell.job, self.frame.ahead.minute(placed.end))
                self.state.tried.add(spell.job)
            else:
                done = job.done(spell.crew.bit_count(), spell.end - spell.first)
                self.state.left[spell.job] = max(1, job.need - done)
        for spell, placed in kept:
            for soon in self.frame.jobs[spell.job].soon if placed.finishes else ():
                if not self._is_followed(spell.job, soon.job, soon.span):
                    self.state.tried.discard(soon.job)  # too late, but done nevertheless

    # --- placing -------------------------------------------------------------------------------

    def _place(self, number: int, begin_by: int | None = None) -> None:
        """Put as much of a job into the days as they take."""
        job, state = self.frame.jobs[number], self.state
        state.tried.add(number)
        ready = ready_at(job, state.finished, state.clear)
        assert ready is not None
        for sitting in self.frame.ahead.sittings:
            if sitting.closes <= ready or not self.frame.is_open_to(number, sitting):
                continue
            begun = number in self.state.spells
            spell = self._best(number, sitting, ready, None if begun else begin_by)
            if spell is not None and self._take(spell) and number in self.state.finished:
                return

    def _take(self, spell: Spell) -> bool:
        """Put it in, and what must follow it soon; where that cannot be, nothing."""
        number = spell.job
        job = self.frame.jobs[number]
        kept = self.state.copy() if job.soon else None
        self._put(spell)
        if kept is None or number not in self.state.finished:
            return True
        if all(self._is_followed(number, soon.job, soon.span) for soon in job.soon):
            return True
        self.state = kept
        return False

    def _is_followed(self, number: int, then: int, span: Duration) -> bool:
        frame = self.frame
        finished = frame.ahead.moment(self.state.finished[number])
        clock = frame.ahead.days[0].board.plan.clock
        by = clock.add(finished, span)
        minute = int((by - frame.ahead.base).total_seconds() // 60)
        if minute >= frame.next_open:
            return True
        if then >= 0 and then not in self.state.tried and self._may_begin(then):
            self._place(then, minute)
        begun = self.state.spells.get(then)
        return begun is not None and frame.ahead.starts[begun[0].first] <= minute

    def _put(self, spell: Spell) -> None:
        state, job = self.state, self.frame.jobs[spell.job]
        self._occupy(spell)
        done = job.done(spell.crew.bit_count(), spell.end - spell.first)
        state.left[spell.job] = max(0, state.left[spell.job] - done)
        if not state.left[spell.job]:
            self._finish(spell.job, self.frame.ahead.starts[spell.end - 1] + BLOCK)

    def _occupy(self, spell: Spell) -> None:
        """Its people, its place and its jigs are taken."""
        state, job = self.state, self.frame.jobs[spell.job]
        for block in range(spell.first, spell.end):
            state.free[block] &= ~spell.crew
        for block in self._watched(job, spell, len(state.free)):
            state.free[block] &= ~spell.watch
        if job.room:
            used = state.places.setdefault(job.task.place, [0] * len(state.free))
            for block in range(spell.first, spell.end):
                used[block] += 1
        if spell.job not in state.spells and not job.has_jigs:
            for jig in dict.fromkeys(job.task.uses):
                state.jigs[jig].append((spell.job, _NEVER))
        state.spells.setdefault(spell.job, []).append(spell)

    def _finish(self, number: int, finish: int) -> None:
        state, job = self.state, self.frame.jobs[number]
        state.left[number] = 0
        state.finished[number] = finish
        state.clear[number] = clear = self.frame.clear_of(job, finish)
        for jig in dict.fromkeys(job.task.uses):
            state.jigs[jig] = [
                (by, clear if by == number else until) for by, until in state.jigs[jig]
            ]

    # --- the best spell in a sitting -----------------------------------------------------------

    def _best(
        self, number: int, sitting: Sitting, ready: int, begin_by: int | None
    ) -> Spell | None:
        frame, state, job = self.frame, self.state, self.frame.jobs[number]
        able, covers = frame.crews.able(number, sitting.day)
        if able.bit_count() < job.least or not all(covers):
            return None
        starts = frame.ahead.starts
        may = self._open_blocks(number, sitting, ready)
        if not any(may):
            return None
        if number in frame.crews.kept_from and self._young_at_work(sitting):
            return None
        if self.young and self._kept_from_young(sitting):
            if self._with_young(number):
                return None
            able &= ~self.young
        choose = BestSpell(frame.crews, number, sitting, state.left[number], self.many_hands)
        begun = number in state.spells
        cut = job.whole and not job.stay  # it lies between two breaks, not over one
        for first in range(sitting.first, sitting.end):
            if not may[first - sitting.first]:
                continue
            if (begin_by is not None and starts[first] > begin_by) or choose.settled(first):
                break
            if not begun and not self._has_jigs_at(job, starts[first]):
                continue
            mask = able
            for end in range(first + 1, sitting.end + 1):
                if cut and end - 1 > first and after_a_break(starts, end - 1):
                    break
                mask &= state.free[end - 1]
                if not may[end - 1 - sitting.first] or mask.bit_count() < job.least:
                    break
                spell = choose.better(first, end, mask)
                if spell is not None and self._is_sound(job, spell, choose.left, sitting):
                    choose.best = spell
        return choose.best

    def _is_sound(self, job: TaskAhead, spell: Spell, left: int, sitting: Sitting) -> bool:
        if any(spell.watch & ~self.state.free[b] for b in self._watched(job, spell, sitting.end)):
            return False
        length = spell.end - spell.first
        finishes = job.done(spell.crew.bit_count(), length) >= left
        if not finishes:
            return length >= SHORTEST and not job.whole
        if not job.alone:
            return True
        finish = self.frame.ahead.starts[spell.end - 1] + BLOCK
        clear, starts = self.frame.clear_of(job, finish), self.frame.ahead.starts
        return not any(
            finish < starts[other.end - 1] + BLOCK and starts[other.first] < clear
            for then in job.alone
            for other in self.state.spells.get(then, ())
        )

    def _watched(self, job: TaskAhead, spell: Spell, end: int) -> Iterator[int]:
        """The blocks after the work in which it is still watched."""
        starts = self.frame.ahead.starts
        over = starts[spell.end - 1] + BLOCK + (job.before_closing if spell.watch else 0)
        return takewhile(lambda block: starts[block] < over, range(spell.end, end))

    def _open_blocks(self, number: int, sitting: Sitting, ready: int) -> list[bool]:
        """In which of a sitting's blocks the job may go on, whoever does it."""
        frame, state, job = self.frame, self.state, self.frame.jobs[number]
        starts = frame.ahead.starts[sitting.first : sitting.end]
        since = max(ready, job.not_first_before) if sitting.day == 0 else ready
        by = sitting.closes - job.before_closing
        may = [since <= start and start + BLOCK <= by for start in starts]
        used = state.places.get(job.task.place) if job.room else None
        if used is not None:
            room = job.room
            may = [m and used[sitting.first + n] < room for n, m in enumerate(may)]
        for since, until in (*self._left_alone(number), *self._near(number, sitting)):
            may = [
                m and (start + BLOCK <= since or until <= start)
                for m, start in zip(may, starts, strict=True)
            ]
        return may

    def _left_alone(self, number: int) -> list[tuple[int, int]]:
        """When holds of what is placed want it left alone."""
        state = self.state
        return [
            (state.finished[one], state.clear[one])
            for one in self.frame.kept_alone[number]
            if one in state.finished
        ]

    def _near(self, number: int, sitting: Sitting) -> list[tuple[int, int]]:
        """When what is placed must not be near it, or its clocks keep it out."""
        starts, barred = self.frame.ahead.starts, []
        for other, apart in self.frame.apart.get(number, {}).items():
            for spell in self.state.spells.get(other, ()):
                begins, ends = starts[spell.first], starts[spell.end - 1] + BLOCK
                if apart.all_day and begins // DAY == starts[sitting.first] // DAY:
                    return [(0, _NEVER)]
                barred.append((begins - apart.after, ends + apart.before))
        return barred

    def _has_jigs_at(self, job: TaskAhead, minute: int) -> bool:
        if job.has_jigs:
            return True
        return all(
            sum(until > minute for _, until in self.state.jigs[jig]) < self.frame.jigs[jig]
            for jig in job.task.uses
        )

    # --- under-18s -------------------------------------------------------------------------------

    def _on_day(self, sitting: Sitting) -> list[Spell]:
        sittings = [s for s in self.frame.ahead.sittings if s.day == sitting.day]
        first, end = sittings[0].first, sittings[-1].end
        found = (s for many in self.state.spells.values() for s in many)
        return [spell for spell in found if first <= spell.first < end]

    def _with_young(self, number: int) -> bool:
        """Whether an under-18 was ever on it: their sheets stay with it till it is finished."""
        spelles = self.state.spells.get(number, ())
        return self.frame.jobs[number].young or any(s.crew & self.young for s in spelles)

    def _young_at_work(self, sitting: Sitting) -> bool:
        return any(self._with_young(spell.job) for spell in self._on_day(sitting))

    def _kept_from_young(self, sitting: Sitting) -> bool:
        kept = self.frame.crews.kept_from
        return any(spell.job in kept for spell in self._on_day(sitting))
