"""The first of the days by its own plan, where a lead took one over: what of it still stands."""

from __future__ import annotations

from bisect import bisect_left, bisect_right

from crewboard.order.day_plan.proposal import Placed
from crewboard.order.day_plan.taken_over import running_plan
from crewboard.order.programme.ahead import BLOCK
from crewboard.order.programme.frame import AsPlanned, CourseFrame, FirstDay, Spell, ready_at
from crewboard.order.programme.jobs import TaskAhead


def with_first_day(frame: CourseFrame) -> CourseFrame:
    """The frame with the plan that was taken over for its first day; as it is where none was."""
    running = running_plan(frame.ahead.days[0].board) if frame.ahead.days else None
    if running is None:
        return frame
    at = frame.ahead.days[0].board.at
    number = {job.task.id: n for n, job in enumerate(frame.jobs)}
    to_come = [p for p in running.placed if p.end > at and p.task in number]
    kept: list[AsPlanned] = []
    for placed in to_come:
        one = _as_it_stands(frame, number[placed.task], placed, kept)
        if one is not None:
            kept.append(one)
    has = {one.spell.job for one in kept}
    planned = {placed.task for placed in running.placed}
    also = frozenset(
        n
        for n, job in enumerate(frame.jobs)
        if n not in has and (job.stay or job.begin_by is not None or job.task.id in planned)
    )
    small = tuple(job for job in running.small if job.end > at)
    otherwise = tuple(placed.task for placed in to_come if number[placed.task] not in has)
    return frame._replace(first=FirstDay(running.at, small, tuple(kept), otherwise, also))


def _as_it_stands(
    frame: CourseFrame, job: int, placed: Placed, kept: list[AsPlanned]
) -> AsPlanned | None:
    """What is left of it, by those who are there; None where it cannot go on as it is placed."""
    of, day, crews = frame.jobs[job], frame.ahead.days[0], frame.crews
    everybody = dict.fromkeys((*of.stay, *placed.people))
    people = tuple(who for who in everybody if who in day.people)
    watch = tuple(who for who in placed.watch if who in people)
    least = len(people) >= of.least and len(watch) == len(placed.watch)
    if not (least and _may(frame, job, people)):
        return None
    for other in kept:
        together = set(people) & set(other.placed.people)
        if together and placed.start < other.placed.end and other.placed.start < placed.end:
            return None
    begins = frame.ahead.minute(max(placed.start, day.board.at))
    begun = day.board[of.task.id].state == "under way"
    if not begun and not _is_open(frame, of, begins, kept):
        return None
    last = max(s.end for s in frame.ahead.sittings if s.day == 0)
    starts = frame.ahead.starts[:last]
    spell = Spell(
        job,
        bisect_right(starts, begins - BLOCK),
        bisect_left(starts, frame.ahead.minute(placed.end)),
        crews.bits(people),
        crews.bits(watch),
    )
    late = not begun and placed.start < day.board.at
    enough = of.done(len(people), spell.end - spell.first) >= of.need
    finishes = enough if late else placed.finishes
    return AsPlanned(spell, placed._replace(people=people, watch=watch, finishes=finishes))


def _may(frame: CourseFrame, job: int, people: tuple[str, ...]) -> bool:
    """Whether they may do it together."""
    crew, (may, covers) = frame.crews.bits(people), frame.crews.able(job, 0)
    beside = frame.crews.beside[0]
    return (
        not crew & ~may
        and all(cover & crew for cover in covers)
        and all(others & crew for who, others in beside.items() if who & crew)
    )


def _is_open(frame: CourseFrame, job: TaskAhead, begins: int, kept: list[AsPlanned]) -> bool:
    """Whether what comes before it is over by then, and no clock of the day keeps it out."""
    finished: dict[int, int] = {}
    clear: dict[int, int] = {}
    for spell, placed in kept:
        if placed.finishes:
            finish = finished[spell.job] = frame.ahead.minute(placed.end)
            clear[spell.job] = frame.clear_of(frame.jobs[spell.job], finish)
    ready = ready_at(job, finished, clear)
    return ready is not None and max(ready, job.not_first_before) <= begins
