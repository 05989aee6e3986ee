"""The tasks as jobs in numbers: what each needs, and what must come before it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from crewboard.order.ahead.calendar_path import CalendarPath
from crewboard.order.ahead.effort import hours_left, most_hands, usual_crew
from crewboard.order.board import Board
from crewboard.order.forecast.remaining import WaitWhileHeld
from crewboard.order.may.apart import clashing
from crewboard.order.may.moment import against_moment
from crewboard.order.may.needs import Needs, hazards_named, needs_of, under_18s
from crewboard.order.may.party import Party, parties
from crewboard.order.may.people import known
from crewboard.order.may.training import learners
from crewboard.order.programme.ahead import BLOCK, DaysAhead
from crewboard.order.within import followed_by, must_follow
from crewboard.plan.duration import Duration
from crewboard.plan.hazard import Hazard, minutes_of
from crewboard.plan.hold import Hold
from crewboard.plan.task import Task

# What the first day's own moment says and a plan can see to, or whoever is there settles.
_SETTLED = ("place-taken", "room", "finished-without", "temporary")


class Before(NamedTuple):
    """A job before another; `by_done`: it need only be finished, its hold may still run."""

    job: int
    by_done: bool


class Enough(NamedTuple):
    """So many of these jobs have to be over, beside those that are finished and over at `known`."""

    need: int
    of: tuple[Before, ...]
    known: tuple[int, ...]


class Soon(NamedTuple):
    """A job that has to be begun so long after another's finish at most."""

    job: int
    span: Duration


class TaskAhead(NamedTuple):
    """One unfinished task. Moments are minutes since midnight before the first day.

    `need`: blocks of one person's work to its likely end. `floor`: before when it cannot begin,
    whatever is done until then; `begin_by`: when it must have begun. `before_closing`: minutes
    before closing by which its work must have ended. `whole`: begun only where all of it is done.
    `room`: of its place, 0 without a place. `stay`: who is on it now, `watching` those of them who
    watch. `has_jigs`: it has those
    that it uses. `young`: an under-18 was on it. `alone`: jobs that wait while its hold runs.
    `worth` of one block: by how soon it must begin for the vehicle not to be later, from 100 down
    to 10. Of those on it `watch` only watch, and no more than `hands` have a hand in it.
    """

    task: Task
    needs: Needs
    need: int
    least: int
    most: int
    usual: int
    watch: int
    hands: int
    floor: int
    not_first_before: int
    begin_by: int | None
    before_closing: int
    whole: bool
    room: int
    stay: tuple[str, ...]
    watching: tuple[str, ...]
    has_jigs: bool
    young: bool
    before: tuple[Before, ...]
    enough: tuple[Enough, ...]
    soon: tuple[Soon, ...]
    alone: frozenset[int]
    hold: Hold | None
    look: bool
    worth: int

    def done(self, people: int, blocks: int) -> int:
        """How much of it so many people do in so many blocks."""
        return min(people - self.watch, self.hands) * blocks


def jobs_ahead(board: Board, path: CalendarPath, ahead: DaysAhead) -> tuple[TaskAhead, ...]:
    """The tasks that can be come to, the latest start first: not what is set aside, stands behind
    such work, has to be done again first, or may be kept back by what cannot be read."""
    late = {task for task, follow in must_follow(board).items() if follow.late}
    names = [
        name
        for name, standing in board.standings.items()
        if name in path.work and name not in path.blocked and standing.state != "set aside"
        if not (standing.to_stop or standing.unreadable) and name not in late
        if not _never_done(hazards_named(board, standing.task))
    ]
    names.sort(key=lambda n: path.time.latest_start(path.latest[n], path.work[n]))
    return tuple(_Jobs(board, path, ahead, names).all())


def _never_done(hazards: list[Hazard]) -> bool:
    """Whether its sheets let nobody do it, at any time."""
    return any(hazard.do_not_use for hazard in hazards) or any(clashing(hazards))


