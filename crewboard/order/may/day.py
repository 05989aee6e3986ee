"""What the people of a day may do: asked for thousands of tasks, answered once for those alike."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime, timedelta

from crewboard.order.board import Board
from crewboard.order.may.apart import clashing
from crewboard.order.may.ask import against_going_on, follows_late
from crewboard.order.may.needs import Needs, hazards_named, hazards_of_minors, needs_of
from crewboard.order.may.obstacle import Among, Obstacle
from crewboard.order.may.people import a_crew, known, why_nobody
from crewboard.order.may.training import learners
from crewboard.order.presence import of_the_day
from crewboard.plan.hazard import Hazard
from crewboard.plan.task import Task

_Alike = tuple[tuple[str, ...], tuple[str, ...], int, int | None, frozenset[tuple[str, str]]]


class PeopleOfTheDay:
    """The people of the board's day, and what stands against the tasks for all of them.

    Without `people` these are who is here and who said that they come, or who is expected; where
    that is nobody, the whole crew. A plan without a crew list asks for nobody.
    """

    def __init__(self, board: Board, people: Iterable[str] | None = None) -> None:
        self.board = board
        self.day = board.at.date()
        crew = [v for v in board.plan.crew.values() if v.with_us_on(self.day)]
        self.crew = crew
        usual = of_the_day(board)
        chosen = usual if people is None else list(people)
        self.people = known(board, chosen) or crew
        self.among: Among = "today" if chosen == usual else "named"
        if self.people is crew:
            self.among = "crew"
        self._crews: dict[_Alike, tuple[str, ...] | None] = {}
        self._against: dict[_Alike, tuple[Obstacle, ...]] = {}
        self._open = _is_open(board)

    def against(self, task: Task) -> tuple[Obstacle, ...]:
        """Why nobody of these people may do the task now; empty where some may.

        Checks that can still be signed are nothing against it, nor is where it stands.
        """
        return self.against_task(task) + self.against_people(task) + self._against_moment(task)

    def against_task(self, task: Task) -> tuple[Obstacle, ...]:
        """What is missing for it, whoever does it; for work under way, what stops it."""
        return (
            *against_going_on(self.board[task.id]),
            *follows_late(self.board, task.id),
        )

    def crew_for(self, task: Task) -> tuple[str, ...] | None:
        """The smallest crew out of these people who may do the task together, None if there is
        none. Adults first: with an under-18 there come further rules."""
        alike = self._alike(task)
        if alike not in self._crews:
            self._crews[alike] = self._find_crew(task)
        return self._crews[alike]

    def _alike(self, task: Task) -> _Alike:
        """Tasks of which the answer about people is the same."""
        learning = learners(self.board, task.id, hazards_named(self.board, task))
        return task.skills, task.hazards, task.least_people, task.most_people, learning

    def _find_crew(self, task: Task) -> tuple[str, ...] | None:
        adults = [v for v in self.people if not v.minor_on(self.day)]
        needs = needs_of(task, hazards_named(self.board, task))
        crew = a_crew(needs, adults, self.day)
        if crew is not None or len(adults) == len(self.people):
            return crew
        needs = needs._replace(learners=learners(self.board, task.id, needs.hazards))
        if a_crew(needs._replace(most=None), self.people, self.day) is None:
            return None  # not even with an under-18: their sheets need not be read
        young = self._young_for(task)
        may = [v for v in self.people if v.id in young or not v.minor_on(self.day)]
        return a_crew(self._with_minors(task), may, self.day, young)

    def _young_for(self, task: Task) -> frozenset[str]:
        """The under-18s whose own checks somebody here can sign, and near whom the work may be."""
        return frozenset(
            v.id
            for v in self.people
            if v.minor_on(self.day)
            and not any(self.unsignable(task, (v.id,)))
            and not any(self._clash_with_minors(task))
        )

    def _could_be_on(self, task: Task) -> int:
        """How many of these people nothing of their own keeps off the task."""
        adults = [v for v in self.people if not v.minor_on(self.day)]
        needs = needs_of(task, hazards_named(self.board, task))
        able = sum(not needs.bars(v, self.day) for v in adults)
        if len(adults) == len(self.people):
            return able
        young, needs = self._young_for(task), self._with_minors(task)
        return able + sum(v.id in young and not needs.bars(v, self.day) for v in self.people)

    def _with_minors(self, task: Task) -> Needs:
        sheets = self._sheets_with_minors(task)
        return needs_of(task, sheets)._replace(learners=learners(self.board, task.id, sheets))

    def _sheets_with_minors(self, task: Task) -> tuple[Hazard, ...]:
        return (*hazards_named(self.board, task), *hazards_of_minors(self.board))

    def _clash_with_minors(self, task: Task) -> Iterator[Obstacle]:
        """Dangers of the task that must not be near an under-18."""
        for one, other in clashing(self._sheets_with_minors(task)):
            if "minors" in (one.concerns, other.concerns):
                yield Obstacle("together", hazard=one.id, other=other.id)

    # --- why not -------------------------------------------------------------------------------

    def against_people(self, task: Task) -> tuple[Obstacle, ...]:
        """Why no crew out of these people may do it, or why none could sign its checks."""
        if not self.crew:
            return ()
        crew = self.crew_for(task)
        if crew is not None:
            return tuple(self.unsignable(task, crew)) if task.hazards else ()
        alike = self._alike(task)
        if alike not in self._against:
            self._against[alike] = self._why_nobody(task)
        return self._against[alike]

    def _why_nobody(self, task: Task) -> tuple[Obstacle, ...]:
        """Of the whole crew where that says more: a certificate that nobody in it has."""
        needs = needs_of(task, hazards_named(self.board, task))
        return (
            why_nobody(needs, self.crew, self.day, "crew")
            or why_nobody(needs, self.people, self.day, self.among)
            or why_nobody(self._with_minors(task), self.people, self.day, self.among)
            or tuple(self._clash_with_minors(task))
            or tuple(self.unsignable(task, [v.id for v in self.people]))
        )

    def unsignable(self, task: Task, crew: Sequence[str]) -> Iterator[Obstacle]:
        """Open checks before the work that none of these people may sign."""
        from crewboard.order.safety.checks import checks_of, hazards_of
        from crewboard.order.safety.signatures import may_answer_for

        for hazard in hazards_of(self.board, task.id, crew):
            able = {
                check.id: {v.id for v in self.people if may_answer_for(v, hazard, check, self.day)}
                for check in hazard.checks
                if check.when == "before"
            }
            # Nobody signs for themselves: where two may, each signs for the other.
            if all(len(who) > 1 for who in able.values()):
                continue
            asked = checks_of(self.board, task.id, crew, "before")
            barred = {
                asking.check.id
                for asking in asked
                if asking.open
                and asking.hazard.id == hazard.id
                and not able[asking.check.id] - {asking.who}
            }
            for check in sorted(barred):
                yield Obstacle("signer", among=self.among, hazard=hazard.id, check=check)

    def _against_moment(self, task: Task) -> tuple[Obstacle, ...]:
        """What is going on near, clocks, closing, the air: while the shop is open; what no crew
        uses, at any time."""
        from crewboard.order.may.moment import against_moment, not_used

        hazards = hazards_named(self.board, task)
        if not self._open:
            return tuple(not_used(hazards))
        against = against_moment(self.board, task, hazards)
        # Harmless work that could be anywhere is not kept back: the people there know.
        unsure = () if task.hazards else ("entry", "place-closed")
        against_it = tuple(o for o in against if o.code not in unsure or o.strict)
        one_go = self.not_in_one_go(task) if task.in_one_go else ()
        return (*against_it, *self._ends_late(task, hazards), *one_go)

    def _ends_late(self, task: Task, hazards: Sequence[Hazard]) -> Iterator[Obstacle]:
        """That it would not be done any more before it must end for its closing clock, such as a
        fire watch, with as many of these people as may be on it. What takes longer than a whole
        day is done in parts, of which whoever begins one says where it ends."""
        from crewboard.order.may.moment import ends_late

        opening = self.board.opening
        if opening is None or not any(c.guards == "closing" for h in hazards for c in h.clocks):
            return
        watched = len(needs_of(task, hazards).watched)
        able = max(1, min(self._could_be_on(task), len(self.people) - watched))
        opened = datetime.combine(self.board.at.date(), opening.opens)
        for late in ends_late(self.board, task, hazards, min(able, task.most_people or able)):
            assert late.until is not None
            if timedelta(hours=(self.board[task.id].left or 0) / late.there) <= late.until - opened:
                yield late

    def not_in_one_go(self, task: Task) -> Iterator[Obstacle]:
        """That it would not be done before closing, even with as many of these people as it can
        make use of and as may be on it; nothing once the shop has closed."""
        if not self._open:
            return
        from crewboard.order.may.in_one_go import hands_of, not_in_one_go

        yield from not_in_one_go(self.board, task, hands_of(task, self._could_be_on(task)))


def _is_open(board: Board) -> bool:
    """Whether work is still done on this day: the shop has not closed yet."""
    if board.opening is None:
        return False
    return board.at < datetime.combine(board.at.date(), board.opening.closes)
