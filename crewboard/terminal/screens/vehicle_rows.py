"""The vehicle as rows: main components, their parts and tasks, as far as they are opened."""

from __future__ import annotations

from collections.abc import Container, Iterator
from typing import NamedTuple

from crewboard.order.board import Board, Standing, State
from crewboard.order.said import day_and_time, listed
from crewboard.plan.component import Component
from crewboard.telling.row import Row
from crewboard.telling.tones import STATE_TONE
from crewboard.terminal.widgets.rows import Column

COLUMNS = (
    Column(10),
    Column(),
    Column(9, right=True, tone="faint"),
    Column(8, right=True, tone="faint"),
)
DEEPEST = 8  # levels beyond which a branch is no longer set in further

# A component is in the first of these states that any of its unfinished tasks is in.
_LOUDEST: tuple[State, ...] = ("under way", "ready", "held", "waiting", "set aside")


class Sum(NamedTuple):
    """A component with all its parts: tasks done, tasks in all, hours logged, its state."""

    done: int
    of: int
    hours: float
    state: State


class Tree:
    """The vehicle's tree at one moment, summed up once."""

    def __init__(self, board: Board) -> None:
        self.board = board
        self.parts: dict[str, list[Component]] = {}
        for component in board.plan.components.values():
            self.parts.setdefault(component.part_of, []).append(component)
        self.tasks: dict[str, list[Standing]] = {}
        for standing in board.standings.values():
            self.tasks.setdefault(standing.task.component, []).append(standing)
        self.sums: dict[str, Sum] = {}
        for component in reversed(list(self._from_the_top())):
            self.sums[component.id] = self._summed(component)

    def _from_the_top(self) -> Iterator[Component]:
        ahead = list(self.parts.get("", ()))
        while ahead:
            component = ahead.pop()
            yield component
            ahead += self.parts.get(component.id, ())

    def _summed(self, component: Component) -> Sum:
        own = self.tasks.get(component.id, [])
        below = [self.sums[part.id] for part in self.parts.get(component.id, ())]
        states = {s.state for s in own} | {s.state for s in below if s.of}
        counted = [s for s in own if s.state != "set aside"]
        return Sum(
            sum(s.work_done for s in counted) + sum(s.done for s in below),
            len(counted) + sum(s.of for s in below),
            sum(s.hours for s in own) + sum(s.hours for s in below),
            next((state for state in _LOUDEST if state in states), "finished"),
        )

    def rows(self, opened: Container[str], *, plain: bool = False) -> list[Row]:
        """The main components, and what lies in the opened branches."""
        rows: list[Row] = []
        ahead = [(component, 0) for component in reversed(self.parts.get("", []))]
        while ahead:
            component, depth = ahead.pop()
            rows.append(self._component_row(component, depth, component.id in opened, plain))
            if component.id in opened:
                rows += [self._task_row(s, depth + 1) for s in self.tasks.get(component.id, ())]
                parts = self.parts.get(component.id, [])
                ahead += [(part, depth + 1) for part in reversed(parts)]
        return rows

    def all_tasks(self) -> list[Row]:
        """Every task on its own, to be found wherever it is."""
        components = self.board.plan.components
        return [
            self._task_row(s, 0)._replace(find=f"{s.task.id} {components[s.task.component].name}")
            for s in self.board.standings.values()
        ]

    def _component_row(self, component: Component, depth: int, opened: bool, plain: bool) -> Row:
        summed = self.sums[component.id]
        empty = component.id not in self.tasks and component.id not in self.parts
        signs = ("-", "+") if plain else ("▾", "▸")
        sign = " " if empty else signs[0] if opened else signs[1]
        name = f"{'  ' * min(depth, DEEPEST)}{sign} {component.name}"
        done = f"{summed.done} of {summed.of}" if summed.of else "no tasks"
        state = summed.state if summed.of else ""
        tone = STATE_TONE[summed.state]
        return Row(
            component.id, (state, name, done, _hours(summed.hours)), tone, body_tone="strong"
        )

    def _task_row(self, standing: Standing, depth: int) -> Row:
        name = f"{'  ' * min(depth, DEEPEST)}  {standing.task.title}"
        estimate = standing.task.estimate
        planned = f"of {estimate.likely:g} h" if estimate else ""
        cells = (standing.state, name, _hours(standing.hours), planned)
        return Row(standing.task.id, cells, STATE_TONE[standing.state])


def _hours(hours: float) -> str:
    return f"{hours:.10g} h" if hours else ""


def comes_after(board: Board, some_id: str) -> str:
    """What is written before a component or task, by name; empty where nothing is."""
    plan = board.plan
    one = plan.components.get(some_id) or plan.tasks.get(some_id)
    if one is None:
        return ""
    names = [named(board, each) for each in one.after]
    task = plan.tasks.get(some_id)
    names += [f"{named(board, each)} (during its hold)" for each in (task.during if task else ())]
    return listed(names)


def named(board: Board, some_id: str) -> str:
    """The name of a component or the title of a task."""
    component = board.plan.components.get(some_id)
    if component is not None:
        return component.name
    task = board.plan.tasks.get(some_id)
    return task.title if task else some_id


def until_when(standing: Standing) -> str:
    """ "until Tue 2 Jun 2026 16:00", where it is known."""
    return f"until {day_and_time(standing.until)}" if standing.until else ""
