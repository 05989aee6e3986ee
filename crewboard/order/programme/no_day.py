"""Work that could begin within the days of a programme, and none of them has room for all of it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal, NamedTuple

from crewboard.order.programme.ahead import BLOCK, Sitting, after_a_break
from crewboard.order.programme.frame import ready_at
from crewboard.order.programme.programme import Made

WhyNoDay = Literal["clock", "long", "beside"]


class NoDay(NamedTuple):
    """A task that must not be left half done and finds no day. `why`: it would find one, were
    there no clock that has to run out so many `minutes` before the shop closes ("clock"); those who
    may do it are on no day here long enough together for all of it ("long"); or they are, but for
    other work ("beside")."""

    task: str
    why: WhyNoDay
    minutes: int


def finds_no_day(made: Made) -> Iterator[NoDay]:
    """Those tasks, the latest start first. Not among them is for what nobody is expected who may do
    it, for they are asked to come; nor what has to follow other work soon or be followed, because
    more than the length of a day decides that."""
    frame, course = made.frame, made.course
    placed = {spell.job for spell in course.spells} | course.finished.keys()
    following = {soon.job for job in frame.jobs for soon in job.soon}
    for number, job in enumerate(frame.jobs):
        ready = ready_at(job, course.finished, course.clear)
        if number in placed or not job.whole or ready is None:
            continue
        if job.soon or job.begin_by is not None or number in following:
            continue
        with_clock = _most_done(made, number, ready, job.before_closing)
        without = _most_done(made, number, ready, 0)
        if without:
            long: WhyNoDay = "clock" if without >= job.need else "long"
            why: WhyNoDay = "beside" if with_clock >= job.need else long
            yield NoDay(job.task.id, why, job.before_closing)


def _most_done(made: Made, number: int, ready: int, before_closing: int) -> int:
    """How much of a job is done at most at one go, were all who may do it on nothing else."""
    frame = made.frame
    sittings = (s for s in frame.ahead.sittings if frame.is_open_to(number, s))
    return max((_done_in(made, number, s, ready, before_closing) for s in sittings), default=0)


def _done_in(made: Made, number: int, sitting: Sitting, ready: int, before_closing: int) -> int:
    frame, job = made.frame, made.frame.jobs[number]
    able, covers = frame.crews.able(number, sitting.day)
    starts, most = frame.ahead.starts, 0
    for first in range(sitting.first, sitting.end):
        if starts[first] < ready:
            continue
        crew = able
        for block in range(first, sitting.end):
            if block > first and after_a_break(starts, block):
                break
            crew &= frame.free[block]
            people = min(crew.bit_count(), job.most)
            in_time = starts[block] + BLOCK <= sitting.closes - before_closing
            if not in_time or people < job.least or not all(cover & crew for cover in covers):
                break
            most = max(most, job.done(people, block + 1 - first))
    return most
