"""Which jobs do not go on at a time, because of their dangers, and how long after one another."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from typing import NamedTuple

from crewboard.order.may.apart import (
    all_end,
    clocks_between,
    keep_apart,
    must_not_be_near,
    same_place,
)
from crewboard.order.programme.jobs import TaskAhead
from crewboard.plan.hazard import Hazard


class KeptApart(NamedTuple):
    """What must lie between a job and another: minutes after this one's end, minutes before its
    beginning. `all_day`: nothing ends a danger but that the work is finished, so they are not on
    one day."""

    after: int
    before: int
    all_day: bool


def jobs_apart(jobs: Sequence[TaskAhead]) -> dict[int, dict[int, KeptApart]]:
    """TaskAhead -> the others that it is kept apart from, and how."""
    apart: dict[int, dict[int, KeptApart]] = {}
    for one, two in combinations(range(len(jobs)), 2):
        mine, theirs = jobs[one].needs.hazards, jobs[two].needs.hazards
        if not (mine or theirs):
            continue
        beside = same_place(jobs[one].task.place, jobs[two].task.place)
        near = must_not_be_near(mine, theirs, beside)
        after, before = _minutes(mine, theirs, beside), _minutes(theirs, mine, beside)
        if near or after or before:
            all_day = near and not (all_end(mine) and all_end(theirs))
            apart.setdefault(one, {})[two] = KeptApart(after, before, all_day)
            apart.setdefault(two, {})[one] = KeptApart(before, after, all_day)
    return apart


def _minutes(first: Sequence[Hazard], then: Sequence[Hazard], beside: bool) -> int:
    """How long the clocks of the first work keep the other out."""
    return max((minutes for _, minutes in clocks_between(first, then, beside)), default=0)


def kept_from_the_young(job: TaskAhead, sheets: Sequence[Hazard]) -> bool:
    """Whether an under-18 is not to be about on a day on which the job is done."""
    return any(keep_apart(mine, hazard, True) for mine in sheets for hazard in job.needs.hazards)
