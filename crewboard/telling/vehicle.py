"""The component tree in plain lines."""

from __future__ import annotations

from crewboard.order.board import Board
from crewboard.order.said import day_and_time, listed
from crewboard.paper.plain import Paper
from crewboard.plan.component import Component


def vehicle_lines(board: Board, width: int, *, tasks: bool = False) -> list[str]:
    """Each component with its parts below it; with `tasks` also its tasks."""
    plan = board.plan
    paper = Paper(width)
    paper.line(plan.vehicle.name + (f": {plan.vehicle.what}" if plan.vehicle.what else ""), hang=2)
    tree = _Tree(board, tasks)
    for component in plan.components.values():
        if not component.part_of:
            tree.put(paper, component)
    return paper.lines


class _Tree:
    """Puts components down, parts set in below them."""

    def __init__(self, board: Board, tasks: bool) -> None:
        self.board = board
        self.tasks = tasks
        self.progress = board.progress_of_all()
        self.parts: dict[str, list[Component]] = {}
        for each in board.plan.components.values():
            self.parts.setdefault(each.part_of, []).append(each)
        self.tasks_of: dict[str, list[str]] = {}
        for task in board.plan.tasks.values():
            self.tasks_of.setdefault(task.component, []).append(task.id)

    def put(self, paper: Paper, top: Component) -> None:
        ahead = [(top, 1)]
        while ahead:
            component, depth = ahead.pop()
            self._component(paper, component, depth)
            ahead += [(part, depth + 1) for part in reversed(self.parts.get(component.id, []))]

    def _component(self, paper: Paper, component: Component, depth: int) -> None:
        done, of = self.progress[component.id]
        after = listed(self._name(each) for each in component.after)
        behind = f", after {after}" if after else ""
        indent = 2 * min(depth, 12)
        says = f"{component.name}  [{component.id}]  {done} of {of} finished{behind}"
        paper.line(says, indent=indent, hang=2)
        if not self.tasks:
            return
        for task_id in self.tasks_of.get(component.id, ()):
            standing = self.board[task_id]
            until = f" until {day_and_time(standing.until)}" if standing.until else ""
            says = f"- {standing.state}{until}: {standing.task.title}  [{task_id}]"
            paper.line(says, indent=indent + 2, hang=2)

    def _name(self, some_id: str) -> str:
        component = self.board.plan.components.get(some_id)
        if component is not None:
            return component.name
        task = self.board.plan.tasks.get(some_id)
        return f'"{task.title}"' if task else some_id
