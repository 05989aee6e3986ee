"""A project made ready for fast schedule generation, read forwards and backwards.

Two things make the generators quick. A lag becomes an activity that needs no resource, so they
know plain precedence only. And all resources share one integer: each has a field one bit wider
than its capacity, filled up to just below that bit when all is in use, so that one addition and
one mask tell whether a demand fits on every resource at once (Lamport, "Multiple byte processing
with full-word instructions", Communications of the ACM 18, 1975).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from tests.order.network.engine.precedence import network
from tests.order.network.engine.resources import Project, objections


class Way(NamedTuple):
    """The project in one direction of time; activities are numbered in an order of work.

    `(used + demands[i]) & full` is 0 when i fits beside what is `used`; nothing used is `idle`.
    `loads[i]`: the sum of the shares of the capacities that i needs. `tails[i]`: time from the
    start of i to the end along the longest path. `ties`: the numbers in the order that settles
    equal keys of the *other* direction's schedules. `horizon`: no schedule needs more time.
    """

    durations: tuple[int, ...]
    demands: tuple[int, ...]
    loads: tuple[float, ...]
    before: tuple[tuple[int, ...], ...]
    after: tuple[tuple[int, ...], ...]
    tails: tuple[int, ...]
    ties: tuple[int, ...]
    idle: int
    full: int
    horizon: int


class Ways(NamedTuple):
    """Both directions; activity i of the project is number `place[i]` in either."""

    forwards: Way
    backwards: Way
    place: tuple[int, ...]
    bound: int


def both_ways(project: Project) -> Ways:
    """Make a project ready. Raises ValueError when it is not sound, Loop when links run round."""
    if wrong := objections(project):
        raise ValueError("; ".join(wrong))
    durations, links = _lags_as_activities(project)
    net = network(len(durations), [(first, second, 0) for first, second in links])
    place = {activity: number for number, activity in enumerate(net.order)}
    after = tuple(_numbers(place, net.after[i]) for i in net.order)
    before = tuple(_numbers(place, net.before[i]) for i in net.order)
    time = tuple(durations[i] for i in net.order)
    none = (0,) * len(project.capacities)
    rows = [project.demands[i] if i < len(project.demands) else none for i in net.order]
    packed, idle, full = _packed(rows, project.capacities)
    numbers = tuple(range(len(time)))
    forwards = Way(
        time,
        tuple(need if d else 0 for need, d in zip(packed, time, strict=True)),
        tuple(_load(row, project.capacities) for row in rows),
        before,
        after,
        _tails(time, after, reversed(numbers)),
        numbers,
        idle,
        full,
        sum(time) + 1,
    )
    backwards = forwards._replace(
        before=after, after=before, tails=_tails(time, before, numbers), ties=numbers[::-1]
    )
    bound = max(forwards.tails, default=0)
    for r, capacity in enumerate(project.capacities):
        work = sum(d * row[r] for d, row in zip(time, rows, strict=True))
        if work:
            bound = max(bound, -(-work // capacity))
    return Ways(forwards, backwards, tuple(place[i] for i in range(len(project.durations))), bound)


def _lags_as_activities(project: Project) -> tuple[list[int], list[tuple[int, int]]]:
    durations = list(project.durations)
    links: list[tuple[int, int]] = []
    for first, second, lag in project.links:
        if lag:
            links += [(first, len(durations)), (len(durations), second)]
            durations.append(lag)
        else:
            links.append((first, second))
    return durations, links


def _numbers(place: dict[int, int], neighbours: Iterable[tuple[int, float]]) -> tuple[int, ...]:
    return tuple(sorted({place[neighbour] for neighbour, _ in neighbours}))


def _packed(rows: Sequence[Sequence[int]], capacities: Sequence[int]) -> tuple[list[int], int, int]:
    """Each row in one integer; the integer of nothing used; the mask of too much used."""
    needs = [0] * len(rows)
    idle = full = shift = 0
    for r, capacity in enumerate(capacities):
        bits = capacity.bit_length()
        idle |= ((1 << bits) - 1 - capacity) << shift
        full |= 1 << (shift + bits)
        for i, row in enumerate(rows):
            needs[i] |= row[r] << shift
        shift += bits + 1
    return needs, idle, full


def _load(row: Sequence[int], capacities: Sequence[int]) -> float:
    return sum(need / capacity for need, capacity in zip(row, capacities, strict=True) if need)


def _tails(
    time: Sequence[int], followers: Sequence[Sequence[int]], last_first: Iterable[int]
) -> tuple[int, ...]:
    tail = list(time)
    for i in last_first:
        tail[i] += max((tail[j] for j in followers[i]), default=0)
    return tuple(tail)
