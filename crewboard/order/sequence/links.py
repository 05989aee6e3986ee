"""Which work comes before which, task by task and component by component.

A component after another means all of its tasks after all of the other's, parts included. Written
out task by task that would be a link for each pair; instead each component has two gates, one
before its first work and one behind its last, and the links run through them.
"""

from collections.abc import Iterator, Mapping
from functools import cache
from typing import Literal, NamedTuple

from crewboard.plan.component import Component
from crewboard.plan.series import Series
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


def quorum(series_id: str, enough: int) -> str:
    """The gate behind a series of which so many are enough."""
    return f"{enough}>{closing(series_id)}"


def enough_of(node: str) -> int | None:
    """How many are enough at a gate that says so itself."""
    number, mark, rest = node.partition(">")
    return int(number) if mark and rest and number.isdecimal() else None


def gate_of(node: str) -> str:
    """The component or series of a gate, or "" for a task."""
    if node.startswith(">"):
        return node[1:]
    return node[:-1].rpartition(">")[2] if node.endswith(">") else ""


def links(
    components: Mapping[str, Component],
    tasks: Mapping[str, Task],
    series: Mapping[str, Series] = {},
) -> Iterator[Link]:
    """All links of the plan. Ids that name nothing are passed over.

    A series has a closing gate too. What comes after it waits for all of its tasks, or for as many
    as it says are enough; but a task for one piece waits only for the same piece's task of a series
    before it, where that one is done to the piece.
    """

    @cache
    def share(one: str, other: str) -> bool:
        return series[one].shares_pieces_with(series.get(other))

    def ends_of(named: str, task: Task) -> Iterator[str]:
        if named in tasks:
            yield named
        elif named in components:
            yield closing(named)
        elif named in series:
            own = series[named].of_pieces(task.pieces, share(named, task.series))
            if named in task.enough:
                yield quorum(named, task.enough[named])
            else:
                yield from (closing(named),) if own is None else own

    def end_of(named: str) -> str | None:
        if named in tasks:
            return named
        return closing(named) if named in components or named in series else None

    quorums: dict[str, str] = {}

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
        yield Link(task.id, closing(task.series or task.component))
        written_in = task.series or task.id
        after = (named for named in task.after if named not in task.during)
        for named in (*after, *task.during):
            cause: Cause = "during" if named in task.during else "after"
            for end in ends_of(named, task):
                yield Link(end, task.id, cause, written_in, named)
                if enough_of(end) is not None:
                    quorums[end] = named
    for one in series.values():
        yield Link(closing(one.id), closing(one.task.component))
    for gate, named in quorums.items():
        yield from (Link(member, gate) for member in series[named].members.values())
