"""Who may be on a task, as bits, and what the forecast supposes where nobody may.

A task that nobody in the crew may do would never be done. The forecast goes on as if somebody got
the certificate, learnt the skill or joined, and says so.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from crewboard.order.board import Board
from crewboard.order.may.moment import not_used
from crewboard.order.may.needs import Needs, hazards_named, needs_of, under_18s
from crewboard.order.may.obstacle import Obstacle
from crewboard.order.may.people import why_nobody
from crewboard.plan.task import Task


class Crew:
    """The people as bits; those with the most sought-after skills have the highest.

    `since`: also who has left in the meantime, for what was done from that day on.
    """

    def __init__(self, board: Board, since: date | None = None) -> None:
        self.board = board
        self.today = board.at.date()
        everybody = board.plan.crew.values()
        people = [
            v
            for v in everybody
            if v.with_us_on(self.today) or (since is not None and v.left and v.left >= since)
        ]
        wanted: dict[str, int] = {}
        for standing in board.standings.values():
            if not standing.work_done:
                for skill in standing.task.skills:
                    wanted[skill] = wanted.get(skill, 0) + 1
        young = {v.id for v in under_18s(people, self.today)}
        people.sort(key=lambda v: (v.id not in young, sum(wanted.get(s, 0) for s in v.skills)))
        self.order = tuple(v.id for v in people)
        self.people = people

    def allowed(self, task: Task) -> int:
        """Who may be on the task; everybody, where nobody may."""
        needs = self._needs_met(task)
        may = self._bits(v.id for v in self.people if not needs.bars(v, self.today))
        return may or (1 << len(self.people)) - 1

    def covers(self, task: Task) -> tuple[int, ...]:
        """For each skill and certificate those who have it; what nobody has is passed over."""
        allowed = self.allowed(task)
        sets = (self._bits(c) for c in self._needs(task).covers(self.people, self.today))
        return tuple(dict.fromkeys(people & allowed for people in sets if people & allowed))

    def least(self, task: Task) -> int:
        """The fewest people on it; fewer, where so many may not do it."""
        return min(self._needs(task).least, max(1, self.allowed(task).bit_count()))

    def supposed(self, task: Task) -> tuple[Obstacle, ...]:
        """What stands against anybody in the crew doing the task, and is passed over."""
        needs = self._needs(task)
        barred = why_nobody(needs, self.people, self.today, "crew")
        return (*not_used(needs.hazards), *barred)

    def _needs(self, task: Task) -> Needs:
        return needs_of(task, hazards_named(self.board, task))

    def _needs_met(self, task: Task) -> Needs:
        """The needs without the certificates that nobody holds."""
        needs = self._needs(task)
        held = (c for c in needs.each if any(c.held_by(v, self.today) for v in self.people))
        return needs._replace(each=tuple(held))

    def _bits(self, some: Iterable[str]) -> int:
        wanted = set(some)
        return sum(1 << n for n, who in enumerate(self.order) if who in wanted)
