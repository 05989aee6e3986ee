"""Which jobs of a day must not be near one another, or must wait out a clock of the other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import timedelta
from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.order.day_plan.shop_day import Apart, Job
from crewboard.order.may.apart import (
    all_end,
    clocks_between,
    keep_apart,
    must_not_be_near,
    same_place,
)
from crewboard.order.may.needs import hazards_named
from crewboard.order.safety.signatures import signatures
from crewboard.order.safety.went_on import sheets_of_work
from crewboard.plan.hazard import Hazard
from crewboard.plan.task import Task


class _Bound(NamedTuple):
    """What one job asks of another that comes later: to wait so long, or until it is finished."""

    minutes: int = 0
    must_end: bool = False


def pairs_apart(
    board: Board,
    jobs: Sequence[Job],
    block: timedelta,
    minors: frozenset[str],
    of_minors: Sequence[Hazard],
) -> Iterator[Apart]:
    """Pairs that must not be near one another, or of which one must wait out the other's clock.

    `of_minors` are the sheets that go with every job one of the `minors` is on.
    """
    day_long = timedelta(days=1) // block
    tasks = [board.plan.tasks[job.task] for job in jobs]
    sheets = [_sheets(board, task) for task in tasks]
    for one in range(len(jobs)):
        for two in range(len(jobs)):
            if one == two:
                continue
            beside = same_place(tasks[one].place, tasks[two].place)
            if one < two and not (jobs[one].goes_on and jobs[two].goes_on):
                yield from _both_ways(one, two, sheets[one], sheets[two], beside, block)
            if jobs[one].keeps_jigs and _is_stopped_by(board, tasks[one].id, tasks[two].id):
                yield Apart(one, two, day_long)
                yield Apart(two, one)
            young = minors & jobs[one].able
            if young and any(keep_apart(m, h, beside) for m in of_minors for h in sheets[two]):
                # Whoever is young is about until the work is finished, or they go home.
                yield Apart(one, two, 0, True, young, one)
                yield Apart(two, one, 0, not all_end(sheets[two]), young, one)


def _sheets(board: Board, task: Task) -> list[Hazard]:
    """Of work that was done today also what it was done under: an under-18 was on it."""
    sheets = list(hazards_named(board, task))
    if task.id in signatures(board).worked:
        done_under = sheets_of_work(board, task.id, board.at.date())
        sheets += [sheet for sheet in done_under if sheet not in sheets]
    return sheets


def _is_stopped_by(board: Board, one: str, two: str) -> bool:
    """Whether the hold that ends the one job stops the other, which was begun before its turn."""
    return board[two].state == "under way" and one in board.order.tasks_right_before(two)


def _both_ways(
    one: int,
    two: int,
    mine: Sequence[Hazard],
    theirs: Sequence[Hazard],
    beside: bool,
    block: timedelta,
) -> Iterator[Apart]:
    near = must_not_be_near(mine, theirs, beside)
    bounds = (
        (one, two, _bound(mine, theirs, beside, near)),
        (two, one, _bound(theirs, mine, beside, near)),
    )
    if near or any(bound != _Bound() for _, _, bound in bounds):
        for first, then, bound in bounds:
            gap = -int(-bound.minutes // (block.total_seconds() / 60))
            yield Apart(first, then, gap, bound.must_end)


def _bound(first: Sequence[Hazard], then: Sequence[Hazard], beside: bool, near: bool) -> _Bound:
    """What must pass after the first work before the other may begin."""
    minutes, must_end = 0, near and not (first and all_end(first))
    for clock, lasts in clocks_between(first, then, beside):
        minutes = max(minutes, lasts)
        must_end = must_end or not clock.starts
    return _Bound(minutes, must_end)
