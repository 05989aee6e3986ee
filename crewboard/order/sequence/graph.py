"""The order of work as a graph without loops, ready to be walked both ways."""

from __future__ import annotations

from collections import deque
from collections.abc import Container, Iterable, Iterator, Mapping

from crewboard.order.sequence.links import closing, enough_of, links, quorum
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task


class OrderOfWork:
    """Tasks and gates, what is right before and right behind each, and one order that fits.

    `before`, `behind`: node -> nodes next to it. `sequence`: every node after all that come
    before it. `during`: task -> the tasks before it whose hold need not be over, and the closing
    gates of the components and series it names, whose own holds need not be over either. `enough`:
    gate of a series -> of how many of its tasks it is passed. `place`: where each task stands in
    the files.
    """

    __slots__ = ("before", "behind", "during", "enough", "place", "sequence", "tasks")

    def __init__(self, plan: Plan) -> None:
        self.tasks = plan.tasks
        before: dict[str, dict[str, None]] = {task_id: {} for task_id in plan.tasks}
        behind: dict[str, dict[str, None]] = {task_id: {} for task_id in plan.tasks}
        for link in links(plan.components, plan.tasks, plan.series):
            before.setdefault(link.after, {})[link.before] = None
            before.setdefault(link.before, {})
            behind.setdefault(link.before, {})[link.after] = None
            behind.setdefault(link.after, {})
        self.before: Mapping[str, tuple[str, ...]] = {n: tuple(b) for n, b in before.items()}
        self.behind: Mapping[str, tuple[str, ...]] = {n: tuple(b) for n, b in behind.items()}
        self.during: Mapping[str, frozenset[str]] = {
            task.id: frozenset(self._tasks_of(task, plan))
            for task in plan.tasks.values()
            if task.during
        }
        self.enough: Mapping[str, int] = {
            **{closing(series.id): series.places for series in plan.series.values()},
            **{node: many for node in before if (many := enough_of(node)) is not None},
        }
        self.place = {task_id: number for number, task_id in enumerate(plan.tasks)}
        self.sequence = tuple(self._in_order())

    def _tasks_of(self, task: Task, plan: Plan) -> Iterator[str]:
        for name in task.during:
            if name in plan.tasks:
                yield name
            elif name in plan.series:
                yield closing(name)
                if name in task.enough:
                    yield quorum(name, task.enough[name])
                yield from plan.series[name].members.values()
            else:
                parts = plan.with_parts(name)
                yield from map(closing, parts)
                yield from (t.id for t in plan.tasks.values() if t.component in parts)

    def _in_order(self) -> Iterator[str]:
        missing = {node: len(before) for node, before in self.before.items()}
        free = deque(node for node, count in missing.items() if not count)
        while free:
            node = free.popleft()
            yield node
            for follower in self.behind[node]:
                missing[follower] -= 1
                if not missing[follower]:
                    free.append(follower)

    def right_before(self, node: str, shut: Container[str] = ()) -> list[str]:
        """The tasks next before a task or gate, and the gates through which they are seen, or
        which are not seen through (`shut`)."""
        return self._nearest(node, self.before, shut)

    def tasks_right_before(self, node: str) -> list[str]:
        """The tasks next before a task or gate, seen through gates."""
        return [near for near in self._nearest(node, self.before) if near in self.tasks]

    def tasks_right_behind(self, node: str) -> list[str]:
        """The tasks next behind a task or gate, seen through gates."""
        return [near for near in self._nearest(node, self.behind) if near in self.tasks]

    def all_before(self, task_id: str) -> set[str]:
        """Every task that has to be finished before this one can begin."""
        return self._reach(task_id, self.before)

    def all_behind(self, task_id: str) -> set[str]:
        """Every task that cannot begin before this one is finished."""
        return self._reach(task_id, self.behind)

    def with_work_before(self) -> set[str]:
        """The nodes before which any task stands."""
        return self._beyond(self.sequence, self.before)

    def with_work_behind(self) -> set[str]:
        """The nodes behind which any task stands."""
        return self._beyond(reversed(self.sequence), self.behind)

    def _beyond(self, nodes: Iterable[str], side: Mapping[str, tuple[str, ...]]) -> set[str]:
        beyond: set[str] = set()
        for node in nodes:
            if any(near in self.tasks or near in beyond for near in side[node]):
                beyond.add(node)
        return beyond

    def _nearest(
        self, node: str, side: Mapping[str, tuple[str, ...]], shut: Container[str] = ()
    ) -> list[str]:
        near: dict[str, None] = {}
        ahead = list(reversed(side[node]))
        while ahead:
            near_by = ahead.pop()
            if near_by not in near:
                near[near_by] = None
                if near_by not in self.tasks and near_by not in shut:  # a gate
                    ahead.extend(reversed(side[near_by]))
        return list(near)

    def _reach(self, node: str, side: Mapping[str, tuple[str, ...]]) -> set[str]:
        seen: set[str] = set()
        ahead = [node]
        while ahead:
            for next_to in side[ahead.pop()]:
                if next_to not in seen:
                    seen.add(next_to)
                    ahead.append(next_to)
        return {name for name in seen if name in self.tasks}
