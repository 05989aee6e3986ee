"""The whole plan: the vehicle, its components and tasks, the crew, supplies and hazards."""

from collections.abc import Mapping
from typing import NamedTuple

from crewboard.plan.clock import ShopClock
from crewboard.plan.component import Component
from crewboard.plan.hazard import Hazard
from crewboard.plan.piece import Piece
from crewboard.plan.series import Series
from crewboard.plan.supply import Supply
from crewboard.plan.task import Task
from crewboard.plan.vehicle import Vehicle
from crewboard.plan.volunteer import Volunteer


class Plan(NamedTuple):
    """Everything the plan's files say, names resolved to full ids, in the order of the files.

    Every id in `after`, `during`, `part_of`, `supplies` and `hazards` exists, and the order of
    work holds no loop: what did not fit was left out when the folder was read, and told.
    `longest_clock` is how many minutes a protective clock of the sheets lasts at most, where that
    is known without reading them. A task for each of several pieces stands among `tasks` once for
    each, and as it is written under its own id in `series`. `several` are the pieces of a kind by
    the id of their table. `hazards` are the sheets that tasks name, `sheets` all that there are:
    one that no task names is read when it is first looked at.
    """

    vehicle: Vehicle
    components: Mapping[str, Component]
    tasks: Mapping[str, Task]
    crew: Mapping[str, Volunteer]
    supplies: Mapping[str, Supply]
    hazards: Mapping[str, Hazard]
    clock: ShopClock = ShopClock()
    longest_clock: int | None = None
    pieces: Mapping[str, Piece] = {}
    several: Mapping[str, tuple[str, ...]] = {}
    series: Mapping[str, Series] = {}
    sheets: Mapping[str, Hazard] = {}

    def written(self, task_id: str) -> Task | None:
        """The task as it is written in its file: of a series for all of its pieces."""
        task = self.tasks.get(task_id)
        name = task.series if task else task_id
        return self.series[name].task if name in self.series else task

    def all_written(self) -> dict[str, Task]:
        """Every task as it is written, by its id: one for each of several pieces once."""
        return {
            name: self.series[name].task if name in self.series else self.tasks[name]
            for name in dict.fromkeys(task.series or task.id for task in self.tasks.values())
        }

    def order_ids(self) -> set[str]:
        """What `after` and `during` may name: components, tasks, and tasks for each as written."""
        return {*self.components, *self.tasks, *self.series}

    def tasks_of(self, piece_id: str) -> list[Task]:
        """The tasks that are done to a piece, in the order of the files."""
        return [task for task in self.tasks.values() if piece_id in task.pieces]

    def home_of(self, some_id: str) -> str:
        """The component or part that a task belongs to; a component's own id."""
        task = self.written(some_id)
        return task.component if task else some_id

    def main_of(self, component_id: str) -> Component:
        """The main component at the top of a part's branch."""
        above = self.components[component_id]
        while above.part_of:
            above = self.components[above.part_of]
        return above

    def standard_of(self, component_id: str) -> tuple[str, str]:
        """The standard of finish agreed on for a component or part, and the component that says so:
        its own, else that of what it is part of, else the vehicle's (an empty id)."""
        above = component_id
        while above:
            component = self.components[above]
            if component.standard:
                return component.standard, above
            above = component.part_of
        return self.vehicle.standard, ""

    def with_parts(self, component_id: str) -> set[str]:
        """The component's own id and those of all parts below it."""
        parts: dict[str, list[str]] = {}
        for component in self.components.values():
            parts.setdefault(component.part_of, []).append(component.id)
        ids, ahead = {component_id}, [component_id]
        while ahead:
            below = [part for part in parts.get(ahead.pop(), ()) if part not in ids]
            ids.update(below)
            ahead += below
        return ids
