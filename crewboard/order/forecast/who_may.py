"""Who may be on a task, as bits: skills, papers, under-18s, how many are needed."""

from __future__ import annotations

from collections.abc import Iterable

from crewboard.order.board import Board
from crewboard.order.safety.certificates import has_certificate
from crewboard.plan.hazard import CertificateNeed, Hazard
from crewboard.plan.task import Task
from crewboard.plan.volunteer import Volunteer


class Crew:
    """The people as bits; those with the most sought-after skills have the highest."""

    def __init__(self, board: Board) -> None:
        self.board = board
        today = board.at.date()
        people = [v for v in board.plan.crew.values() if v.with_us_on(today)]
        wanted: dict[str, int] = {}
        for standing in board.standings.values():
            if not standing.work_done:
                for skill in standing.task.skills:
                    wanted[skill] = wanted.get(skill, 0) + 1
        people.sort(key=lambda v: (not v.minor_on(today), sum(wanted.get(s, 0) for s in v.skills)))
        self.order = tuple(v.id for v in people)
        self.people = people

    def allowed(self, task: Task) -> int:
        """Who may be on the task; everybody, where nobody may (told elsewhere)."""
        today = self.board.at.date()
        hazards = self._hazards(task)
        found = 0
        for bit, volunteer in enumerate(self.people):
            young = volunteer.minor_on(today) and any(not h.under_18 for h in hazards)
            if not young and all(
                has_certificate(volunteer, need, h, today) or not self._held(need, h)
                for h in hazards
                for need in h.certificates
                if need.who == "each"
            ):
                found |= 1 << bit
        return found or (1 << len(self.people)) - 1

    def covers(self, task: Task) -> tuple[int, ...]:
        """For each skill and certificate those who have it; what nobody has is passed over."""
        today = self.board.at.date()
        sets = [self._bits(v for v in self.people if skill in v.skills) for skill in task.skills]
        for hazard in self._hazards(task):
            for need in hazard.certificates:
                if need.who == "one":
                    able = (v for v in self.people if has_certificate(v, need, hazard, today))
                    sets.append(self._bits(able))
        allowed = self.allowed(task)
        return tuple(dict.fromkeys(each & allowed for each in sets if each & allowed))

    def least(self, task: Task) -> int:
        hazards = self._hazards(task)
        least = max([1, task.least_people, *(h.people for h in hazards)])
        return min(least, max(1, self.allowed(task).bit_count()))

    def _hazards(self, task: Task) -> list[Hazard]:
        return [h for each in task.hazards if (h := self.board.plan.hazards.get(each))]

    def _held(self, need: CertificateNeed, hazard: Hazard) -> bool:
        today = self.board.at.date()
        return any(has_certificate(v, need, hazard, today) for v in self.people)

    def _bits(self, some: Iterable[Volunteer]) -> int:
        wanted = {v.id for v in some}
        return sum(1 << n for n, who in enumerate(self.order) if who in wanted)
