"""The day as numbers: people, blocks of time, and the jobs that may fill them."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, timedelta
from typing import NamedTuple

from crewboard.order.day_plan.proposal import Fixed

# Nobody is sent to a job for less than so many blocks, unless that finishes it: getting tools out
# and putting them away takes its time too (common practice, no source).
SHORTEST = 2


class Follows(NamedTuple):
    """To be begun at most so many blocks after the end of the job `first`, where that is finished
    before the block `later`: what ends from then on can be followed in time on another day."""

    first: int
    within: int
    later: int


class Job(NamedTuple):
    """One task as the day sees it. Times are blocks from the beginning of the plan.

    `need`: person-blocks to its likely end. `able`: who may be on it. `covers`: of each set one
    must be on it. `by`: the block before which it must end. `after`: numbers of jobs that must be
    finished first. `worth`: of one person-block of it; `bonus`: of finishing it today. `stay`: who
    is on it already, and stays where it goes on. `jigs`: those that it takes; it `has_jigs` where
    they are taken for it already, and `keeps_jigs` for the hold that its finish starts.
    `begin_by`: the last block in which it may begin; `follows`: jobs that it must follow soon.
    `goes_on`: it is under way, and those on it stay until all of it is done, or it must end.
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
    stay: tuple[str, ...] = ()
    whole: bool = False  # begun only where all of it is done
    jigs: tuple[str, ...] = ()
    has_jigs: bool = False
    keeps_jigs: bool = False
    begin_by: int | None = None
    follows: tuple[Follows, ...] = ()
    goes_on: bool = False
    may_finish: bool = True  # False: what must follow it soon could not, so it must not be finished

    @property
    def always(self) -> tuple[str, ...]:
        """Who is on it whoever else is: fixed by the lead, or on it already."""
        fixed = self.fixed.people if self.fixed is not None else ()
        return tuple(dict.fromkeys((*fixed, *self.stay)))

    def longest(self, people: int) -> int:
        """Blocks until so many people have done all of it."""
        return -(-self.need // people)

    def shortest(self, people: int) -> int:
        """The fewest blocks for which it is worth beginning."""
        if self.goes_on and (not self.whole or people == len(self.stay)):
            return min(self.longest(people), self.by)  # whoever joins it is asked whether it fits
        return self.longest(people) if self.whole else min(SHORTEST, self.longest(people))


class Apart(NamedTuple):
    """Two jobs that may not overlap. Where `then` comes later, `gap` blocks must lie between, and
    with `must_end` the work of `first` must be finished: nothing else ends its danger.

    With `people` the rule counts only while one of them is on the job `on`.
    """

    first: int
    then: int
    gap: int = 0
    must_end: bool = False
    people: frozenset[str] = frozenset()
    on: int = -1


class ShopDay(NamedTuple):
    """Everything a plan is made from. `beside`: who needs one of whom on the same job. `room`:
    place -> how many jobs can go on there at a time, where that is not one. `jigs`: jig -> how many
    of them the jobs can have, those that some have already counted.
    """

    opens: datetime
    closes: datetime
    block: timedelta
    blocks: int
    people: tuple[str, ...]
    beside: dict[str, frozenset[str]]
    jobs: tuple[Job, ...]
    apart: tuple[Apart, ...]
    room: Mapping[str, int] = {}
    jigs: Mapping[str, int] = {}

    def at(self, block: int) -> datetime:
        return self.opens + block * self.block


class Slot(NamedTuple):
    """A job's place in the day: people, first block, block behind its last."""

    job: int
    people: tuple[str, ...]
    start: int
    end: int

    @property
    def length(self) -> int:
        return self.end - self.start
