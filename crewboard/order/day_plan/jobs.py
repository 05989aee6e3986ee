"""From the board and the wish to the day as numbers."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta

from crewboard.order.ahead.calendar_path import calendar_path
from crewboard.order.ahead.effort import hours_left
from crewboard.order.ahead.first import First, what_goes_first
from crewboard.order.board import Board
from crewboard.order.day_plan.apart import hazards_named, pairs_apart
from crewboard.order.day_plan.shop_day import Job, ShopDay
from crewboard.order.day_plan.wish import Fixed, Wish
from crewboard.order.reasons.onward import what_then
from crewboard.order.safety.clocks import must_end_by, still_running
from crewboard.plan.hazard import Hazard
from crewboard.plan.task import Task
from crewboard.plan.volunteer import Volunteer

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
    frame = _Frame(board, wish, opens, block, blocks, people)
    jobs = frame.jobs()
    beside = {
        who: frozenset(_companions(board.plan.crew[who], people, board))
        for who in people
        if board.plan.crew[who].needs_beside
    }
    return ShopDay(
        opens, closes, block, blocks, people, beside, jobs, tuple(pairs_apart(board, jobs, block))
    )


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
    from crewboard.order.expected import of_the_day

    people = wish.people or of_the_day(board)
    return tuple(dict.fromkeys(who for who in people if who in board.plan.crew))


def _companions(volunteer: Volunteer, people: Iterable[str], board: Board) -> list[str]:
    """Who of these people can be beside the volunteer."""
    need = volunteer.needs_beside
    return [
        who
        for who in people
        if who != volunteer.id and (who == need or need in board.plan.crew[who].skills)
    ]


class _Frame:
    """What is common to the jobs of one day."""

    def __init__(
        self,
        board: Board,
        wish: Wish,
        opens: datetime,
        block: timedelta,
        blocks: int,
        people: tuple[str, ...],
    ) -> None:
        self.board = board
        self.wish = wish
        self.opens = opens
        self.block = block
        self.blocks = blocks
        self.people = people
        self.path = calendar_path(board)

    def jobs(self) -> tuple[Job, ...]:
        """The most pressing tasks, then those that they let go on the same day."""
        fixed = {each.task: each for each in self.wish.fixed}
        ranked = [
            f for f in what_goes_first(self.board, self.path) if f.task not in self.wish.left_out
        ]
        ranked.sort(key=lambda f: f.task not in fixed)
        ranked = ranked[:MOST_JOBS]
        found: list[Job] = []
        for place, first in enumerate(ranked):
            worth = 10 + round(90 * (1 - place / len(ranked)))
            found.append(self._job(first, worth, fixed.get(first.task), ()))
        number = {job.task: n for n, job in enumerate(found)}
        for first in ranked:
            for task in what_then(self.board, first.task).now:
                if task not in number and task not in self.wish.left_out and len(found) < MOST_JOBS:
                    number[task] = len(found)
                    later = First(task, timedelta(), 0, (), False, timedelta(), False, "")
                    worth = max(1, found[number[first.task]].worth // 2)
                    found.append(self._job(later, worth, fixed.get(task), (number[first.task],)))
        return tuple(found)

    def _job(self, first: First, worth: int, fixed: Fixed | None, after: tuple[int, ...]) -> Job:
        task = self.board.plan.tasks[first.task]
        hazards = hazards_named(self.board, task)
        minutes = hours_left(self.board[task.id], self.path.usual) * 60
        need = max(1, -int(-minutes // (self.block.total_seconds() / 60)))
        able = frozenset(who for who in self.people if self._may(who, task, hazards))
        least = max([1, task.least_people, *(h.people for h in hazards)])
        start = None
        if fixed is not None and fixed.start is not None:
            start = round(
                (datetime.combine(self.opens.date(), fixed.start) - self.opens) / self.block
            )
        if fixed is not None and fixed.only:
            able &= frozenset(fixed.people)
        bonus = worth * (8 if first.finish_today else 3 if first.lets_go else 1)
        return Job(
            task.id,
            need,
            least,
            max(least, task.most_people or HANDS, len(fixed.people) if fixed else 0),
            able,
            tuple(self._covers(task, hazards, able)),
            task.place,
            self._since(task, hazards),
            self._by(hazards),
            after,
            worth,
            bonus,
            fixed,
            start,
        )

    def _may(self, who: str, task: Task, hazards: Sequence[Hazard]) -> bool:
        from crewboard.order.safety.certificates import has_certificate

        day, volunteer = self.board.at.date(), self.board.plan.crew[who]
        if (who, task.id) in self.wish.apart:
            return False
        if volunteer.minor_on(day) and any(not h.under_18 for h in hazards):
            return False
        return all(
            has_certificate(volunteer, need, hazard, day)
            for hazard in hazards
            for need in hazard.certificates
            if need.who == "each"
        )

    def _covers(
        self, task: Task, hazards: Sequence[Hazard], able: frozenset[str]
    ) -> Iterable[frozenset[str]]:
        from crewboard.order.safety.certificates import has_certificate

        crew, day = self.board.plan.crew, self.board.at.date()
        for skill in task.skills:
            yield frozenset(who for who in able if skill in crew[who].skills)
        for hazard in hazards:
            for need in hazard.certificates:
                if need.who == "one":
                    yield frozenset(
                        who for who in able if has_certificate(crew[who], need, hazard, day)
                    )

    def _since(self, task: Task, hazards: Sequence[Hazard]) -> int:
        """Before which block it may not begin, because clocks of earlier work still run."""
        named = {other for hazard in hazards for other in hazard.not_after}
        since = 0
        for running in still_running(self.board):
            other = self.board.plan.tasks.get(running.task)
            near = other is None or not other.place or not task.place or other.place == task.place
            enters = running.clock.guards == "entry" and near
            if running.task != task.id and (enters or running.hazard.id in named):
                if running.until is None:
                    return self.blocks
                since = max(since, -int(-(running.until - self.opens) / self.block // 1))
        return since

    def _by(self, hazards: Sequence[Hazard]) -> int:
        """By which block it must have ended, for its closing clocks to run out."""
        ends = [end[0] for h in hazards if (end := must_end_by(self.board, h)) is not None]
        return min([self.blocks, *(int((end - self.opens) / self.block // 1) for end in ends)])
