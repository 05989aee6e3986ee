"""The people whom a day is planned for: who may be on which job, and with whom.

An under-18 on a job brings the sheets for under-18s with them, so that what those ask holds for
that job too.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cached_property

from crewboard.order.board import Board
from crewboard.order.may.day import PeopleOfTheDay
from crewboard.order.may.moment import against_moment
from crewboard.order.may.needs import (
    Needs,
    companions,
    counts,
    hazards_named,
    hazards_of_minors,
    under_18s,
)
from crewboard.order.may.people import known
from crewboard.plan.task import Task
from crewboard.plan.volunteer import Volunteer


class Team:
    """`minors` are the under-18s among the people, `of_minors` the sheets that they bring."""

    def __init__(
        self,
        board: Board,
        people: tuple[str, ...],
        hours: Mapping[str, tuple[int, int]] = {},
    ) -> None:
        self.board = board
        self.hours = hours
        self.day = board.at.date()
        self.people = known(board, people)
        self.asking = PeopleOfTheDay(board, people)
        self.minors = frozenset(v.id for v in under_18s(self.people, self.day))
        self.of_minors = hazards_of_minors(board) if self.minors else []
        self._young_may = self._may_be_planned()

    def able(self, task: Task, needs: Needs) -> frozenset[str]:
        """Who may be on the task; nobody, where no crew of these people may do it today."""
        return frozenset() if self.asking.against_task(task) else self.may_be_on(task, needs)

    def may_be_on(self, task: Task, needs: Needs) -> frozenset[str]:
        """The same, wherever the task stands in the order of work."""
        if self.asking.against_people(task):
            return frozenset()
        may = [v for v in self.people if v.with_us_on(self.day) and not needs.bars(v, self.day)]
        young = any(v.id in self.minors for v in may) and self._near_no_danger(task)
        return frozenset(
            v.id
            for v in may
            if v.id not in self.minors or (young and self._young_may_do(v, task, needs))
        )

    def signable_from(self, task: Task) -> int:
        """From which block somebody is here who may sign the checks before the work."""
        return next((since for since, asking in self._by_arrival if _signed(asking, task)), 0)

    @cached_property
    def _by_arrival(self) -> list[tuple[int, PeopleOfTheDay]]:
        """Who is here from when on; nobody, where all are here from the beginning."""
        arrivals = sorted({first for first, _ in self.hours.values()} - {0})
        return [
            (at, PeopleOfTheDay(self.board, self._here_at(at))) for at in (0, *arrivals) if arrivals
        ]

    def _here_at(self, block: int) -> list[str]:
        return [v.id for v in self.people if self._is_here(v.id, block)]

    def _is_here(self, who: str, block: int) -> bool:
        first, last = self.hours.get(who, (0, block + 1))
        return first <= block < last

    def learning(self, task: Task) -> frozenset[str]:
        """Who wants to learn a skill that the task asks for, and has not got it."""
        return frozenset(
            v.id
            for v in self.people
            if any(skill in v.learning and skill not in v.skills for skill in task.skills)
        )

    def covers(self, needs: Needs, able: frozenset[str]) -> list[frozenset[str]]:
        """For each skill and certificate that one must have, the able people who have it."""
        return needs.covers((v for v in self.people if v.id in able), self.day)

    def beside(self) -> dict[str, frozenset[str]]:
        """Who works only beside others, and beside whom of these people."""
        return dict(self._wanted_beside())

    def _wanted_beside(self) -> Iterator[tuple[str, frozenset[str]]]:
        adults = frozenset(v.id for v in self.people if counts(v, self.day))
        for volunteer in self.people:
            young = volunteer.id in self.minors and bool(self.of_minors)
            if volunteer.needs_beside:
                beside = companions(volunteer, self.people)
                yield volunteer.id, beside & adults if young else beside
            elif young:
                yield volunteer.id, adults

    # --- under-18s -----------------------------------------------------------------------------

    def _may_be_planned(self) -> bool:
        """Whether the sheets for under-18s ask only what a plan can see to beforehand.

        A crew's own sheet may ask for more, such as certificates or clocks: then the lead names
        who is young, and `begin` asks.
        """
        return not any(
            sheet.certificates or sheet.clocks or sheet.not_after for sheet in self.of_minors
        )

    def _near_no_danger(self, task: Task) -> bool:
        """Whether nothing is going on now that under-18s must be kept away from."""
        sheets = [*hazards_named(self.board, task), *self.of_minors]
        against = against_moment(self.board, task, sheets)
        young = {sheet.id for sheet in self.of_minors}
        clash = (o for o in against if o.code in ("near", "together"))
        return not any(young & {o.hazard, o.other} for o in clash)

    def _young_may_do(self, volunteer: Volunteer, task: Task, needs: Needs) -> bool:
        if not self._young_may or needs.adults:  # only adults make up the number there
            return False
        if any(sheet.people > 2 and needs.least < sheet.people for sheet in self.of_minors):
            return False
        return self._young_from(volunteer.id, task) is not None

    def late(self, task: Task, able: frozenset[str]) -> dict[str, int]:
        """Those under 18 for whose being on it somebody can sign only after they have come, and
        from which block."""
        found = {who: self._young_from(who, task) or 0 for who in self.minors & able}
        return {who: block for who, block in found.items() if block > self._comes(who)}

    def _comes(self, who: str) -> int:
        return self.hours.get(who, (0, 0))[0]

    def _young_from(self, who: str, task: Task) -> int | None:
        """The first block in which this one is here with whoever may sign for them; None where
        there is none."""
        by_arrival = self._by_arrival or [(0, self.asking)]
        for since, asking in by_arrival:
            if self._is_here(who, since) and not any(asking.unsignable(task, (who,))):
                return since
        return None


def _signed(asking: PeopleOfTheDay, task: Task) -> bool:
    crew = asking.crew_for(task)
    return crew is not None and not any(asking.unsignable(task, crew))
