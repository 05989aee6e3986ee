"""Whether a schedule keeps to its project, checked from the project alone.

Shares nothing with the code that makes schedules: it adds up what is in use at each start, where
the generators keep a profile of packed integers.
"""

from __future__ import annotations

from collections.abc import Sequence

from tests.order.network.engine.resources import Project


def violations(project: Project, starts: Sequence[int]) -> list[str]:
    """What is wrong with these starts, one sentence each; empty when nothing is."""
    if len(starts) != len(project.durations):
        return [f"{len(starts)} starts for {len(project.durations)} activities"]
    return (
        [f"activity {i} starts at {t}, before 0" for i, t in enumerate(starts) if t < 0]
        + _links_broken(project, starts)
        + _capacities_exceeded(project, starts)
    )


def _links_broken(project: Project, starts: Sequence[int]) -> list[str]:
    broken = []
    for first, second, lag in project.links:
        earliest = starts[first] + project.durations[first] + lag
        if starts[second] < earliest:
            broken.append(
                f"activity {second} starts at {starts[second]}; "
                f"{first} and its lag end at {earliest}"
            )
    return broken


def _capacities_exceeded(project: Project, starts: Sequence[int]) -> list[str]:
    """Use only rises at starts, so looking at the starts is looking at all times."""
    exceeded = []
    for now in sorted(set(starts)):
        running = [
            i
            for i, (start, duration) in enumerate(zip(starts, project.durations, strict=True))
            if start <= now < start + duration
        ]
        for r, capacity in enumerate(project.capacities):
            used = sum(project.demands[i][r] for i in running)
            if used > capacity:
                exceeded.append(f"at {now}: {used} of resource {r} in use, there is {capacity}")
    return exceeded


def makespan(project: Project, starts: Sequence[int]) -> int:
    """When the last activity ends."""
    return max((s + d for s, d in zip(starts, project.durations, strict=True)), default=0)
