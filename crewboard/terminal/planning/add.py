"""Add a task, a part or a main component."""

from __future__ import annotations

from crewboard.order.said import component_name
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.pick import Choice, PickOne
from crewboard.terminal.planning.component_form import ComponentForm
from crewboard.terminal.planning.task_form import TaskForm


async def add(app: BoardApp, near: str) -> str:
    """Ask what to add beside `near`, and open its form; the new id, empty where it was left."""
    plan = app.board.plan
    task = plan.tasks.get(near)
    inside = task.component if task else near if near in plan.components else ""
    if not inside:
        what: str | None = "component"
    else:
        main = plan.main_of(inside)
        where = component_name(plan, inside)
        choices = [
            Choice("task", f"a task in {where}"),
            Choice("part", f"a part of {where}"),
            Choice("component", "a main component", f"beside {main.name}"),
        ]
        what = await app.push_screen_wait(PickOne("Add", choices))
    stem, _, part = inside.partition("/")
    made: TaskForm | ComponentForm
    match what:
        case "task":
            made = TaskForm(app, stem, None, part)
        case "part":
            made = ComponentForm(app, stem, None, inside)
        case "component":
            made = ComponentForm(app, "", None)
        case _:
            return ""
    if not await app.push_screen_wait(made.form()):
        return ""
    app.tell("kept in the plan")
    return made.id
