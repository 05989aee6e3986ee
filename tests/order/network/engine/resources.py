"""The resource-constrained project: what is to be scheduled, and the schedule.

Pritsker, Watters and Wolfe, "Multiproject scheduling with limited resources", Management Science
16 (1969). Times are whole numbers of one unit; the effort of making a schedule grows with the
number of units, so hours or half hours serve better than minutes.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

WholeLink = tuple[int, int, int]
"""(before, after, lag): `after` starts at the earliest `lag` whole units after `before` ends."""


class Project(NamedTuple):
    """Activities 0 .. n - 1, each done once without a break, on resources that renew.

    `demands[i][r]` of `capacities[r]` is in use while activity i runs. To hold an activity back
    until a time, link it with that lag to an activity of no duration that comes before all others.
    """

    durations: Sequence[int]
    links: Sequence[WholeLink]
    demands: Sequence[Sequence[int]]
    capacities: Sequence[int]


class Schedule(NamedTuple):
    """Start of each activity, the finish of the whole, and what is known about both.

    `bound`: no schedule can finish earlier. `made`: how many schedules were generated to find it.
    """

    starts: tuple[int, ...]
    makespan: int
    bound: int
    made: int

    @property
    def proven(self) -> bool:
        """No schedule is shorter."""
        return self.makespan == self.bound


def objections(project: Project) -> list[str]:
    """What makes a project impossible or unreadable, one sentence each; empty when it is sound."""
    count = len(project.durations)
    faults = [
        f"activity {i}: duration {d} is below 0" for i, d in enumerate(project.durations) if d < 0
    ]
    if len(project.demands) != count:
        faults.append(f"{count} durations but {len(project.demands)} rows of demands")
    for i, row in enumerate(project.demands):
        if len(row) != len(project.capacities):
            faults.append(f"activity {i}: {len(row)} demands, {len(project.capacities)} resources")
        for r, (demand, capacity) in enumerate(zip(row, project.capacities, strict=False)):
            if demand < 0:
                faults.append(f"activity {i}: demand {demand} for resource {r} is below 0")
            elif demand > capacity:
                faults.append(f"activity {i} needs {demand} of resource {r}, there is {capacity}")
    faults += [
        f"link {first} -> {second}: lag {lag} is below 0"
        for first, second, lag in project.links
        if lag < 0
    ]
    return faults
