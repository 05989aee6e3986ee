"""What has to follow other work of the day soon, or has to be begun by some time."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta

from crewboard.order.ahead.work_time import WorkTime
from crewboard.order.board import Board
from crewboard.order.day_plan.shop_day import Follows, Job, ShopDay, Slot
from crewboard.order.within import followed_by, must_follow


class Hours:
    """The blocks of a day, and when the shop is next open after it."""

    def __init__(self, board: Board, time: WorkTime, day: ShopDay) -> None:
        self.board = board
        self.day = day
        self.next_open = time.moment(time.open_from(time.minute(day.closes)))

    def last_start(self, by: datetime) -> int:
        """The last block that begins by then; below 0 where none does."""
        return bisect_right(self.day.grid.starts, by) - 1

    def in_time_from(self, span: timedelta) -> int:
        """What ends from this block on can be followed in time when the shop is next open."""
        return 1 + bisect_left(self.day.grid.ends, self.next_open - span)

    def latest(self, span: timedelta) -> tuple[int, ...]:
        """For each block behind the last of some work, in which one may begin so soon after it."""
        return tuple(
            self.last_start(self.day.until(end) + span) for end in range(self.day.blocks + 1)
        )


def with_following(board: Board, time: WorkTime, day: ShopDay) -> ShopDay:
    """The day with what its jobs have to follow, and what must not be finished because nothing
    could follow it in time."""
    if not any(task.within for task in board.plan.tasks.values()):
        return day
    hours = Hours(board, time, day)
    number = {job.task: n for n, job in enumerate(day.jobs)}
    following = must_follow(board)
    jobs = [
        job._replace(begin_by=hours.last_start(following[job.task].by))
        if job.task in following
        else job
        for job in day.jobs
    ]
    for first, job in enumerate(day.jobs):
        for task, span in followed_by(board.plan, job.task):
            standing = board[task.id]
            if standing.work_done or standing.state in ("under way", "set aside"):
                continue
            lasts = board.plan.clock.add(day.closes, span) - day.closes
            later = hours.in_time_from(lasts)
            then = number.get(task.id)
            if then is not None and first in jobs[then].after:
                soon = Follows(first, hours.latest(lasts), later)
                jobs[then] = jobs[then]._replace(follows=(*jobs[then].follows, soon))
            elif later > day.blocks and not job.goes_on:
                jobs[first] = jobs[first]._replace(may_finish=False)
    return day._replace(jobs=tuple(jobs))


def as_it_can_be_followed(day: ShopDay, known: Sequence[Slot]) -> ShopDay:
    """The day without what the known plan could not have follow in time: work that goes on is not
    stopped for it."""
    placed = {slot.job: slot for slot in known}
    return day._replace(
        jobs=tuple(
            job._replace(
                follows=tuple(
                    follow
                    for follow in job.follows
                    if not day.jobs[follow.first].goes_on
                    or is_followed(day, follow, number, placed)
                )
            )
            for number, job in enumerate(day.jobs)
        )
    )


def followers(day: ShopDay) -> dict[int, list[int]]:
    """Job -> those that must follow it soon."""
    behind: dict[int, list[int]] = {}
    for number, job in enumerate(day.jobs):
        for follow in job.follows:
            behind.setdefault(follow.first, []).append(number)
    return behind


def is_followed(day: ShopDay, follow: Follows, then: int, placed: Mapping[int, Slot]) -> bool:
    """Whether a job that is finished in the day is followed in time by the job `then`."""
    first, second = placed.get(follow.first), placed.get(then)
    if first is None or not day.jobs[follow.first].is_finished(first):
        return True
    if first.end >= follow.later:
        return True
    return second is not None and second.start <= follow.latest[first.end]


def may_be_finished(job: Job, slot: Slot) -> bool:
    """Whether the slot leaves undone what must not be finished today."""
    return job.may_finish or not job.is_finished(slot)
