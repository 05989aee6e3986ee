"""Slots of a day as the plan that the crew reads."""

from __future__ import annotations

from collections.abc import Sequence

from crewboard.order.board import Board
from crewboard.order.day_plan.first_of_all import why_not_first
from crewboard.order.day_plan.proposal import By, DayPlan, Placed, SmallJob
from crewboard.order.day_plan.reasons import not_placed
from crewboard.order.day_plan.shop_day import ShopDay, Slot
from crewboard.order.day_plan.small_jobs import small_jobs
from crewboard.order.day_plan.worth import worth
from crewboard.plan.hazard import CAUTION


def as_plan(
    board: Board,
    day: ShopDay,
    slots: Sequence[Slot],
    bound: int,
    by: By,
    remarks: Sequence[str],
    running: Sequence[Placed] = (),
    running_small: Sequence[SmallJob] = (),
) -> DayPlan:
    """By the hour, with what found no place and why, and what is left to do for the others."""
    began = {placed.task: placed for placed in running}
    placed = [
        _placed(day, slot, began.get(day.jobs[slot.job].task))
        for slot in sorted(slots, key=lambda s: (s.start, s.job))
    ]
    small = small_jobs(board, day, slots, running_small)
    busy = {who for slot in slots for who in slot.people} | {w for s in small for w in s.people}
    waits = why_not_first(board, day, slots)
    said = [*remarks, *_about_people(day), *([waits] if waits else [])]
    if any(board.plan.tasks[placing.task].hazards for placing in placed):
        said.append(CAUTION)
    value = worth(day, slots)
    return DayPlan(
        day.at(0),
        day.closes,
        day.people,
        tuple(placed),
        tuple(not_placed(board, day, slots)),
        tuple(who for who in day.people if who not in busy),
        by,
        value,
        max(bound, value),
        tuple(said),
        small,
        tuple(each for each in day.grid.pauses if day.at(0) < each.end and each.start < day.closes),
        {who: (day.at(first), day.until(last)) for who, (first, last) in day.hours.items()},
    )


def _placed(day: ShopDay, slot: Slot, before: Placed | None) -> Placed:
    """What was begun by the running plan began when that says."""
    job = day.jobs[slot.job]
    start = day.at(slot.start)
    if before is not None and (job.begun or job.goes_on):
        start = min(start, before.start)
    until = max(day.busy_until(slot, who) for who in slot.people)
    return Placed(
        job.task,
        slot.people,
        start,
        day.until(slot.end),
        job.is_finished(slot),
        slot.watch,
        day.at(until) if until > slot.end else None,
        tuple(who for who in slot.people if who in job.learners),
        job.looks,
    )


def _about_people(day: ShopDay) -> list[str]:
    sentences = []
    if not day.people:
        sentences.append(
            "Nobody is here or expected: sign people in, or say who is to be planned for."
        )
    alone = [who for who, companions in day.beside.items() if not companions]
    if alone:
        sentences.append("Somebody is here who needs another beside them, and that person is not.")
    return sentences
