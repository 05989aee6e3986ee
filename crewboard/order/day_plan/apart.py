"""Which jobs of a day may not be near one another, or must wait out a clock of the other."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import timedelta

from crewboard.order.board import Board
from crewboard.order.day_plan.shop_day import Apart, Job
from crewboard.plan.hazard import Hazard, minutes_of
from crewboard.plan.task import Task


def hazards_named(board: Board, task: Task) -> list[Hazard]:
    return [h for each in task.hazards if (h := board.plan.hazards.get(each)) is not None]


def pairs_apart(board: Board, jobs: Sequence[Job], block: timedelta) -> Iterable[Apart]:
    """Pairs that may not be near one another, or of which one must wait out the other's clock."""
    tasks = [board.plan.tasks[job.task] for job in jobs]
    sheets = [hazards_named(board, task) for task in tasks]
    for one in range(len(jobs)):
        for two in range(one + 1, len(jobs)):
            same = (
                not tasks[one].place or not tasks[two].place or tasks[one].place == tasks[two].place
            )
            wait = _wait(sheets[one], sheets[two], same), _wait(sheets[two], sheets[one], same)
            if _near(sheets[one], sheets[two], same) or any(wait):
                for first, then, minutes in ((one, two, wait[0]), (two, one, wait[1])):
                    gap = -int(-minutes // (block.total_seconds() / 60))
                    yield Apart(first, then, gap)


def _near(one: Sequence[Hazard], two: Sequence[Hazard], same_place: bool) -> bool:
    """Whether two jobs must be kept from being under way together."""
    return any(
        other.id in sheet.not_near and (sheet.near == "shop" or same_place)
        for mine, theirs in ((one, two), (two, one))
        for sheet in mine
        for other in theirs
    )


def _wait(first: Sequence[Hazard], then: Sequence[Hazard], same_place: bool) -> int:
    """Minutes that must pass after the first work before the other may begin."""
    named = {other for hazard in then for other in hazard.not_after}
    return max(
        [
            minutes_of(rule)
            for hazard in first
            for clock in hazard.clocks
            if (hazard.id in named or (clock.guards == "entry" and same_place))
            and (rule := hazard.ruling(clock)) is not None
        ],
        default=0,
    )
