"""Start-to-start lags, least and greatest."""

from __future__ import annotations

from typing import Any

import networkx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.order.network.engine.precedence import Loop
from tests.order.network.engine.time_lags import earliest_starts, latest_starts
from tests.order.network.random_networks import examples

nx: Any = networkx  # the library carries no types

# The first of the public sm_j10 instances with least and greatest time lags (University of
# Technology Clausthal; read). Its published optimum, 26, is the longest path of its lags alone.
FIRST_OF_TEN = [
    (0, 1, 0),
    (0, 2, 0),
    (0, 3, 0),
    (0, 4, 0),
    (1, 7, 1),
    (1, 8, 8),
    (1, 9, 9),
    (1, 10, 2),
    (2, 8, 24),
    (3, 7, 8),
    (3, 10, 4),
    (4, 5, 7),
    (4, 9, 0),
    (4, 10, 0),
    (5, 6, 0),
    (6, 11, 5),
    (7, 11, 10),
    (8, 1, -22),
    (8, 2, -34),
    (8, 11, 2),
    (9, 11, 6),
    (10, 11, 1),
]


def test_the_public_instance_starts_as_published() -> None:
    assert earliest_starts(12, FIRST_OF_TEN) == [0, 2, 0, 0, 0, 7, 7, 8, 24, 11, 4, 26]


def test_latest_starts_keep_every_lag_and_the_end() -> None:
    late = latest_starts(12, FIRST_OF_TEN, [26] * 12)
    assert late[11] == 26
    assert all(late[second] >= late[first] + lag for first, second, lag in FIRST_OF_TEN)
    early = earliest_starts(12, FIRST_OF_TEN)
    assert all(e <= t for e, t in zip(early, late, strict=True))
    assert late[8] == 24 == early[8]  # on the longest path 0, 2, 8, 11


def test_a_greatest_lag_pulls_the_first_activity_towards_the_second() -> None:
    # 1 may start at most 3 after 0, but 2 holds 1 back until 10.
    assert earliest_starts(3, [(0, 1, 1), (1, 0, -3), (2, 1, 10)]) == [7, 10, 0]


def test_lags_that_contradict_each_other_are_named() -> None:
    with pytest.raises(Loop) as raised:
        earliest_starts(4, [(0, 1, 5), (1, 2, 1), (2, 1, -0.5), (3, 0, 1)])
    assert set(raised.value.members) == {1, 2}


@examples(300, 10_000)
@given(
    st.integers(1, 10).flatmap(
        lambda n: st.tuples(
            st.just(n),
            st.lists(
                st.tuples(st.integers(0, n - 1), st.integers(0, n - 1), st.integers(-9, 9)),
                max_size=3 * n,
            ),
        )
    )
)
def test_earliest_starts_are_the_longest_paths_of_networkx(
    plan: tuple[int, list[tuple[int, int, int]]],
) -> None:
    count, lags = plan
    graph: Any = nx.DiGraph()
    graph.add_weighted_edges_from((count, i, 0) for i in range(count))
    for first, second, lag in lags:
        known = graph.get_edge_data(first, second, {"weight": 1000})["weight"]
        graph.add_edge(first, second, weight=min(known, -lag))
    if nx.negative_edge_cycle(graph):
        with pytest.raises(Loop) as raised:
            earliest_starts(count, lags)
        members = raised.value.members
        steps = zip(members, members[1:] + members[:1], strict=True)
        assert sum(graph.edges[step]["weight"] for step in steps) < 0
    else:
        lengths = nx.single_source_bellman_ford_path_length(graph, count)
        assert earliest_starts(count, lags) == [-lengths[i] for i in range(count)]
