"""Whom the plain rule puts on a job: those who are free, and may do it together."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from crewboard.order.day_plan.shop_day import Apart, Job, ShopDay, Slot
from crewboard.order.day_plan.sound import is_accompanied, keeps_apart


class FreeHands:
    """Crews out of the people of the day, for one job after the other, beside what is `placed`.

    `only` are the jobs that only some can do; whoever is `spared` is put on nothing meanwhile.
    """

    def __init__(
        self, day: ShopDay, placed: Mapping[int, Slot], only: Mapping[int, frozenset[str]]
    ) -> None:
        self.day = day
        self.placed = placed
        self.only = only
        self.spared: frozenset[str] = frozenset()
        self.able: list[str] = []
        self.busy: dict[str, list[tuple[int, int]]] = {}
        self.near: list[Apart] = []
        self.scarce = {
            who: sum(who in cover for job in day.jobs for cover in job.covers) for who in day.people
        }

    def look_at(self, number: int) -> None:
        """The job that crews are asked for next; nothing is placed meanwhile."""
        day, job = self.day, self.day.jobs[number]
        away = self.spared | self._needed_elsewhere(job)
        self.busy = {who: self._times_of(job, who) for who in day.people if who in job.able - away}
        key = {
            who: (
                who not in job.learners,
                self._is_only(number, who),
                self.scarce[who],
                day.here(who)[1],
            )
            for who in self.busy
        }
        self.able = sorted(self.busy, key=lambda who: key[who])
        self.near = [a for a in day.apart if a.on == number and a.people]

    def _times_of(self, job: Job, who: str) -> list[tuple[int, int]]:
        """When somebody is on something else, or not here, or may not be on it yet."""
        day = self.day
        first, last = day.may_from(job, who)
        taken = [(s.start, day.busy_until(s, who)) for s in self.placed.values() if who in s.people]
        return [*taken, (-1, first), (last, day.blocks + 1)]

    def taken_from(self) -> list[int]:
        """The blocks from which one of those who may be on it is on something else, or has left."""
        return sorted({since for times in self.busy.values() for since, _ in times if since > 0})

    def crew(
        self, number: int, start: int, end: int, count: int
    ) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """So many people who are free all the time and may do it together, and who of them watches;
        who learns there first, then the fewest skills, then who leaves first, so that the others
        stay free. Nobody where there are none."""
        day, job = self.day, self.day.jobs[number]
        barred = self._too_near(number, start, end) if self.near else ()
        free = [who for who in self.able if who not in barred and self._is_free(who, start, end)]
        if len(free) < job.least:
            return (), ()
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
        for apart in self.near:
            if apart.people - barred:
                slot = Slot(number, tuple(apart.people), start, end)
                if not keeps_apart(self.day, apart, {**self.placed, number: slot}):
                    barred |= apart.people
        return barred

    def _bring_companion(self, crew: list[str], who: str, free: Sequence[str]) -> None:
        if not is_accompanied(self.day, who, crew):
            beside = self.day.beside[who]
            crew += [other for other in free if other in beside and other not in crew][:1]

    def _is_free(self, who: str, start: int, end: int) -> bool:
        return all(end <= since or until <= start for since, until in self.busy[who])
