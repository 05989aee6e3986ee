"""Why a task that can be worked on found no place in the day."""

from __future__ import annotations

from collections.abc import Sequence

from crewboard.order.board import Board
from crewboard.order.day_plan.following import followers
from crewboard.order.day_plan.shop_day import Job, ShopDay, Slot
from crewboard.order.holds.words import outside_in_words
from crewboard.order.may.day import PeopleOfTheDay
from crewboard.order.may.short import in_short
from crewboard.order.said import how_many, listed
from crewboard.order.within import followed_by


def why_not_placed(board: Board, day: ShopDay, number: int, slots: Sequence[Slot]) -> str:
    """The first reason that holds, in the crew's words."""
    job = day.jobs[number]
    return (
        _people(board, day, job)
        or _air(board, job)
        or _time(day, job)
        or _soon(board, day, number)
        or _jigs(board, day, number, slots)
        or _others(board, day, number, slots)
        or "everybody who could do it is needed for what goes first"
    )


def _people(board: Board, day: ShopDay, job: Job) -> str:
    task, crew = board.plan.tasks[job.task], board.plan.crew
    asking = PeopleOfTheDay(board, day.people)
    against = asking.against_task(task) + asking.against_people(task)
    if day.people and against:
        return "; ".join(dict.fromkeys(in_short(board, obstacle) for obstacle in against))
    if len(job.able) < job.least or not all(job.covers):
        may = f"{len(job.able)} of those here may do it" if job.able else "nobody here may do it"
        return f"it needs {how_many(job.least, 'person')}: {may}"
    if job.stay and not set(job.stay) <= set(day.people):
        names = listed(crew[who].name for who in job.stay)
        return f"{names} {'is' if len(job.stay) == 1 else 'are'} on it already"
    if job.fixed is not None:
        away = [who for who in job.fixed.people if who not in job.able]
        if away:
            return f"{crew[away[0]].name} is not here or may not do it"
        if len(job.fixed.people) > job.most:
            return f"there is room for {how_many(job.most, 'person')}"
    return ""


def _air(board: Board, job: Job) -> str:
    air = board.rules.air.outside(board.plan.tasks[job.task].conditions, board.at)
    return outside_in_words(air, board.plan.vehicle.units) if air is not None else ""


def _time(day: ShopDay, job: Job) -> str:
    if not day.blocks:
        return "the shop closes before anything could be begun"
    if job.by <= 0:
        return "it could not end early enough for its fire watch or other clock before closing"
    if job.since >= job.by:
        return "a clock of earlier work runs too long today"
    if job.whole and job.longest(max(1, min(job.most, len(job.able)))) > job.by - job.since:
        return "it must not be left half done, and the day is too short for all of it"
    return ""


def _soon(board: Board, day: ShopDay, number: int) -> str:
    """What has to follow soon, and cannot; or had to be begun by some time."""
    job, tasks = day.jobs[number], board.plan.tasks
    behind = {day.jobs[then].task for then in followers(day).get(number, ())}
    for task, span in followed_by(board.plan, job.task):
        if not job.may_finish or task.id in behind:
            return f'"{tasks[task.id].title}" has to be begun within {span} after it'
    if job.begin_by is not None:
        return f"it has to be begun by {day.at(job.begin_by):%H:%M}"
    return ""


def _jigs(board: Board, day: ShopDay, number: int, slots: Sequence[Slot]) -> str:
    """A jig that others have, those that are on the board and those of the plan."""
    job, placed = day.jobs[number], {slot.job: slot for slot in slots}
    for jig in job.jigs if not job.has_jigs else ():
        with_it = [n for n, other in enumerate(day.jobs) if jig in other.jigs and n != number]
        having = [n for n in with_it if n in placed or day.jobs[n].has_jigs]
        if len(having) >= day.jigs[jig]:
            by = listed(f'"{board.plan.tasks[day.jobs[n].task].title}"' for n in having)
            return f"{board.plan.vehicle.jigs[jig].name}: taken" + (f" by {by}" if by else "")
    return ""


def _others(board: Board, day: ShopDay, number: int, slots: Sequence[Slot]) -> str:
    job = day.jobs[number]
    placed = {slot.job: slot for slot in slots}
    for earlier in job.after:
        slot = placed.get(earlier)
        title = board.plan.tasks[day.jobs[earlier].task].title
        if slot is None or len(slot.people) * slot.length < day.jobs[earlier].need:
            return f'it waits for "{title}", which is not finished today'
    for slot in slots:
        other = day.jobs[slot.job]
        there = sum(day.jobs[s.job].place == job.place for s in slots)
        full = job.place and other.place == job.place and there >= day.room.get(job.place, 1)
        if full and slot.length * 2 >= day.blocks:
            return f'the {job.place} is in use for "{board.plan.tasks[other.task].title}"'
    near = {a.first for a in day.apart if a.then == number}
    for slot in slots:
        if slot.job in near and slot.length * 2 >= day.blocks:
            title = board.plan.tasks[day.jobs[slot.job].task].title
            return f'it must not be near "{title}"'
    return ""
