"""People for a job on a day: who may be on it, and a crew of those who are free.

The rules are those of `order/may`, as the plan of a day asks them; people are bits, whoever has the
fewest skills that are asked for the lowest.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from crewboard.order.day_plan.team import Team
from crewboard.order.may.covered import covered
from crewboard.order.may.needs import hazards_of_minors
from crewboard.order.programme.ahead import DaysAhead
from crewboard.order.programme.apart import kept_from_the_young
from crewboard.order.programme.jobs import TaskAhead


class Able(NamedTuple):
    """Who may be on a job on a day, and of whom one must be."""

    may: int
    covers: tuple[int, ...]


class Crews:
    """`beside`: of each day, of each who works only beside others, the bits of those. `young` are
    the under-18s of each day, `kept_from` the jobs that are not done on a day on which one works.
    """

    def __init__(self, ahead: DaysAhead, jobs: Sequence[TaskAhead]) -> None:
        self.jobs = jobs
        people = list(dict.fromkeys(who for day in ahead.days for who in day.people))
        crew = ahead.days[0].board.plan.crew if ahead.days else {}
        wanted: dict[str, int] = {}
        for job in jobs:
            for skill in job.task.skills:
                wanted[skill] = wanted.get(skill, 0) + 1
        asked = {who: sum(wanted.get(s, 0) for s in crew[who].skills) for who in people}
        people.sort(key=lambda who: asked[who])
        self.people = tuple(people)
        self.bit = {who: 1 << number for number, who in enumerate(self.people)}
        self._teams = [Team(day.board, day.people) for day in ahead.days]
        self.beside = [
            {self.bit[who]: self.bits(others) for who, others in team.beside().items()}
            for team in self._teams
        ]
        self.young = [self.bits(team.minors) for team in self._teams]
        sheets = hazards_of_minors(ahead.days[0].board) if any(self.young) else []
        self.kept_from = frozenset(n for n, j in enumerate(jobs) if kept_from_the_young(j, sheets))
        self._able: dict[tuple[int, int], Able] = {}

    def bits(self, people: Sequence[str] | frozenset[str] | tuple[str, ...]) -> int:
        return sum(self.bit[who] for who in people if who in self.bit)

    def names(self, bits: int) -> tuple[str, ...]:
        return tuple(who for who in self.people if self.bit[who] & bits)

    def able(self, job: int, day: int) -> Able:
        known = self._able.get((job, day))
        if known is None:
            known = self._able[job, day] = self._look_up(job, day)
        return known

    def _look_up(self, number: int, day: int) -> Able:
        job, team = self.jobs[number], self._teams[day]
        may = team.may_be_on(job.task, job.needs)
        return Able(self.bits(may), tuple(map(self.bits, team.covers(job.needs, may))))

    def crew(self, number: int, day: int, free: int, count: int, stay: int = 0) -> int:
        """So many of the free people, or fewer, who may do the job together; 0 where they may not.
        Those who `stay` are among them."""
        job, (may, covers) = self.jobs[number], self.able(number, day)
        beside = self.beside[day]
        free = _accompanied(free & may, beside) if beside else free & may
        if stay & ~free:
            return 0
        crew = covered(stay, free, covers)
        if covers and not crew:
            return 0
        for who, others in beside.items():
            if crew & who and not crew & others:
                crew |= (free & others) & -(free & others)
        count = max(count, crew.bit_count() + job.watch if covers else count)
        rest = free & ~crew
        while rest and crew.bit_count() < count:
            one = rest & -rest
            rest ^= one
            if one not in beside or beside[one] & crew:
                crew |= one
        sound = job.least <= crew.bit_count() <= job.most
        sound = sound and (not job.watch or bool(self.watchers(number, day, crew)))
        return crew if sound and all(o & crew for w, o in beside.items() if w & crew) else 0

    def watchers(self, number: int, day: int, crew: int) -> int:
        """Those of the crew who watch over the work: as many as it asks for, who watches already
        first, and nobody without whom the others would lack a skill or a certificate; 0 where that
        cannot be."""
        job, covers = self.jobs[number], self.able(number, day).covers
        watch, left = 0, crew
        already = [who for who in job.watching if who in self.bit]
        for who in (*already, *reversed(self.people)):
            one = self.bit[who]
            if one & left and watch.bit_count() < job.watch:
                rest = left & ~one
                if rest and all(cover & rest for cover in covers):
                    watch, left = watch | one, rest
        return watch if watch.bit_count() == job.watch else 0


def _accompanied(free: int, beside: dict[int, int]) -> int:
    """Without those who work only beside somebody who is not free."""
    again = True
    while again:
        alone = [who for who, others in beside.items() if free & who and not free & others]
        free &= ~sum(alone)
        again = bool(alone)
    return free
