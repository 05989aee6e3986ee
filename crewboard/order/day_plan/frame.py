"""Each task that can be worked on in a day as a job: how much of it, by whom, when, worth what."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from crewboard.order.ahead.calendar_path import calendar_path
from crewboard.order.ahead.effort import HANDS, hours_left
from crewboard.order.ahead.first import First, what_goes_first
from crewboard.order.board import Board
from crewboard.order.day_plan.grid import Grid
from crewboard.order.day_plan.proposal import Fixed, Placed, Wish
from crewboard.order.day_plan.shop_day import LEARN_BESIDE, Job
from crewboard.order.day_plan.team import Team
from crewboard.order.day_plan.through_holds import AfterHold, after_holds
from crewboard.order.may.moment import against_moment, dangers_going_on
from crewboard.order.may.needs import Needs, hazards_named, needs_of
from crewboard.order.may.on_it import on_it, people_at
from crewboard.order.may.training import learners
from crewboard.order.reasons.onward import what_then
from crewboard.order.safety.clocks import must_end_by
from crewboard.plan.hazard import minutes_of
from crewboard.plan.task import Task

# How many jobs are weighed at most: the most pressing ones.
MOST_JOBS = 60


def is_of_nobody(board: Board, task_id: str) -> bool:
    """Whether it goes on now with nobody named, so that no plan can move whoever is on it."""
    return people_at(board, task_id) and not on_it(board, task_id)


class Frame:
    """What is common to the jobs of one day."""

    def __init__(
        self,
        board: Board,
        wish: Wish,
        grid: Grid,
        closes: datetime,
        team: Team,
        running: Sequence[Placed] = (),
    ) -> None:
        self.board = board
        self.wish = wish
        self.grid = grid
        self.closes = closes
        self.team = team
        self.path = calendar_path(board)
        self.running = {placed.task: placed for placed in running}
        self.planned = bool(running)
        self.rank: dict[str, int] = {}  # the place of each task in what goes first
        self.fixed = {wished.task: wished for wished in wish.fixed}
        self.going: set[str] = set()  # the tasks under way that go on, of the jobs made so far

    def jobs(self) -> tuple[Job, ...]:
        """The most pressing tasks, then those that they let go on the same day, and so on."""
        held = {each.task: each for each in after_holds(self.board, self.closes)}
        ranked = self._ranked(list(held.values()))
        jobs = [
            self._job(first, 10 + round(90 * (1 - place / len(ranked))), held.get(first.task))
            for place, first in enumerate(ranked)
        ]
        known = {job.task for job in jobs}
        for number, first in enumerate(jobs):  # those that it adds are asked in their turn
            then = what_then(self.board, first.task)
            for task in (*then.goes_on, *then.now):
                if task not in known and task not in self.wish.left_out and len(jobs) < MOST_JOBS:
                    known.add(task)
                    worth = max(1, first.worth // 2)
                    jobs.append(self._job(_unranked(task), worth, None, (number,)))
        return tuple(jobs)

    def _ranked(self, held: Sequence[AfterHold]) -> list[First]:
        """What can be worked on, the most pressing first; what waits for a hold of the day stands
        before the first that is no more pressing by its slack."""
        ranked = [f for f in what_goes_first(self.board, self.path) if self._may_go_on(f.task)]
        self.rank = {first.task: place for place, first in enumerate(ranked)}
        for each in held:
            slack = timedelta(minutes=self.path.slack(each.task))
            later = (n for n, f in enumerate(ranked) if f.against or f.slack > slack)
            ranked.insert(next(later, len(ranked)), _unranked(each.task)._replace(slack=slack))
        ranked = [f for f in ranked if f.task not in self.wish.left_out]
        # What is barred now ranks behind, so that `going` knows what bars it when it is asked.
        ranked.sort(key=lambda f: not on_it(self.board, f.task) and f.task not in self.fixed)
        return ranked[:MOST_JOBS]

    def _may_go_on(self, task_id: str) -> bool:
        """Whether work before it, a hold or what cannot be read does not stop it."""
        standing = self.board[task_id]
        return not (standing.to_stop or standing.unreadable)

    def _job(
        self,
        first: First,
        worth: int,
        held: AfterHold | None = None,
        after: tuple[int, ...] = (),
    ) -> Job:
        task = self.board.plan.tasks[first.task]
        fixed = self.fixed.get(task.id)
        hazards = hazards_named(self.board, task)
        needs = needs_of(task, hazards)._replace(learners=learners(self.board, task.id, hazards))
        able = self.team.able(task, needs) - {who for who, o in self.wish.apart if o == task.id}
        if fixed is not None and fixed.only:
            able &= frozenset(fixed.people)
        learning = self.team.learning(task) & able
        stay = on_it(self.board, task.id)
        since, by = self._since(task, needs, held), self._by(needs)
        ends = any(must_end_by(self.board, hazard) for hazard in needs.hazards)
        stays = bool(stay) and able.issuperset(stay) and since == 0 < by
        goes_on = stays and (task.in_one_go or ends)
        dangerous = any(task.id == other for other, _ in dangers_going_on(self.board))
        begun = stays and not goes_on and (dangerous or self._is_still_planned(task.id))
        if begun or goes_on:
            self.going.add(task.id)
        room = self.board.plan.vehicle.shop.room
        return Job(
            task.id,
            self._need(task.id, begun or goes_on, len(needs.watched)),
            needs.least,
            max(self._most(needs, fixed, learning), len(stay)),
            able,
            tuple(self.team.covers(needs, able)),
            "" if task.place in room and is_of_nobody(self.board, task.id) else task.place,
            since,
            by,
            after,
            worth,
            worth * (8 if first.finish_today else 3 if first.lets_go else 1),
            fixed,
            0 if goes_on or begun else self._fixed_start(fixed),
            stay,
            ends or (task.in_one_go and not people_at(self.board, task.id)),
            tuple(dict.fromkeys(task.uses)),
            any(task.id in by for by in self.board.readiness.taken.values()),
            task.hold is not None,
            goes_on=goes_on,
            begun=begun,
            watch=len(needs.watched),
            watched=self._watched(needs),
            learners=learning,
            looks=held.looks if held is not None else (),
            rank=self.rank.get(task.id, len(self.rank)),
            late=self.team.late(task, able),
        )

    # --- how much, by how many ------------------------------------------------------------------

    def _need(self, task_id: str, begun: bool, watch: int) -> int:
        """Person-blocks to its likely end. Of what was begun by the running plan less what has been
        done since, as that plan has it: hours are written down at the end of the day."""
        minutes = hours_left(self.board[task_id], self.path.usual) * 60
        need = max(1, -int(-minutes // (self.grid.block.total_seconds() / 60)))
        placed = self.running.get(task_id) if begun else None
        if placed is None:
            return need
        hands = max(1, len(placed.people) - watch)
        to_go = hands * self.grid.ended_by(placed.end)
        if placed.finishes:
            return max(1, min(need, to_go))
        passed = hands * self.grid.passed_since(placed.start)
        return max(1, min(need, max(to_go + 1, need - passed)))

    def _is_still_planned(self, task_id: str) -> bool:
        """Whether a plan is running that has not sent away yet whoever is on the task: where it was
        to be finished by then it goes on until it is."""
        placed = self.running.get(task_id)
        if placed is None:
            return self.planned
        return placed.finishes or self.grid.ended_by(placed.end) > 0

    def _most(self, needs: Needs, fixed: Fixed | None, learning: frozenset[str]) -> int:
        if needs.most is not None:
            return needs.most
        beside = 1 + min(LEARN_BESIDE, len(learning))
        return max(needs.least, HANDS, beside, len(fixed.people) if fixed else 0)

    # --- when -----------------------------------------------------------------------------------

    def _fixed_start(self, fixed: Fixed | None) -> int | None:
        """The block nearest to the hour that the lead wished, of two that are as near the later;
        one that is not there, where that is outside the day."""
        if fixed is None or fixed.start is None:
            return None
        early = datetime.combine(self.board.at.date(), fixed.start) - self.grid.block / 2
        outside = not self.grid.blocks or early < self.grid.starts[0] - self.grid.block
        return -1 if outside else self.grid.first_after(early)

    def _since(self, task: Task, needs: Needs, held: AfterHold | None) -> int:
        """Before which block it may not begin, because of what is going on, of a hold or of clocks
        that run; the whole day where nobody can say when that is over."""
        since = 0  # what falls due now can be looked at now, though the block has just begun
        if held is not None and held.since > self.board.at:
            since = self.grid.first_from(held.since)
        since = max(since, self.team.signable_from(task)) if needs.hazards else since
        for obstacle in against_moment(self.board, task, needs.hazards):
            if obstacle.code in ("place-taken", "room", "finished-without", "temporary"):
                continue  # who is there now is planned for too; what must be undone can be at once
            if obstacle.code in ("near", "place-closed") and self._is_planned(obstacle.task, task):
                continue  # the two are kept apart for as long as the plan has it go on
            if obstacle.code in ("near", "day-closed") or obstacle.until is None:
                return self.grid.blocks
            if obstacle.code in ("clock", "entry"):
                since = max(since, self.grid.first_from(obstacle.until))
        return since

    def _is_planned(self, other: str, task: Task) -> bool:
        """Whether that other work, whose danger is going on, ends by this plan; or goes on beside
        the task already."""
        return other in self.going or all(on_it(self.board, one) for one in (other, task.id))

    def _by(self, needs: Needs) -> int:
        """By which block it must have ended, for its closing clocks to run out."""
        latest = (must_end_by(self.board, hazard) for hazard in needs.hazards)
        ends = [end[0] for end in latest if end is not None]
        return min([self.grid.blocks, *(self.grid.ended_by(end) for end in ends)])

    def _watched(self, needs: Needs) -> tuple[int, ...]:
        """For each block behind its last, until which its watchers watch on; breaks stop no watch.
        Empty where they need not."""
        minutes = [
            minutes_of(rule)
            for hazard in needs.watched
            for clock in hazard.clocks
            if clock.guards == "closing" and (rule := hazard.ruling(clock)) is not None
        ]
        if not minutes:
            return ()
        grid, lasts = self.grid, timedelta(minutes=max(minutes))
        ends = [*grid.starts[:1], *grid.ends]
        return tuple(min(grid.blocks, grid.first_from(end + lasts)) for end in ends)


def _unranked(task: str) -> First:
    return First(task, timedelta(), 0, (), False, timedelta(), False, "")