class _Jobs:
    def __init__(
        self, board: Board, path: CalendarPath, ahead: DaysAhead, names: list[str]
    ) -> None:
        self.board, self.path, self.ahead, self.names = board, path, ahead, names
        self.number = {name: number for number, name in enumerate(names)}
        self.alone = WaitWhileHeld(board.plan, names, board.order)
        self.done, self.clear = self._were_all_done()

    def all(self) -> Iterator[TaskAhead]:
        following = must_follow(self.board)
        for place, name in enumerate(self.names):
            job = self._job(name, 10 + round(90 * (1 - place / len(self.names))))
            if name in following:
                by = self.path.time.minute(following[name].by)
                job = job._replace(begin_by=by)
            yield job

    def _were_all_done(self) -> tuple[dict[str, int], dict[str, int]]:
        """When each node would be passed, were all jobs done already."""
        done: dict[str, int] = {}
        clear: dict[str, int] = {}
        for node in self.board.order.sequence:
            if self.path.passes_on(node):
                done[node], clear[node] = self.path.passed_at(node, done, clear)
            elif self.board[node].work_done:
                done[node], clear[node] = 0, self.path.held_until(node)
            else:
                done[node] = clear[node] = 0
        return done, clear

    def _job(self, name: str, worth: int) -> TaskAhead:
        board, path = self.board, self.path
        standing, task = board[name], board.plan.tasks[name]
        hazards = hazards_named(board, task)
        needs = needs_of(task, hazards)._replace(learners=learners(board, name, hazards))
        minutes = hours_left(standing, path.usual) * 60
        before, enough = self._what_comes_before(task)
        ends = self._before_closing(needs)
        party = parties(board).get(name, Party())
        stay = party.everybody
        room = board.plan.vehicle.shop.room.get(task.place, 1) if task.place else 0
        most = needs.most if needs.most is not None else max(needs.least, most_hands(task))
        return TaskAhead(
            task,
            needs,
            max(1, -int(-minutes // BLOCK)),
            needs.least,
            max(most, len(stay)),
            min(max(needs.least, usual_crew(task)), most),
            len(needs.watched),
            task.most_people or max(most, len(stay)),
            max(path.free[name], path.ready_at(name, self.done, self.clear)),
            self._not_first_before(task, needs),
            None,
            ends,
            task.in_one_go or ends > 0,
            room,
            stay,
            party.watch,
            any(name in by for by in board.readiness.taken.values()),
            self._had_young(name),
            tuple(before),
            tuple(enough),
            tuple(self._soon(task)),
            frozenset(self.alone.by(task)) - {self.number[name]},
            task.hold,
            task.hold is not None and board.rules.will_ask(task.hold),
            worth,
        )

    def _what_comes_before(self, task: Task) -> tuple[list[Before], list[Enough]]:
        """The jobs next before it, seen through gates and through work that was finished before
        something earlier was opened again."""
        order, path = self.board.order, self.path
        allowed = order.during.get(task.id, frozenset())
        before: dict[int, bool] = {}
        enough: list[Enough] = []
        ahead, seen = list(order.before[task.id]), set(order.before[task.id])
        while ahead:
            node = ahead.pop()
            if node in self.number:
                before[self.number[node]] = node in allowed
            elif (quorum := path.quorums.get(node)) is not None:
                enough.append(self._enough(quorum.need, quorum.of, allowed))
            elif path.passes_on(node):
                ahead += [each for each in order.before[node] if each not in seen]
                seen.update(order.before[node])
        return [Before(*one) for one in sorted(before.items())], enough

    def _enough(self, need: int, of: Iterable[str], allowed: frozenset[str]) -> Enough:
        jobs = [Before(self.number[one], one in allowed) for one in of if one in self.number]
        over = {one: self.done[one] if one in allowed else self.clear[one] for one in of}
        known = [over[one] for one in over if self.board[one].work_done]
        return Enough(need, tuple(jobs), tuple(known))

    def _soon(self, task: Task) -> Iterator[Soon]:
        for then, span in followed_by(self.board.plan, task.id):
            standing = self.board[then.id]
            if not standing.work_done and standing.state not in ("under way", "set aside"):
                yield Soon(self.number.get(then.id, -1), span)

    def _had_young(self, name: str) -> bool:
        course = self.board.history.courses.get(name)
        people = known(self.board, course.crew) if course is not None else ()
        return bool(under_18s(people, self.board.at.date()))

    def _before_closing(self, needs: Needs) -> int:
        """The longest clock that has to run out before the shop closes."""
        rules = (
            h.ruling(clock)
            for h in needs.hazards
            for clock in h.clocks
            if clock.guards == "closing"
        )
        return max([0, *(minutes_of(rule) for rule in rules if rule is not None)])

    def _not_first_before(self, task: Task, needs: Needs) -> int:
        """Before when it cannot begin on the first day, because of what is going on, of clocks that
        run, or of the air; the whole day where nobody can say."""
        if not self.ahead.days:
            return 0
        first, since = self.ahead.days[0].board, 0
        for obstacle in against_moment(first, task, needs.hazards):
            if obstacle.code in _SETTLED or obstacle.code == "too-late":
                continue
            if obstacle.code not in ("clock", "entry") or obstacle.until is None:
                return self.path.time.minute(first.at.replace(hour=23, minute=59))
            since = max(since, self.path.time.minute(obstacle.until))
        return since
