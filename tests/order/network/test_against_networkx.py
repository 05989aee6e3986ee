"""Longest paths, floats, critical sets and loops agree with networkx on random networks."""

from __future__ import annotations

from random import Random
from time import process_time
from typing import Any

import networkx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.order.network.engine.critical_path import critical_path
from tests.order.network.engine.precedence import Loop, longest_tail, network
from tests.order.network.random_networks import Plain, acyclic, examples

nx: Any = networkx  # the library carries no types


def as_graph(durations: list[int], links: list[tuple[int, int, float]]) -> Any:
    """Each activity an edge from its own start to its own finish; "in" and "out" around them."""
    graph: Any = nx.DiGraph()
    for i, duration in enumerate(durations):
        graph.add_edge(("start", i), ("finish", i), weight=duration)
        graph.add_edge("in", ("start", i), weight=0)
        graph.add_edge(("finish", i), "out", weight=0)
    for first, second, lag in links:
        graph.add_edge(("finish", first), ("start", second), weight=lag)
    return graph


def longest(graph: Any, source: object) -> dict[object, float]:
    """Longest distances from one node: shortest ones of the negated weights."""
    negated = nx.DiGraph()
    negated.add_weighted_edges_from((u, v, -w) for u, v, w in graph.edges(data="weight"))
    found = nx.single_source_bellman_ford_path_length(negated, source)
    return {node: -distance for node, distance in found.items()}


@examples(400, 8_000)
@given(acyclic())
def test_times_floats_and_critical_sets_are_those_of_networkx(plan: Plain) -> None:
    durations, links = plan
    graph = as_graph(durations, links)
    heads, tails = longest(graph, "in"), longest(graph.reverse(), "out")
    length = nx.dag_longest_path_length(graph)
    found = critical_path(durations, links)
    spare = [length - heads["start", i] - tails["start", i] for i in range(len(durations))]
    assert found.length == length
    assert found.earliest_start == [heads["start", i] for i in range(len(durations))]
    assert found.latest_start == [length - tails["start", i] for i in range(len(durations))]
    assert found.total_float == spare
    assert set(found.critical) == {i for i, room in enumerate(spare) if room == 0}
    assert longest_tail(network(len(durations), links), durations) == [
        tails["start", i] for i in range(len(durations))
    ]


@examples(200, 5_000)
@given(acyclic())
def test_free_float_is_how_long_one_may_wait_alone(plan: Plain) -> None:
    """By its meaning: longer by the free float moves no other activity, by one more moves one."""
    durations, links = plan
    found = critical_path(durations, links)
    for i, room in enumerate(found.free_float):
        assert room >= 0
        for more, moves in ((room, False), (room + 1, True)):
            longer = [d + more * (j == i) for j, d in enumerate(durations)]
            then = critical_path(longer, links)
            others_move = then.earliest_start != found.earliest_start
            assert (others_move or then.length > found.length) == moves


@examples(200, 5_000)
@given(acyclic())
def test_the_path_is_a_chain_of_links_as_long_as_the_whole(plan: Plain) -> None:
    durations, links = plan
    found = critical_path(durations, links)
    lags = {(first, second): lag for first, second, lag in links}
    steps = [lags[pair] for pair in zip(found.path, found.path[1:], strict=False)]
    assert sum(steps) + sum(durations[i] for i in found.path) == found.length
    assert set(found.path) <= set(found.critical)


@examples(200, 5_000)
@given(
    st.integers(1, 12).flatmap(
        lambda n: st.tuples(
            st.just(n),
            st.lists(st.tuples(st.integers(0, n - 1), st.integers(0, n - 1)), max_size=2 * n),
        )
    )
)
def test_a_loop_is_named_when_and_only_when_there_is_one(
    plan: tuple[int, list[tuple[int, int]]],
) -> None:
    count, pairs = plan
    graph = nx.DiGraph(pairs)
    links = [(first, second, 0.0) for first, second in pairs]
    if nx.is_directed_acyclic_graph(graph):
        order = network(count, links).order
        place = {activity: at for at, activity in enumerate(order)}
        assert sorted(order) == list(range(count))
        assert all(place[first] < place[second] for first, second in pairs)
        return
    with pytest.raises(Loop) as raised:
        network(count, links)
    members = raised.value.members
    assert len(set(members)) == len(members)
    assert all(
        graph.has_edge(*step) for step in zip(members, members[1:] + members[:1], strict=True)
    )


def test_a_link_to_nowhere_is_refused() -> None:
    with pytest.raises(IndexError, match="there are 2 activities"):
        network(2, [(0, 2, 0)])


def test_an_empty_network_has_no_length_and_no_path() -> None:
    found = critical_path([], [])
    assert (found.length, found.path, found.critical) == (0, [], [])


def test_a_delivery_holds_back_its_activity_and_the_path_begins_there() -> None:
    found = critical_path([5, 2, 3], [(0, 1, 0), (1, 2, 0)], release=[0, 9, 0])
    assert found.earliest_start == [0, 9, 11]
    assert found.path == [1, 2]
    assert found.total_float == [4, 0, 0]


def test_a_due_time_that_cannot_be_met_shows_as_negative_float() -> None:
    found = critical_path([5, 2], [(0, 1, 0)], due=6)
    assert found.total_float == [-1, -1]
    assert found.critical == [0, 1]


def test_both_passes_over_5000_activities_take_a_few_milliseconds() -> None:
    """Measured: 2 ms on a quiet machine; networkx takes 11 ms for the longest path alone."""
    chance = Random(1)
    links = [(chance.randrange(max(0, j - 50), j), j, 0.0) for j in range(1, 5_000) for _ in "ab"]
    durations = [chance.randint(1, 9) for _ in range(5_000)]
    net = network(5_000, links)
    taken = []
    for _ in range(5):
        began = process_time()
        critical_path(durations, net)
        taken.append(process_time() - began)
    assert min(taken) < 0.01
