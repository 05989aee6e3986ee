"""Random networks and projects for the property checks; more of them with CREWBOARD_LONG=1."""

from __future__ import annotations

import os

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st

from tests.order.network.engine.precedence import Link
from tests.order.network.engine.resources import Project

LONG = os.environ.get("CREWBOARD_LONG") == "1"


def examples(short: int, long: int) -> settings:
    return settings(
        max_examples=long if LONG else short,
        deadline=None,
        suppress_health_check=[HealthCheck.too_slow],
    )


Plain = tuple[list[int], list[Link]]


@st.composite
def acyclic(draw: st.DrawFn, most: int = 30, lags: bool = True) -> Plain:
    """Durations and finish-to-start links, activities in any numbering."""
    count = draw(st.integers(1, most))
    durations = draw(st.lists(st.integers(0, 9), min_size=count, max_size=count))
    numbering = draw(st.permutations(range(count)))
    pairs = st.tuples(st.integers(0, count - 1), st.integers(0, count - 1))
    found = {
        (numbering[min(pair)], numbering[max(pair)])
        for pair in draw(st.lists(pairs, max_size=3 * count))
        if pair[0] != pair[1]
    }
    lag = st.integers(0, 5) if lags else st.just(0)
    return durations, [(first, second, draw(lag)) for first, second in sorted(found)]


@st.composite
def projects(draw: st.DrawFn, most: int = 12) -> Project:
    durations, links = draw(acyclic(most=most))
    capacities = draw(st.lists(st.integers(1, 9), max_size=3))
    demands = [[draw(st.integers(0, c)) for c in capacities] for _ in durations]
    return Project(durations, [(a, b, int(lag)) for a, b, lag in links], demands, capacities)
