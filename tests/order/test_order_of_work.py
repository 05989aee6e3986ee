"""The order of work agrees with networkx, task by task, on random plans.

networkx is handed the order written out pair by pair (`random_plans.pairs`), which shares no code
with the program's gates.
"""

from __future__ import annotations

from typing import Any

import networkx
import pytest
from hypothesis import given

from crewboard.order.sequence.graph import OrderOfWork
from crewboard.order.sequence.links import Link, links
from crewboard.order.sequence.loops import find_loop, without_loops, written_steps
from crewboard.plan.component import Component
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from tests.long_form import cases
from tests.order.random_plans import pairs, parts_of_a_plan, plan_of, plans

nx: Any = networkx  # the library carries no types
Parts = tuple[dict[str, Component], dict[str, Task]]


def graph_of(plan: Plan) -> Any:
    graph = nx.DiGraph()
    graph.add_nodes_from(plan.tasks)
    graph.add_edges_from(pairs(plan.components, plan.tasks))
    return graph


@cases(250, 6000)
@given(parts_of_a_plan())
def test_a_loop_is_found_exactly_where_networkx_finds_one(parts: Parts) -> None:
    graph = graph_of(plan_of(*parts))
    assert bool(find_loop(links(*parts))) is not nx.is_directed_acyclic_graph(graph)


@cases(250, 6000)
@given(parts_of_a_plan())
def test_a_loop_is_named_whole_and_can_be_mended(parts: Parts) -> None:
    all_links = list(links(*parts))
    standing, loops = without_loops(all_links)
    for loop in loops:
        assert all(any(step is each for each in all_links) for step in loop)
        for step, onward in zip(loop, [*loop[1:], loop[0]], strict=True):
            assert step.after == onward.before
        assert len({step.before for step in loop}) == len(loop), "nothing is named twice"
        assert written_steps(loop), "a loop that nobody wrote could not be mended"
        assert not any(loop[-1] is each for each in standing), "it is cut at its last step"
    assert nx.is_directed_acyclic_graph(nx.DiGraph([(e.before, e.after) for e in standing]))
    assert len(all_links) - len(standing) == len(loops), "no more is cut than there are loops"


@cases(200, 5000)
@given(plans())
def test_what_comes_before_and_behind_is_what_networkx_says(plan: Plan) -> None:
    order, graph = OrderOfWork(plan), graph_of(plan)
    for task in plan.tasks:
        assert order.all_before(task) == nx.ancestors(graph, task) & set(plan.tasks)
        assert order.all_behind(task) == nx.descendants(graph, task) & set(plan.tasks)


@cases(200, 5000)
@given(plans())
def test_the_sequence_is_a_topological_order(plan: Plan) -> None:
    order = OrderOfWork(plan)
    assert len(set(order.sequence)) == len(order.sequence) == len(order.before)
    place = {node: number for number, node in enumerate(order.sequence)}
    assert all(place[a] < place[b] for a, b in graph_of(plan).edges if "#" not in a + b)
    gated = nx.DiGraph([(b, node) for node, before in order.before.items() for b in before])
    assert all(place[a] < place[b] for a, b in gated.edges)


@cases(200, 5000)
@given(plans())
def test_next_before_means_with_nothing_but_components_between(plan: Plan) -> None:
    order, graph = OrderOfWork(plan), graph_of(plan)
    for task in plan.tasks:
        near: set[str] = set()
        ahead = [task]
        while ahead:
            for earlier in graph.predecessors(ahead.pop()):
                if earlier.startswith("#"):
                    ahead.append(earlier)
                else:
                    near.add(earlier)
        assert set(order.tasks_right_before(task)) == near
    for task in plan.tasks:
        behind = {t for t in plan.tasks if task in order.tasks_right_before(t)}
        assert set(order.tasks_right_behind(task)) == behind


def test_a_loop_through_a_part_names_the_tree_between_its_steps() -> None:
    components = {
        "roof": Component("roof", "Roof", after=("deck",)),
        "roof/arches": Component("roof/arches", "Arches", part_of="roof"),
        "deck": Component("deck", "Deck", after=("roof/arches",)),
    }
    loop = find_loop(links(components, {}))
    named = [(step.written_in, step.names) for step in written_steps(loop)]
    assert sorted(named) == [("deck", "roof/arches"), ("roof", "deck")]


@pytest.mark.parametrize("names", [("deck",), ("deck/lay",)])
def test_a_task_that_comes_after_itself_or_its_own_component_is_a_loop(
    names: tuple[str, ...],
) -> None:
    task = Task("deck/lay", "Lay", "deck", after=names)
    assert find_loop(links({"deck": Component("deck", "Deck")}, {task.id: task}))


def test_a_chain_of_ten_thousand_tasks_is_no_trouble() -> None:
    count = 10_000
    tasks = {
        f"c/t{n}": Task(f"c/t{n}", f"Step {n}", "c", after=(f"c/t{n - 1}",) if n else ())
        for n in range(count)
    }
    order = OrderOfWork(plan_of({"c": Component("c", "C")}, tasks))
    assert len(order.all_before(f"c/t{count - 1}")) == count - 1
    back = Link(f"c/t{count - 1}", "c/t0", "after", "c/t0", f"c/t{count - 1}")
    assert len(find_loop([*links({}, tasks), back])) == count
