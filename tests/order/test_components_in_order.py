"""Components stand in the order of the work, those that nothing puts first as in the files."""

from __future__ import annotations

from crewboard.order.sequence.of_components import components_in_order
from crewboard.plan.component import Component
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from crewboard.plan.vehicle import Vehicle


def plan_of(components: list[Component], tasks: list[Task] | None = None) -> Plan:
    return Plan(
        Vehicle("The market van"),
        crew={},
        supplies={},
        hazards={},
        components={component.id: component for component in components},
        tasks={task.id: task for task in tasks or ()},
    )


def test_a_component_stands_behind_what_it_comes_after_though_its_file_comes_first() -> None:
    plan = plan_of(
        [Component("axle", "Axle", after=("frame",)), Component("frame", "Frame")],
    )
    assert components_in_order(plan) == ["frame", "axle"]


def test_a_task_that_comes_after_another_components_puts_its_component_behind() -> None:
    components = [Component("body", "Body"), Component("floor", "Floor"), Component("wheels", "W")]
    tasks = [
        Task("body/set", "Set the body", "body", after=("floor/lay",)),
        Task("floor/lay", "Lay the floor", "floor"),
    ]
    assert components_in_order(plan_of(components, tasks)) == ["floor", "body", "wheels"]


def test_parts_are_ordered_beside_one_another_and_mains_by_what_their_parts_wait_for() -> None:
    components = [
        Component("doors", "Doors"),
        Component("doors/skin", "Skin", part_of="doors", after=("doors/frame",)),
        Component("doors/frame", "Door frame", part_of="doors", after=("body/posts",)),
        Component("body", "Body"),
        Component("body/posts", "Posts", part_of="body"),
    ]
    order = components_in_order(plan_of(components))
    assert order.index("body") < order.index("doors")
    assert order.index("doors/frame") < order.index("doors/skin")


def test_two_components_that_wait_for_each_other_by_different_tasks_stay_as_in_the_files() -> None:
    components = [Component("a", "A"), Component("b", "B")]
    tasks = [
        Task("a/first", "First", "a"),
        Task("a/last", "Last", "a", after=("b/only",)),
        Task("b/only", "Only", "b", after=("a/first",)),
    ]
    assert components_in_order(plan_of(components, tasks)) == ["a", "b"]
