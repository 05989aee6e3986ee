"""Random plans: components with parts, work that comes after work on both levels, holds.

`pairs` writes the order out task by task and component by component, as the rule is said in words:
all work of a component and its parts, after all work of what it comes after and its parts. The
program never writes these pairs out; it runs its links through gates. Each component counts as
one piece of work of its own here ("#roof"), so that an empty component still passes the order on.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from hypothesis import strategies as st

from crewboard.order.sequence.links import links
from crewboard.order.sequence.loops import without_loops
from crewboard.plan.component import Component
from crewboard.plan.duration import Duration
from crewboard.plan.hold import Hold
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from crewboard.plan.vehicle import Vehicle

SPANS = (Duration(minutes=90), Duration(minutes=36 * 60), Duration(days=3), Duration(months=1))


@st.composite
def parts_of_a_plan(
    draw: st.DrawFn, most_tasks: int = 10, holds: bool = False
) -> tuple[dict[str, Component], dict[str, Task]]:
    """Components and tasks whose order may well hold loops."""
    components: dict[str, Component] = {}
    for number in range(draw(st.integers(1, 4))):
        main = f"c{number}"
        components[main] = Component(main, main)
        below = [main]
        for part in range(draw(st.integers(0, 2))):
            name = f"{main}/p{part}"
            above = draw(st.sampled_from(below))
            components[name] = Component(name, name, part_of=above)
            below.append(name)
    count = draw(st.integers(1, most_tasks))
    homes = [draw(st.sampled_from(sorted(components))) for _ in range(count)]
    tasks = {f"{home.partition('/')[0]}/t{number}": home for number, home in enumerate(homes)}
    names = [*components, *tasks]
    some = st.lists(st.sampled_from(names), max_size=2, unique=True).map(tuple)
    return (
        {
            c.id: c._replace(after=draw(some)) if draw(st.booleans()) else c
            for c in components.values()
        },
        {
            task_id: Task(
                task_id,
                task_id,
                home,
                after=draw(some),
                during=draw(some) if draw(st.integers(0, 3)) == 0 else (),
                hold=draw(_holds()) if holds and draw(st.booleans()) else None,
            )
            for task_id, home in tasks.items()
        },
    )


def _holds() -> st.SearchStrategy[Hold]:
    return st.builds(
        lambda lasts, look, alone: Hold(
            "glue", lasts, "look" if look or lasts is None else "time", alone
        ),
        st.sampled_from((*SPANS, None)),
        st.booleans(),
        st.booleans(),
    )


def without_its_loops(components: Mapping[str, Component], tasks: Mapping[str, Task]) -> Plan:
    """The plan with each name taken out that would close a loop."""
    standing, _ = without_loops(links(components, tasks))
    kept = {(link.written_in, link.names) for link in standing}

    def named(owner: str, names: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(each for each in names if (owner, each) in kept)

    return plan_of(
        {c.id: c._replace(after=named(c.id, c.after)) for c in components.values()},
        {
            t.id: t._replace(after=named(t.id, t.after), during=named(t.id, t.during))
            for t in tasks.values()
        },
    )


def plan_of(components: Mapping[str, Component], tasks: Mapping[str, Task]) -> Plan:
    return Plan(Vehicle("A vehicle"), components, tasks, {}, {}, {})


def plans(most_tasks: int = 10, holds: bool = False) -> st.SearchStrategy[Plan]:
    """Plans whose order of work holds no loop."""
    return parts_of_a_plan(most_tasks, holds).map(lambda each: without_its_loops(*each))


def inside(components: Mapping[str, Component], of: str) -> set[str]:
    """The component and every part below it, looked up from each part upward."""

    def above(each: str) -> Iterator[str]:
        while each:
            yield each
            each = components[each].part_of

    return {each for each in components if of in above(each)}


def pairs(
    components: Mapping[str, Component], tasks: Mapping[str, Task]
) -> Iterator[tuple[str, str]]:
    """Each (earlier, later), one by one; "#c" is the component c itself."""

    def work_of(named: str) -> list[str]:
        if named in tasks:
            return [named]
        within = inside(components, named)
        return [f"#{c}" for c in within] + [t.id for t in tasks.values() if t.component in within]

    for component in components.values():
        for named in component.after:
            yield from ((e, later) for e in work_of(named) for later in work_of(component.id))
    for task in tasks.values():
        for named in (*task.after, *task.during):
            yield from ((earlier, task.id) for earlier in work_of(named))
