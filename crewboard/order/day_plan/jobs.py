"""From the board and the wish to the day as numbers."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from crewboard.order.ahead.calendar_path import calendar_path
from crewboard.order.ahead.effort import hours_left
from crewboard.order.ahead.first import First, what_goes_first
from crewboard.order.board import Board
from crewboard.order.day_plan.apart import pairs_apart
from crewboard.order.day_plan.following import with_following
from crewboard.order.day_plan.proposal import Fixed, Wish
from crewboard.order.day_plan.shop_day import Job, ShopDay
from crewboard.order.day_plan.team import Team
from crewboard.order.may.moment import against_moment
from crewboard.order.may.needs import Needs, hazards_named, needs_of
from crewboard.order.may.on_it import on_it, people_at
from crewboard.order.may.room import jobs_in
from crewboard.order.may.training import learners
from crewboard.order.reasons.onward import what_then
from crewboard.order.safety.clocks import must_end_by
from crewboard.plan.task import Task

# How many jobs are weighed at most: the most pressing ones.
MOST_JOBS = 60
# Of how many people a task can make use where the plan does not say.
HANDS = 2


def shop_day(board: Board, wish: Wish) -> ShopDay:
    """The day of the board from its moment on, for the people wished for."""
    opens, closes = _hours(board, wish)
    block = timedelta(minutes=wish.block)
    blocks = max(0, int((closes - opens) / block))
    people = _people(board, wish)
    team = Team(board, people)
    frame = _Frame(board, wish, opens, block, blocks, team)
    jobs = frame.jobs()
    apart = pairs_apart(board, jobs, block, team.minors, team.of_minors)
    day = ShopDay(
        opens,
        closes,
        block,
        blocks,
        people,
        team.beside(),
        jobs,
        tuple(apart),
        _room(board),
        _jigs(board, jobs),
    )
    return with_following(board, frame.path.time, day)


def _room(board: Board) -> dict[str, int]:
    """For how many more jobs there is room, where the shop says it: work of nobody named stays."""
    return {
        place: max(0, room - sum(_is_of_nobody(board, task) for task in jobs_in(board, place)))
        for place, room in board.plan.vehicle.shop.room.items()
    }


def _is_of_nobody(board: Board, task_id: str) -> bool:
    """Whether it goes on now with nobody named, so that no plan can move whoever is on it."""
    return people_at(board, task_id) and not on_it(board, task_id)


def _jigs(board: Board, jobs: Sequence[Job]) -> dict[str, int]:
    """How many of each jig the jobs can have; no fewer than they have already."""
    free = {}
    for jig in dict.fromkeys(jig for job in jobs for jig in job.jigs):
        ours = {job.task for job in jobs if job.has_jigs and jig in job.jigs}
        elsewhere = len(board.readiness.taken.get(jig, {}).keys() - ours)
        free[jig] = max(board.plan.vehicle.jigs[jig].number - elsewhere, len(ours))
    return free


def _hours(board: Board, wish: Wish) -> tuple[datetime, datetime]:
    """From when till when there is something to plan; in whole blocks from the opening on."""
    opening = board.opening or board.plan.vehicle.work_days.usual
    opens = datetime.combine(board.at.date(), opening.opens)
    closes = datetime.combine(board.at.date(), opening.closes)
    if board.at > opens:
        passed = -int(-(board.at - opens).total_seconds() // (wish.block * 60))
        opens += timedelta(minutes=passed * wish.block)
    return opens, max(opens, closes)


def _people(board: Board, wish: Wish) -> tuple[str, ...]:
    """Those wished for; else the people of the day."""
    from crewboard.order.presence import of_the_day

    people = wish.people or of_the_day(board)
    return tuple(dict.fromkeys(who for who in people if who in board.plan.crew))


class _Frame:
    """What is common to the jobs of one day."""

    def __init__(
        self,
        board: Board,
        wish: Wish,
        opens: datetime,
        block: timedelta,
        blocks: int,
        team: Team,
    ) -> None:
        self.board = board
        self.wish = wish
        self.opens = opens
        self.block = block
        self.blocks = blocks
        self.team = team
        self.path = calendar_path(board)

    def jobs(self) -> tuple[Job, ...]:
        """The most pressing tasks, then those that they let go on the same day."""
        fixed = {wished.task: wished for wished in self.wish.fixed}
        ranked = [
            f
            for f in what_goes_first(self.board, self.path)
            if f.task not in self.wish.left_out and self._may_go_on(f.task)
        ]
        ranked.sort(key=lambda f: not on_it(self.board, f.task) and f.task not in fixed)
        ranked = ranked[:MOST_JOBS]
        jobs: list[Job] = []
        for place, first in enumerate(ranked):
            worth = 10 + round(90 * (1 - place / len(ranked)))
            jobs.append(self._job(first, worth, fixed.get(first.task), ()))
        number = {job.task: n for n, job in enumerate(jobs)}
        for first in ranked:
            then = what_then(self.board, first.task)
            for task in (*then.goes_on, *then.now):
                if task not in number and task not in self.wish.left_out and len(jobs) < MOST_JOBS:
                    number[task] = len(jobs)
                    later = First(task, timedelta(), 0, (), False, timedelta(), False, "")
                    worth = max(1, jobs[number[first.task]].worth // 2)
                    jobs.append(self._job(later, worth, fixed.get(task), (number[first.task],)))
        return tuple(jobs)

    def _may_go_on(self, task_id: str) -> bool:
        """Whether work before it, a hold or what cannot be read does not stop it."""
        standing = self.board[task_id]
        return not (standing.to_stop or standing.unreadable)

    def _job(self, first: First, worth: int, fixed: Fixed | None, after: tuple[int, ...]) -> Job:
        task = self.board.plan.tasks[first.task]
        hazards = hazards_named(self.board, task)
        needs = needs_of(task, hazards)._replace(learners=learners(self.board, task.id, hazards))
        minutes = hours_left(self.board[task.id], self.path.usual) * 60
        need = max(1, -int(-minutes // (self.block.total_seconds() / 60)))
        apart = {who for who, other in self.wish.apart if other == task.id}
        able = self.team.able(task, needs) - apart
        start = None
        if fixed is not None and fixed.start is not None:
            start = round(
                (datetime.combine(self.opens.date(), fixed.start) - self.opens) / self.block
            )
        if fixed is not None and fixed.only:
            able &= frozenset(fixed.people)
        bonus = worth * (8 if first.finish_today else 3 if first.lets_go else 1)
        stay = on_it(self.board, task.id)
        since, by = self._since(task, needs), self._by(needs)
        ends = any(must_end_by(self.board, hazard) for hazard in needs.hazards)
        goes_on = bool(stay) and able.issuperset(stay) and since == 0 < by
        goes_on = goes_on and (task.in_one_go or ends)
        room = self.board.plan.vehicle.shop.room
        has_room = task.place in room and _is_of_nobody(self.board, task.id)
        return Job(
            task.id,
            need,
            needs.least,
            max(self._most(needs, fixed), len(stay)),
            able,
            tuple(self.team.covers(needs, able)),
            "" if has_room else task.place,
            since,
            by,
            after,
            worth,
            bonus,
            fixed,
            0 if goes_on else start,
            stay,
            ends or (task.in_one_go and not people_at(self.board, task.id)),
            tuple(dict.fromkeys(task.uses)),
            any(task.id in by for by in self.board.readiness.taken.values()),
            task.hold is not None,
            goes_on=goes_on,
        )

    def _most(self, needs: Needs, fixed: Fixed | None) -> int:
        if needs.most is not None:
            return needs.most
        return max(needs.least, HANDS, len(fixed.people) if fixed else 0)

    def _since(self, task: Task, needs: Needs) -> int:
        """Before which block it may not begin, because of what is going on or of clocks that run;
        the whole day where nobody can say when that is over."""
        since = 0
        for obstacle in against_moment(self.board, task, needs.hazards):
            if obstacle.code in ("place-taken", "room", "finished-without", "temporary"):
                continue  # who is there now is planned for too; what must be undone can be at once
            if obstacle.code in ("near", "day-closed") or obstacle.until is None:
                return self.blocks
            if obstacle.code in ("clock", "entry"):
                since = max(since, -int(-(obstacle.until - self.opens) / self.block // 1))
        return since

    def _by(self, needs: Needs) -> int:
        """By which block it must have ended, for its closing clocks to run out."""
        latest = (must_end_by(self.board, hazard) for hazard in needs.hazards)
        ends = [end[0] for end in latest if end is not None]
        return min([self.blocks, *(int((end - self.opens) / self.block // 1) for end in ends)])
