"""Which work comes before which, task by task and component by component.

A component after another means all of its tasks after all of the other's, parts included. Written
out task by task that would be a link for each pair; instead each component has two gates, one
before its first work and one behind its last, and the links run through them.
"""

from collections.abc import Iterator, Mapping
from typing import Literal, NamedTuple

from crewboard.plan.component import Component
from crewboard.plan.task import Task

# Why a link stands: somebody wrote it (in the after or during of `after_of`), or the tree says so.
Cause = Literal["after", "during", "tree"]


class Link(NamedTuple):
    """`before` comes before `after`: task ids or gates."""

    before: str
    after: str
    cause: Cause = "tree"
    written_in: str = ""  # the task or component whose after or during says so
    names: str = ""  # and the id it names there


def opening(component_id: str) -> str:
    """The gate before the first work on a component."""
    return f">{component_id}"


def closing(component_id: str) -> str:
    """The gate behind the last work on a component."""
    return f"{component_id}>"


def gate_of(node: str) -> str:
    """The component of a gate, or "" for a task."""
    return node.strip(">") if node.startswith(">") or node.endswith(">") else ""


def links(components: Mapping[str, Component], tasks: Mapping[str, Task]) -> Iterator[Link]:
    """All links of the plan. Ids that name nothing are passed over."""

    def end_of(named: str) -> str | None:
        if named in tasks:
            return named
        return closing(named) if named in components else None

    for component in components.values():
        yield Link(opening(component.id), closing(component.id))
        if component.part_of in components:
            yield Link(opening(component.part_of), opening(component.id))
            yield Link(closing(component.id), closing(component.part_of))
        for named in component.after:
            if before := end_of(named):
                yield Link(before, opening(component.id), "after", component.id, named)
    for task in tasks.values():
        yield Link(opening(task.component), task.id)
        yield Link(task.id, closing(task.component))
        for named in task.after:
            if (before := end_of(named)) and named not in task.during:
                yield Link(before, task.id, "after", task.id, named)
        for named in task.during:
            if before := end_of(named):
                yield Link(before, task.id, "during", task.id, named)
