"""Add, edit or take out what the cursor is on: a component, a part or a task."""

from __future__ import annotations

from crewboard.folder.edit.plan_edits import Remove
from crewboard.order.said import component_name
from crewboard.telling.line import Line
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.pick import Choice, PickOne
from crewboard.terminal.planning.component_form import ComponentForm
from crewboard.terminal.planning.task_form import TaskForm
from crewboard.terminal.planning.written import take_out_here, thing_of


async def add(app: BoardApp, near: str) -> str:
    """Ask what to add beside `near`, and open its form; the new id, empty where it was left."""
    plan = app.board.plan
    task = plan.written(near)
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
    return await _ask(app, made)


async def edit(app: BoardApp, some_id: str) -> str:
    """Open the form of a component, part or task; its id afterwards, empty where it was left."""
    plan = app.board.plan
    stem, slash, _ = some_id.partition("/")
    made: TaskForm | ComponentForm
    if (task := plan.written(some_id)) is not None:
        made = TaskForm(app, stem, task)
    elif some_id in plan.components:
        made = ComponentForm(app, stem if slash else "", plan.components[some_id])
    else:
        return ""
    return await _ask(app, made)


async def _ask(app: BoardApp, made: TaskForm | ComponentForm) -> str:
    if not await app.push_screen_wait(made.form()):
        return ""
    app.tell("saved in the plan")
    return made.id


async def remove(app: BoardApp, some_id: str) -> None:
    """Ask first; what came after it comes after what it came after. `u` puts it back."""
    plan = app.board.plan
    task = plan.written(some_id)  # of a piece's task, what is written for all of them
    some_id = task.id if task else some_id
    thing = thing_of(plan, some_id)
    name = task.title if task else component_name(plan, some_id)
    lines = [
        Line(f'"{name}" is removed from the plan, with all that is written of it.', "warning"),
        Line("What came after it then comes after what it came after. u puts it back."),
    ]
    what = f'removing "{name}"'
    edit = Remove(thing, some_id)
    await take_out_here(app, edit, lines, what, then=lambda _: app.tell(f"{what}: done"))
