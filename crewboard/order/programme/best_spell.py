"""Of the spells that a sitting has for a job, the best one."""

from __future__ import annotations

from crewboard.order.programme.ahead import Sitting
from crewboard.order.programme.crews import Crews
from crewboard.order.programme.frame import Spell


class BestSpell:
    """The spell in which most of a job is done; with many hands the one that ends first, else the
    one that begins first, with the fewest people."""

    def __init__(
        self, crews: Crews, number: int, sitting: Sitting, left: int, many_hands: bool
    ) -> None:
        self.crews, self.number, self.day = crews, number, sitting.day
        job = self.job = crews.jobs[number]
        self.left = left
        self.many_hands = many_hands
        self.stay = crews.bits(job.stay) if job.stay and not sitting.first else 0
        self.best: Spell | None = None

    def settled(self, first: int) -> bool:
        """Whether nothing that begins then could be better."""
        best = self.best
        if best is None or self.job.done(best.crew.bit_count(), best.end - best.first) < self.left:
            return False
        return not self.many_hands or first >= best.end

    def better(self, first: int, end: int, free: int) -> Spell | None:
        """A spell of these blocks with some of the free people, if it is better."""
        job, length = self.job, end - first
        most = free.bit_count()
        if most > job.most:
            most = job.most
        count = -(-self.left // length) + job.watch  # so many would finish it
        if count > most:
            count = most
        if count < job.least:
            count = job.least
        if self.best is not None and not self._beats(self.best, count, first, end):
            return None
        stay = self.stay if not first else 0
        crew = self.crews.crew(self.number, self.day, free, count, stay)
        people = crew.bit_count()
        if not people or (people != count and self.best is not None
                          and not self._beats(self.best, people, first, end)):  # fmt: skip
            return None
        watch = self.crews.watchers(self.number, self.day, crew) if job.watch else 0
        return Spell(self.number, first, end, crew, watch)

    def _beats(self, best: Spell, people: int, first: int, end: int) -> bool:
        there = best.crew.bit_count()
        done = min(self.left, self.job.done(people, end - first))
        so_far = min(self.left, self.job.done(there, best.end - best.first))
        if done != so_far:
            return done > so_far
        if self.many_hands:
            return (end, people) < (best.end, there)
        return (first, people) < (best.first, there)
