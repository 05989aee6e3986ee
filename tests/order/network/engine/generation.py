"""The two schedule generation schemes, and the orders they read.

Kolisch, "Serial and parallel resource-constrained project scheduling methods revisited", European
Journal of Operational Research 90 (1996). Both give the finish of each activity in the way's own
direction of time, counted from that direction's beginning. Nothing here checks feasibility.
"""

from __future__ import annotations

from bisect import insort
from collections.abc import Sequence
from heapq import heappop, heappush

from tests.order.network.engine.ways import Way


def serial(way: Way, order: Sequence[int]) -> list[int]:
    """One activity after the other, each at its earliest; `order` must respect precedence."""
    durations, demands, before, full = way.durations, way.demands, way.before, way.full
    used = [way.idle] * way.horizon
    finish = [0] * len(durations)
    for activity in order:
        start = 0
        for earlier in before[activity]:
            if finish[earlier] > start:
                start = finish[earlier]
        stop = start + durations[activity]
        need = demands[activity]
        if need:
            # Look from the far end of the window: a full moment there moves the window furthest,
            # and what was found free behind it (from `fresh` back) need not be looked at again.
            fresh = start
            moment = stop - 1
            while moment >= fresh:
                if used[moment] + need & full:
                    fresh = stop
                    start = moment + 1
                    stop = start + durations[activity]
                    moment = stop
                moment -= 1
            for moment in range(start, stop):
                used[moment] += need
        finish[activity] = stop
    return finish


def parallel(way: Way, order: Sequence[int]) -> list[int]:
    """Time goes on; at each moment all that fits is begun, whichever stands first in `order`.

    `order` is a rank only: precedence holds whether or not it respects it.
    """
    durations, demands, after, full = way.durations, way.demands, way.after, way.full
    count = len(durations)
    rank = [0] * count
    for position, activity in enumerate(order):
        rank[activity] = position
    missing = list(map(len, way.before))
    eligible = [position for position, activity in enumerate(order) if not missing[activity]]
    finish = [0] * count
    running: list[int] = []  # finish * count + activity
    used, now = way.idle, 0
    while eligible or running:
        waiting: list[int] = []
        for position in eligible:
            activity = order[position]
            level = used + demands[activity]
            if level & full:
                waiting.append(position)
            else:
                used = level
                finish[activity] = end = now + durations[activity]
                heappush(running, end * count + activity)
        eligible = waiting
        now = running[0] // count
        limit = (now + 1) * count
        while running and running[0] < limit:
            activity = heappop(running) % count
            used -= demands[activity]
            for follower in after[activity]:
                missing[follower] -= 1
                if not missing[follower]:
                    insort(eligible, rank[follower])
    return finish


def latest_first(other: Way, finish: Sequence[int]) -> list[int]:
    """The order that justifies a schedule in the opposite way `other`: what ends last comes first.

    Serial generation in this order never makes the schedule longer (Valls, Ballestin and
    Quintanilla, "Justification and RCPSP: a technique that pays", European Journal of Operational
    Research 165, 2005).
    """
    return sorted(other.ties, key=finish.__getitem__, reverse=True)


def lifted(way: Way, keys: Sequence[float]) -> list[int]:
    """An order that respects precedence, greatest key first, each at least as great as those of
    its followers."""
    lifted_keys = list(keys)
    for activity in reversed(way.ties):
        for follower in way.after[activity]:
            if lifted_keys[follower] > lifted_keys[activity]:
                lifted_keys[activity] = lifted_keys[follower]
    return sorted(way.ties, key=lifted_keys.__getitem__, reverse=True)
