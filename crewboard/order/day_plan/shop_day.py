"""The day as numbers: people, blocks of time, and the jobs that may fill them."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import NamedTuple

from crewboard.order.day_plan.wish import Fixed

# Nobody is sent to a job for less than so many blocks, unless that finishes it: getting tools out
# and putting them away takes its time too (common practice, no source).
SHORTEST = 2


class Job(NamedTuple):
    """One task as the day sees it. Times are blocks from the beginning of the plan.

    `need`: person-blocks to its likely end. `able`: who may be on it. `covers`: of each set one
    must be on it. `by`: the block before which it must end. `after`: numbers of jobs that must be
    finished first. `worth`: of one person-block of it; `bonus`: of finishing it today.
    """

    task: str
    need: int
    least: int
    most: int
    able: frozenset[str]
    covers: tuple[frozenset[str], ...]
    place: str
    since: int
    by: int
    after: tuple[int, ...]
    worth: int
    bonus: int
    fixed: Fixed | None = None
    fixed_start: int | None = None

    def longest(self, people: int) -> int:
        """Blocks until so many people have done all of it."""
        return -(-self.need // people)

    def shortest(self, people: int) -> int:
        """The fewest blocks for which it is worth beginning."""
        return min(SHORTEST, self.longest(people))


class Apart(NamedTuple):
    """Two jobs that may not overlap; `gap` blocks must lie between the end of `first` and the
    beginning of `then`, where that comes later."""

    first: int
    then: int
    gap: int = 0


class ShopDay(NamedTuple):
    """Everything a plan is made from. `beside`: who needs one of whom on the same job."""

    opens: datetime
    closes: datetime
    block: timedelta
    blocks: int
    people: tuple[str, ...]
    beside: dict[str, frozenset[str]]
    jobs: tuple[Job, ...]
    apart: tuple[Apart, ...]

    def at(self, block: int) -> datetime:
        return self.opens + block * self.block
