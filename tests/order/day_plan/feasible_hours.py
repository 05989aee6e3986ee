"""Does a plan for the day keep breaks, everybody's own hours, and the watch over dangers?"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta

from crewboard.order.board import Board
from crewboard.order.day_plan.proposal import DayPlan, Placed
from crewboard.order.presence import expected_on
from crewboard.plan.hazard import Hazard, minutes_of


def sheets(board: Board, task_id: str) -> list[Hazard]:
    hazards = board.plan.hazards
    return [hazards[h] for h in board.plan.tasks[task_id].hazards if h in hazards]


def _pauses(board: Board) -> list[tuple[datetime, datetime]]:
    day = board.at.date()
    return [
        (datetime.combine(day, each.begins), datetime.combine(day, each.ends))
        for each in board.plan.vehicle.shop.breaks
    ]


def worked(board: Board, each: Placed, since: datetime | None = None) -> timedelta:
    """How long is worked in it, breaks left out."""
    start = max(each.start, since or each.start)
    in_breaks = (min(each.end, end) - max(start, begin) for begin, end in _pauses(board))
    return each.end - start - sum((max(timedelta(), t) for t in in_breaks), timedelta())


def breaks(board: Board, plan: DayPlan) -> Iterator[str]:
    """Nothing begins or ends in a break, and what is done in one go lies over none."""
    for each in plan.placed:
        task = board.plan.tasks[each.task]
        closing = any(c.guards == "closing" for h in sheets(board, each.task) for c in h.clocks)
        whole = (task.in_one_go or closing) and board[each.task].state != "under way"
        for begin, end in _pauses(board):
            if begin <= each.start < end or begin < each.end <= end:
                yield f"{each.task} begins or ends in the break at {begin:%H:%M}"
            if whole and each.start < end and begin < each.end:
                yield f"{each.task} is in one go, and lies over the break at {begin:%H:%M}"
    for job in plan.small:
        if any(begin <= job.start < end or begin < job.end <= end for begin, end in _pauses(board)):
            yield f"{job.what} begins or ends in a break"


def here(board: Board, plan: DayPlan) -> Iterator[str]:
    """Nobody is on anything before they come, or once they have left."""
    present = {visit.who for visit in board.present}
    taken = [(e.people, e.start, e.end, e.task) for e in plan.placed]
    taken += [(s.people, s.start, s.end, s.what) for s in plan.small]
    taken += [(e.watch, e.end, e.watched_until, e.task) for e in plan.placed if e.watched_until]
    for who, said in expected_on(board.logbook, board.at.date()).items():
        for people, start, end, what in taken:
            if who in people and said.leaves and end.time() > said.leaves:
                yield f"{who} is on {what} and has left"
            if (
                who in people
                and said.arrives
                and who not in present
                and start.time() < said.arrives
            ):
                yield f"{who} is on {what} and has not come"


def small(board: Board, plan: DayPlan) -> Iterator[str]:
    """Small jobs are on the crew's list, for people with nothing else to do meanwhile."""
    for job in plan.small:
        if job.what not in board.plan.vehicle.shop.small_jobs:
            yield f"{job.what} is on no list"
        for who in job.people:
            volunteer = board.plan.crew[who]
            for each in plan.placed:
                until = (each.watched_until if who in each.watch else None) or each.end
                if who in each.people and each.start < job.end and job.start < until:
                    yield f"{who} is on {each.task} and on {job.what}"
            others = [o for o in plan.people if o != who]
            need = volunteer.needs_beside
            if need and not any(o == need or need in board.plan.crew[o].skills for o in others):
                yield f"{who} is on {job.what} without {need} beside"
            young = [board.plan.hazards[h] for h in board.plan.hazards if h == "young"]
            for each in plan.placed if volunteer.minor_on(board.at.date()) else ():
                near = {h.id for h in sheets(board, each.task)} & {
                    n for y in young for n in y.not_near
                }
                if near and each.start < job.end and job.start < each.end:
                    yield f"{who} is on {job.what} near {each.task}"
    for one in plan.small:
        for two in plan.small:
            at_once = one.start < two.end and two.start < one.end
            if one is not two and at_once and set(one.people) & set(two.people):
                yield f"somebody is on {one.what} and {two.what}"


def watch(board: Board, plan: DayPlan) -> Iterator[str]:
    """Each kind of watch has its watcher, of age, who stays as long as it is watched."""
    day = board.at.date()
    for each in plan.placed:
        watched = [hazard for hazard in sheets(board, each.task) if hazard.watch]
        kinds = {hazard.watch for hazard in watched}
        if len(each.watch) != len(kinds) or not set(each.watch) <= set(each.people):
            yield f"{each.task}: {len(each.watch)} watch, {len(kinds)} should"
        if any(board.plan.crew[who].minor_on(day) for who in each.watch):
            yield f"{each.task}: an under-18 watches"
        for hazard in watched:
            for clock in hazard.clocks:
                rule = hazard.ruling(clock)
                if clock.guards != "closing" or rule is None:
                    continue
                over = each.end + timedelta(minutes=minutes_of(rule))
                if each.watched_until is None or each.watched_until < over:
                    yield f"{each.task} is not watched until {over:%H:%M}"
                for other in plan.placed:
                    busy = set(other.people) & set(each.watch)
                    if other is not each and busy and each.end <= other.start < over:
                        yield f"{other.task} takes the watcher of {each.task} away"
