"""The day as numbers: people, blocks of time, and the jobs that may fill them."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import NamedTuple

from crewboard.order.day_plan.grid import Grid
from crewboard.order.day_plan.proposal import Fixed

# Nobody is sent to a job for less than so many blocks, unless that finishes it: getting tools out
# and putting them away takes its time too (common practice, no source).
SHORTEST = 2


# So many can learn beside one who can do it.
LEARN_BESIDE = 2
# What it is worth that somebody learns for a block: little, against the 10 to 100 of work.
LEARNING = 3


class Follows(NamedTuple):
    """To be begun soon after the end of the job `first`, where that is finished before the block
    `later`: what ends from then on can be followed in time on another day.

    `latest`: for each block behind its last, the last one in which it may begin then.
    """

    first: int
    latest: tuple[int, ...]
    later: int


class Job(NamedTuple):
    """One task as the day sees it. Times are blocks from the beginning of the plan.

    `need`: person-blocks to its likely end. `able`: who may be on it. `covers`: of each set one
    must be on it. `by`: the block before which it must end. `after`: numbers of jobs that must be
    finished first. `worth`: of one person-block of it; `bonus`: of finishing it today. `stay`: who
    is on it already, and stays where it goes on. `jigs`: those that it takes; it `has_jigs` where
    they are taken for it already, and `keeps_jigs` for the hold that its finish starts.
    `begin_by`: the last block in which it may begin; `follows`: jobs that it must follow soon.
    `goes_on`: it is under way, and those on it stay until all of it is done, or it must end;
    `begun`: it is under way by the plan that is running, and goes on with those on it.
    So many of those on it `watch` and do no work; `watched`, where they watch on afterwards: for
    each block behind its last, the block until which. `learners` want to learn what it asks for.
    Before it begins somebody has to look at the holds of `looks`. `must`: so many person-blocks of
    it are done before anything else is thought of.
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
    begun: bool = False
    watch: int = 0
    watched: tuple[int, ...] = ()
    learners: frozenset[str] = frozenset()
    looks: tuple[str, ...] = ()
    must: int = 0
    rank: int = 10**6  # its place in what goes first
    late: Mapping[str, int] = {}  # who may be on it only from this block on: till then nobody signs

    @property
    def always(self) -> tuple[str, ...]:
        """Who is on it whoever else is: fixed by the lead, or on it already."""
        fixed = self.fixed.people if self.fixed is not None else ()
        return tuple(dict.fromkeys((*fixed, *self.stay)))

    def longest(self, people: int) -> int:
        """Blocks until so many people have done all of it."""
        return -(-self.need // max(1, people - self.watch))

    def done(self, slot: Slot | None) -> int:
        """The person-blocks of work in that slot: whoever watches does not work."""
        return max(0, len(slot.people) - self.watch) * slot.length if slot is not None else 0

    def is_finished(self, slot: Slot | None) -> bool:
        """Whether its likely hours are done in that slot."""
        return self.done(slot) >= self.need

    def shortest(self, people: int) -> int:
        """The fewest blocks for which it is worth beginning, or going on."""
        if self.begun:
            return 1
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
    of them the jobs can have, those that some have already counted. `hours`: the first block and
    the block behind the last of those who are not here all day.
    """

    grid: Grid
    closes: datetime
    people: tuple[str, ...]
    beside: Mapping[str, frozenset[str]]
    jobs: tuple[Job, ...]
    apart: tuple[Apart, ...]
    room: Mapping[str, int] = {}
    jigs: Mapping[str, int] = {}
    hours: Mapping[str, tuple[int, int]] = {}
    minors: frozenset[str] = frozenset()

    @property
    def blocks(self) -> int:
        return self.grid.blocks

    def at(self, block: int) -> datetime:
        """When the block begins."""
        return self.grid.starts[block] if block < self.blocks else self.closes

    def until(self, block: int) -> datetime:
        """When the blocks before it are over."""
        return self.grid.ends[block - 1] if block else self.at(0)

    def here(self, who: str) -> tuple[int, int]:
        """From which block to before which the person is here."""
        return self.hours.get(who, (0, self.blocks))

    def may_from(self, job: Job, who: str) -> tuple[int, int]:
        """From which block to before which the person is here and may be on the job."""
        first, last = self.here(who)
        return max(first, job.late.get(who, 0)), last

    def busy_until(self, slot: Slot, who: str) -> int:
        """Until which block somebody of the slot is taken by it: a watcher watches on."""
        watched = self.jobs[slot.job].watched
        return watched[slot.end] if watched and who in slot.watch else slot.end

    def may_be_cut(self, job: Job) -> bool:
        """Whether a break may lie within it: not in what is done in one go, unless that is under
        way already and cannot choose its time any more."""
        return not job.whole or job.goes_on or job.begun


class Slot(NamedTuple):
    """A job's place in the day: people, first block, block behind its last; who of them watches."""

    job: int
    people: tuple[str, ...]
    start: int
    end: int
    watch: tuple[str, ...] = ()

    @property
    def length(self) -> int:
        return self.end - self.start
