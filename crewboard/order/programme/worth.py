"""What a course of work is worth: how soon the vehicle could be finished after it, and how much of
what goes first is done in it."""

from __future__ import annotations

from typing import NamedTuple

from crewboard.order.ahead.effort import crew_on
from crewboard.order.ahead.work_time import DAY, WorkTime
from crewboard.order.board import Board
from crewboard.order.programme.ahead import BLOCK
from crewboard.order.programme.frame import CourseFrame, CourseOfWork, passed_at


class Worth(NamedTuple):
    """Of two courses the smaller is the better one.

    `ends`: the day, counted from the first, on which everything could be over at the earliest if
    after the last day nothing had to wait for people: the calendar path of what is left.
    `undone`: what is not done, in blocks of one person, each counted by how soon it must begin.
    """

    ends: int
    undone: int


class CourseScale:
    """Weighs courses of one frame."""

    def __init__(self, board: Board, frame: CourseFrame, time: WorkTime) -> None:
        self.frame = frame
        self.time = time
        self.crews = [crew_on(board[job.task.id]) for job in frame.jobs]
        number = {job.task.id: n for n, job in enumerate(frame.jobs)}
        self.in_order = [number[node] for node in board.order.sequence if node in number]

    def of(self, course: CourseOfWork) -> Worth:
        undone = sum(j.worth * left for j, left in zip(self.frame.jobs, course.left, strict=True))
        return Worth(self.ends(course) // DAY, undone)

    def ends(self, course: CourseOfWork) -> int:
        """The minute at which everything could be over."""
        frame, time = self.frame, self.time
        done, clear = dict(course.finished), dict(course.clear)
        for number in self.in_order:
            if number in done:
                continue
            job = frame.jobs[number]
            ready = max(
                [
                    frame.next_open,
                    job.floor,
                    *((done if b.by_done else clear)[b.job] for b in job.before),
                    *(passed_at(enough, done, clear) for enough in job.enough),
                ]
            )
            length = -(-course.left[number] * BLOCK // self.crews[number])
            done[number] = finish = time.finish(time.open_from(ready), length)
            clear[number] = finish
            if job.hold is not None:
                clear[number] = frame.lengths.ends(job.hold, finish, look=job.look)
        return max(clear.values(), default=0)
