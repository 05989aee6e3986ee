"""Edit what the cursor is on."""

from __future__ import annotations

from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.planning.component_form import ComponentForm
from crewboard.terminal.planning.task_form import TaskForm


async def edit(app: BoardApp, some_id: str) -> str:
    """Open the form of a component, part or task; its id afterwards, empty where it was left."""
    plan = app.board.plan
    stem, slash, _ = some_id.partition("/")
    made: TaskForm | ComponentForm
    if some_id in plan.tasks:
        made = TaskForm(app, stem, plan.tasks[some_id])
    elif some_id in plan.components:
        made = ComponentForm(app, stem if slash else "", plan.components[some_id])
    else:
        return ""
    if not await app.push_screen_wait(made.form()):
        return ""
    app.tell("kept in the plan")
    return made.id
