"""The programme of the next work days, by a plain rule: what must begin soonest first."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import NamedTuple

from crewboard.order.ahead.calendar_path import CalendarPath, calendar_path
from crewboard.order.board import Board
from crewboard.order.day_plan.proposal import Placed, SmallJob
from crewboard.order.programme.ahead import BLOCK, work_days_ahead
from crewboard.order.programme.apart import jobs_apart
from crewboard.order.programme.crews import Crews
from crewboard.order.programme.frame import (
    CourseFrame,
    CourseOfWork,
    FirstDay,
    Spell,
    frame_of,
)
from crewboard.order.programme.jobs import jobs_ahead
from crewboard.order.programme.serial import course_of
from crewboard.order.programme.taken_over import with_first_day
from crewboard.order.programme.worth import CourseScale, Worth
from crewboard.plan.workdays import Opening

USUAL_DAYS, MOST_DAYS = 6, 12
_UNTIL_SAID = 10**9  # minutes: a jig that work which is not gone on with has


class TurnAtWork(NamedTuple):
    """People on a task on a day, for so many `hours` of work. `finishes`: its likely hours are
    done by then; `goes_on`: it was begun before. `sets_until`: when the hold that its finish starts
    is over, None where it starts none or nobody can say; `look`: somebody has to look then. Of the
    people `watch`, who come last, only watch, till `watched_until` where that goes on after the
    work."""

    task: str
    people: tuple[str, ...]
    start: datetime
    end: datetime
    finishes: bool
    goes_on: bool
    hours: float
    sets: bool = False
    sets_until: datetime | None = None
    look: bool = False
    watch: tuple[str, ...] = ()
    watched_until: datetime | None = None


class DayOfWork(NamedTuple):
    """What would be done on a work day. `people` are here or expected, `said` those of them who are
    here or say that they come, `idle` those for whom there is nothing. `planned_at`: when its own
    plan was taken over, which it then follows, with the `small` jobs of that; `otherwise` are the
    tasks that cannot go on as that has them any more."""

    date: date
    openings: tuple[Opening, ...]
    people: tuple[str, ...]
    said: tuple[str, ...]
    turns: tuple[TurnAtWork, ...]
    idle: tuple[str, ...]
    planned_at: datetime | None = None
    small: tuple[SmallJob, ...] = ()
    otherwise: tuple[str, ...] = ()


class Programme(NamedTuple):
    """`days` in order; `worth` of it, see `worth.py`. It decides nothing: the lead does, and the
    checks are signed first."""

    days: tuple[DayOfWork, ...]
    worth: Worth


class Made(NamedTuple):
    """A programme with what it was made from."""

    programme: Programme
    frame: CourseFrame
    course: CourseOfWork


def programme(board: Board, days: int = USUAL_DAYS) -> Programme:
    """What would be done on the next `days` work days: a function of the board alone."""
    return make(board, days).programme


def make(board: Board, days: int = USUAL_DAYS) -> Made:
    """The same, with what it was made from. Days beyond `MOST_DAYS` are left out."""
    path = calendar_path(board)
    frame = frame_ahead(board, path, min(days, MOST_DAYS))
    scale = CourseScale(board, frame, path.time)
    in_turn = range(len(frame.jobs))
    courses = [course_of(frame, in_turn, many_hands) for many_hands in (False, True)]
    best = min(courses, key=scale.of)
    told = Programme(tuple(_days(board, frame, best)), scale.of(best))
    return Made(told, frame, best)


def frame_ahead(board: Board, path: CalendarPath, days: int) -> CourseFrame:
    """All that courses of these days are made from."""
    ahead = work_days_ahead(board, days)
    jobs = jobs_ahead(board, path, ahead)
    here = [job.task.id for job in jobs]
    taken = [
        (jig, path.held_until(task) or _UNTIL_SAID)
        for jig, by in board.readiness.taken.items()
        for task in by
        if task not in here
    ]
    frame = frame_of(
        ahead,
        jobs,
        Crews(ahead, jobs),
        jobs_apart(jobs),
        {jig: of.number for jig, of in board.plan.vehicle.jigs.items()},
        tuple(taken),
        path.lengths,
        path.time.open_from(ahead.ends),
    )
    return with_first_day(frame)


def _days(board: Board, frame: CourseFrame, course: CourseOfWork) -> list[DayOfWork]:
    found = []
    for number, day in enumerate(frame.ahead.days):
        blocks = [s for s in frame.ahead.sittings if s.day == number]
        first, end = blocks[0].first, blocks[-1].end
        own = frame.first if number == 0 and frame.first is not None else FirstDay()
        kept = {one.spell.job: one.placed for one in own.kept}
        turns = [_as_placed(board, frame, job, placed) for job, placed in kept.items()]
        on_day = [s for s in course.spells if first <= s.first < end and s.job not in kept]
        turns += [_turn(board, frame, course, spell) for spell in on_day]
        turns.sort(key=lambda turn: turn.start)
        busy = {who for turn in turns for who in turn.people}
        busy.update(who for job in own.small for who in job.people)
        idle = tuple(who for who in day.people if who not in busy)
        told = DayOfWork(day.date, day.openings, day.people, day.said, tuple(turns), idle)
        found.append(told._replace(planned_at=own.at, small=own.small, otherwise=own.otherwise))
    return found


def _as_placed(board: Board, frame: CourseFrame, number: int, placed: Placed) -> TurnAtWork:
    """A turn as the day's own plan has it, with its own times."""
    job, breaks = frame.jobs[number], board.plan.vehicle.shop.breaks
    day = placed.start.date()
    pauses = [(datetime.combine(day, b.begins), datetime.combine(day, b.ends)) for b in breaks]
    idle = (min(placed.end, ends) - max(placed.start, begins) for begins, ends in pauses)
    worked = placed.end - placed.start - sum((max(timedelta(), i) for i in idle), timedelta())
    hold = job.hold if placed.finishes else None
    watched = timedelta(minutes=job.before_closing) if placed.watch else timedelta()
    return TurnAtWork(
        placed.task,
        (*(who for who in placed.people if who not in placed.watch), *placed.watch),
        placed.start,
        placed.end,
        placed.finishes,
        board[placed.task].state == "under way",
        worked / timedelta(hours=1),
        hold is not None,
        board.plan.clock.add(placed.end, hold.lasts) if hold and hold.lasts else None,
        hold is not None and job.look,
        placed.watch,
        placed.end + watched if watched else None,
    )


def _turn(board: Board, frame: CourseFrame, course: CourseOfWork, spell: Spell) -> TurnAtWork:
    ahead, job = frame.ahead, frame.jobs[spell.job]
    end = ahead.starts[spell.end - 1] + BLOCK
    finishes = course.finished.get(spell.job) == end
    earlier = any(s.job == spell.job and s.first < spell.first for s in course.spells)
    until = None
    if finishes and job.hold is not None and job.hold.lasts is not None:
        until = board.plan.clock.add(ahead.moment(end), job.hold.lasts)
    people = [w for w in board.plan.crew if frame.crews.bit.get(w, 0) & spell.crew]
    watch = tuple(w for w in people if frame.crews.bit[w] & spell.watch)
    watched = timedelta(minutes=job.before_closing) if watch else timedelta()
    return TurnAtWork(
        job.task.id,
        (*(who for who in people if who not in watch), *watch),
        ahead.moment(ahead.starts[spell.first]),
        ahead.moment(end),
        finishes,
        earlier or board[job.task.id].state == "under way",
        (spell.end - spell.first) * BLOCK / 60,
        finishes and job.hold is not None,
        until,
        finishes and job.look,
        watch,
        ahead.moment(end) + watched if watched else None,
    )
