"""Start-to-start time lags, least and greatest: earliest and latest starts.

A lag d on (i, j) asks start(j) >= start(i) + d. A negative lag the other way round is a greatest
lag: (j, i, -7) asks that j starts at most 7 after i. Such lags may run in circles; only a circle
whose lags add up to more than 0 has no answer. Notation: Bartusch, Moehring and Radermacher,
"Scheduling project networks with resource constraints and time windows", Annals of Operations
Research 16 (1988).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from tests.order.network.engine.precedence import Loop

StartLag = tuple[int, int, float]


def earliest_starts(
    count: int, lags: Iterable[StartLag], release: Sequence[float] | None = None
) -> list[float]:
    """Earliest starts under start-to-start lags over activities 0 .. count - 1.

    Longest paths by label correcting (Bellman and Ford). Raises Loop, naming the circle, when the
    lags contradict each other.
    """
    start: list[float] = [0] * count if release is None else list(release)
    cause = [-1] * count
    arcs = list(lags)
    for _ in range(count + 1):
        moved = -1
        for first, second, lag in arcs:
            reach = start[first] + lag
            if reach > start[second]:
                start[second] = reach
                cause[second] = first
                moved = second
        if moved < 0:
            return start
    raise Loop(_circle(cause, moved))


def latest_starts(count: int, lags: Iterable[StartLag], latest: Sequence[float]) -> list[float]:
    """Latest starts under start-to-start lags when activity i must start by `latest[i]`."""
    turned = ((second, first, lag) for first, second, lag in lags)
    return [-t for t in earliest_starts(count, turned, [-t for t in latest])]


def _circle(cause: Sequence[int], moved: int) -> list[int]:
    here = moved
    for _ in cause:  # far enough back to stand on the circle itself
        here = cause[here]
    members = [here]
    while (step := cause[members[-1]]) != here:
        members.append(step)
    return members[::-1]
