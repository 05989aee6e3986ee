"""The critical path method: earliest and latest times, float, and what decides the finish.

Kelley and Walker, "Critical-path planning and scheduling", Proceedings of the Eastern Joint
Computer Conference 1959. Terms as in the field: total float is how long an activity may wait
without moving the finish, free float how long without moving any other activity.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from tests.order.network.engine.precedence import Link, Network, network

TOLERANCE = 1e-9
"""Floats smaller than this (times the length) count as none: sums of decimals are not exact."""


class EarlyAndLate(NamedTuple):
    """Times of each activity, in the unit of the durations, from the start of the whole at 0."""

    net: Network
    durations: Sequence[float]
    earliest_start: list[float]
    latest_start: list[float]
    length: float
    due: float

    @property
    def earliest_finish(self) -> list[float]:
        return [t + d for t, d in zip(self.earliest_start, self.durations, strict=True)]

    @property
    def latest_finish(self) -> list[float]:
        return [t + d for t, d in zip(self.latest_start, self.durations, strict=True)]

    @property
    def total_float(self) -> list[float]:
        """Latest less earliest start; negative where a due time cannot be met."""
        return [
            late - early for late, early in zip(self.latest_start, self.earliest_start, strict=True)
        ]

    @property
    def free_float(self) -> list[float]:
        """Least earliest start of a follower, less the lag, less the own earliest finish."""
        early = self.earliest_start
        return [
            min((early[follower] - lag for follower, lag in followers), default=self.length)
            - early[activity]
            - self.durations[activity]
            for activity, followers in enumerate(self.net.after)
        ]

    @property
    def critical(self) -> list[int]:
        """The activities with the least total float, in an order of work."""
        spare = self.total_float
        least = min(spare, default=0) + TOLERANCE * max(1.0, abs(self.length))
        return [activity for activity in self.net.order if spare[activity] <= least]

    @property
    def path(self) -> list[int]:
        """One longest path from a start to the finish (of several, the first in order of work)."""
        if not self.net.size:
            return []
        finish = self.earliest_finish
        here = max(self.net.order, key=finish.__getitem__)
        path = [here]
        while self.net.before[here]:
            lead, before = max(
                (finish[before] + lag, -before) for before, lag in self.net.before[here]
            )
            if lead < self.earliest_start[here] - TOLERANCE * max(1.0, abs(self.length)):
                break  # it waits for its own release, not for another activity
            here = -before
            path.append(here)
        return path[::-1]


def critical_path(
    durations: Sequence[float],
    links: Network | Iterable[Link],
    *,
    release: Sequence[float] | None = None,
    due: float | None = None,
) -> EarlyAndLate:
    """Forward and backward pass.

    `links`: (before, after, lag), or a Network already made of them. `release`: no activity starts
    before its own. `due`: the latest times count from here instead of from the earliest finish.
    Raises Loop when the links run in a circle.
    """
    net = links if isinstance(links, Network) else network(len(durations), links)
    early = forward(net, durations, release)
    length = max((t + d for t, d in zip(early, durations, strict=True)), default=0)
    end = length if due is None else due
    return EarlyAndLate(net, durations, early, backward(net, durations, end), length, end)


def forward(
    net: Network, durations: Sequence[float], release: Sequence[float] | None = None
) -> list[float]:
    """Earliest starts."""
    start: list[float] = [0] * net.size if release is None else list(release)
    after = net.after
    for activity in net.order:
        finish = start[activity] + durations[activity]
        for follower, lag in after[activity]:
            ready = finish + lag
            if ready > start[follower]:
                start[follower] = ready
    return start


def backward(net: Network, durations: Sequence[float], end: float) -> list[float]:
    """Latest starts for a finish at `end`."""
    start: list[float] = [end] * net.size
    after = net.after
    for activity in reversed(net.order):
        finish = end
        for follower, lag in after[activity]:
            latest = start[follower] - lag
            if latest < finish:
                finish = latest
        start[activity] = finish - durations[activity]
    return start
