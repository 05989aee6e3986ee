"""Earliest and latest times where work keeps to a calendar and waiting does not.

Time is a number that runs on through nights and days without work (hours since some moment, say);
work only passes in the shop's hours. What a calendar knows is handed in as two functions, so that
any calendar will do. Lags run in plain time: glue sets on Sunday too. With functions that add and
subtract the plain duration, the results are those of `critical_path`.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from tests.order.network.engine.precedence import Network


class Span(NamedTuple):
    """When an activity begins and when it ends."""

    start: float
    finish: float


class CalendarTimes(NamedTuple):
    """Of each activity the earliest and the latest span; `end` is the finish of the whole."""

    earliest: list[Span]
    latest: list[Span]
    end: float

    @property
    def waiting_room(self) -> list[float]:
        """How much later, in plain time, each activity may end without moving the end."""
        return [late.finish - early.finish for early, late in zip(*self[:2], strict=True)]


def along_calendar(
    net: Network,
    onward: Callable[[int, float], Span],
    back: Callable[[int, float], Span],
    *,
    release: Sequence[float] | float = 0,
    due: float | None = None,
) -> CalendarTimes:
    """Forward and backward pass through a calendar.

    `onward(i, ready)`: the first span in which i can be done, not beginning before `ready`.
    `back(i, latest)`: the last span in which i can be done, not ending after `latest`; both must
    be the later, the later their second argument is. `release`: when each may begin, or all.
    """
    ready = [release] * net.size if isinstance(release, int | float) else list(release)
    begin = min(ready, default=0)
    earliest = [Span(begin, begin)] * net.size
    for activity in net.order:
        span = earliest[activity] = onward(activity, ready[activity])
        for follower, lag in net.after[activity]:
            ready[follower] = max(ready[follower], span.finish + lag)
    end = max((span.finish for span in earliest), default=begin)
    limit = end if due is None else due
    latest = [Span(limit, limit)] * net.size
    for activity in reversed(net.order):
        by = min((latest[j].start - lag for j, lag in net.after[activity]), default=limit)
        latest[activity] = back(activity, min(by, limit))
    return CalendarTimes(earliest, latest, end)
