"""Who is on each task now: a person is on one task at a time, or on the same work on several pieces
begun together, and a watcher on nothing else.

What a working party has to be while its work goes on is asked here once: when the work begins, when
somebody on it begins something else, and when somebody leaves.
"""

from collections.abc import Iterator, Sequence
from datetime import datetime
from functools import lru_cache
from typing import NamedTuple

from crewboard.logbook.acts import Act, Begun, Finished, Reopened, Stopped
from crewboard.order.board import Board
from crewboard.order.may.needs import (
    Needs,
    companions,
    counted,
    counts,
    hazards_for,
    needs_of_hazards,
)
from crewboard.order.may.obstacle import Obstacle
from crewboard.plan.plan import Plan
from crewboard.plan.volunteer import Volunteer


class Party(NamedTuple):
    """The people on one task who are here and began nothing else since.

    `crew` do the work, `adult`, one of them, stays beside the under-18s, `watch` watch.
    """

    crew: tuple[str, ...] = ()
    watch: tuple[str, ...] = ()
    adult: str = ""

    @property
    def everybody(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys((*self.crew, *self.watch)))


class _Roles:
    """What the day's entries say of who does what, up to now."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        # person -> what they began last: one task, or the same work on several pieces, begun at
        # one moment
        self.last: dict[str, tuple[str, ...]] = {}
        self.since: dict[str, datetime] = {}  # task -> when it was begun last
        self.crew: dict[str, dict[str, None]] = {}
        self.watch: dict[str, tuple[str, ...]] = {}
        self.adult: dict[str, str] = {}

    def take(self, act: Act, at: datetime) -> None:
        if isinstance(act, Begun):
            doing = dict.fromkeys((*act.crew, *filter(None, (act.adult,))))
            for who in (*doing, *act.watch):
                with_it = self.begun_with(act.task, at, who)
                self.last[who] = (*(task for task in with_it if task != act.task), act.task)
            self.since[act.task] = at
            crew = self.crew.setdefault(act.task, {})
            crew |= doing
            # Another watcher frees the one before; whoever joins the work watches no more.
            before = act.watch or self.watch.get(act.task, ())
            self.watch[act.task] = tuple(who for who in before if who not in doing)
            for who in self.watch[act.task]:
                crew.pop(who, None)
            self.adult[act.task] = act.adult or self.adult.get(act.task, "")
        elif isinstance(act, Finished | Stopped | Reopened):
            self.crew.pop(act.task, None)
            if isinstance(act, Reopened):
                self.watch.pop(act.task, None)

    def begun_with(self, task_id: str, at: datetime, who: str) -> tuple[str, ...]:
        """What the person began at this moment that is the same work on other pieces."""
        task = self.plan.tasks.get(task_id)
        if task is None or not task.series:
            return ()
        members = self.plan.series[task.series].members.values()
        return tuple(
            other
            for other in self.last.get(who, ())
            if other in members and self.since.get(other) == at
        )

    def parties(self, here: set[str]) -> dict[str, Party]:
        def on(task: str, people: Sequence[str]) -> tuple[str, ...]:
            return tuple(who for who in people if who in here and task in self.last.get(who, ()))

        all_parties = {}
        for task in dict.fromkeys((*self.crew, *self.watch)):
            crew, watch = on(task, tuple(self.crew.get(task, ()))), on(task, self.watch[task])
            adult = self.adult.get(task, "")
            all_parties[task] = Party(crew, watch, adult if adult in crew else "")
        return all_parties


def _roles(board: Board) -> _Roles:
    roles = _Roles(board.plan)
    today = board.logbook.days.get(board.at.date())
    for entry in today.events if today else ():
        if entry.at <= board.at:
            roles.take(entry.act, entry.at)
    return roles


@lru_cache(maxsize=4)
def parties(board: Board) -> dict[str, Party]:
    """Who is on each task that was begun today; of one that is finished or stopped, who still
    watches."""
    return _roles(board).parties({visit.who for visit in board.present})


def parties_as_begun(board: Board) -> dict[str, Party]:
    """The same with those who have left the shop since."""
    return _roles(board).parties({visit.who for visit in board.history.visits})


def parties_after(board: Board, begun: Begun) -> dict[str, Party]:
    """The same once that is written, with those of its people who are here."""
    roles = _roles(board)
    roles.take(begun, board.at)
    return roles.parties({visit.who for visit in board.present})


def taken_with(board: Board, task_id: str, people: Sequence[str]) -> tuple[str, ...]:
    """The same work on other pieces that all of these people begin at the board's moment too: one
    party is on all of them, and none of it is other work to them."""
    roles = _roles(board)
    begun = [roles.begun_with(task_id, board.at, who) for who in people]
    return tuple(task for task in begun[0] if all(task in own for own in begun)) if begun else ()


def usual_roles(board: Board, task_id: str, people: Sequence[str]) -> Party:
    """How these people could share the work: whoever stands last in the list watches, the first
    adult who does not is beside the under-18s."""
    task, crew, day = board.plan.tasks[task_id], board.plan.crew, board.at.date()
    needs = needs_of_hazards(hazards_for(board.plan, task, people, day))
    adults = [who for who in people if who in crew and counts(crew[who], day)]
    watch = tuple(adults[1:][-len(needs.watched) :]) if needs.watched else ()
    doing = tuple(who for who in people if who not in watch)
    young = any(who in crew and crew[who].minor_on(day) for who in people)
    beside = next((who for who in adults if who in doing), "") if young else ""
    return Party(doing, watch, beside)


# --- what a party lacks --------------------------------------------------------------------------


def lacking(board: Board, needs: Needs, party: Party) -> Iterator[Obstacle]:
    """What these people are too few for, whom they miss: while the work begins and goes on."""
    crew = board.plan.crew
    people = [crew[who] for who in party.everybody if who in crew]
    yield from _too_few(board, needs, people)
    yield from _nobody_watches(board, needs, party)
    yield from _no_adult_beside(board, needs, party)


def lacking_too(board: Board, needs: Needs, party: Party) -> Iterator[Obstacle]:
    """What may be missing besides once somebody has left: papers, whoever has to be beside."""
    crew, day = board.plan.crew, board.at.date()
    people = [crew[who] for who in party.everybody if who in crew]
    for asked in needs.one:
        if not any(asked.held_by(volunteer, day) for volunteer in people):
            yield Obstacle("certificate", hazard=asked.hazard.id, certificate=asked.need.kind)
    for volunteer in people:
        if volunteer.needs_beside and not companions(volunteer, people):
            yield Obstacle("beside", (volunteer.id,), strict=needs.dangerous)


def _too_few(board: Board, needs: Needs, people: Sequence[Volunteer]) -> Iterator[Obstacle]:
    day = board.at.date()
    for hazard in (sheet for sheet in needs.hazards if sheet.people > 1):
        count = counted(people, hazard, day)
        if len(count) < hazard.people:
            others = tuple(v.id for v in people if v not in count)
            yield Obstacle(
                "people", others, hazard=hazard.id, needed=hazard.people, there=len(count)
            )


def _nobody_watches(board: Board, needs: Needs, party: Party) -> Iterator[Obstacle]:
    """A watcher for each kind of watch, of age: two tasks in one want two pairs of eyes."""
    crew, day = board.plan.crew, board.at.date()
    watching = [who for who in party.watch if who in crew and counts(crew[who], day)]
    for hazard in needs.watched[len(watching) :]:
        yield Obstacle("watch", hazard=hazard.id)


def _no_adult_beside(board: Board, needs: Needs, party: Party) -> Iterator[Obstacle]:
    crew, day = board.plan.crew, board.at.date()
    young = tuple(w for w in party.everybody if w in crew and crew[w].minor_on(day))
    beside = crew.get(party.adult)
    if young and needs.for_minors and not (beside and counts(beside, day)):
        yield Obstacle("adult", young, hazard=needs.for_minors[0].id)
