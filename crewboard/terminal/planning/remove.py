"""Take a component, a part or a task out of the plan."""

from __future__ import annotations

from crewboard.folder.edit.plan_edits import Remove
from crewboard.order.said import component_name
from crewboard.telling.line import Line
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.confirm import Confirm
from crewboard.terminal.planning.written import thing_of


async def remove(app: BoardApp, some_id: str) -> None:
    """Ask first; what came after it comes after what it came after. `u` puts it back."""
    plan = app.board.plan
    thing = thing_of(plan, some_id)
    one = plan.tasks.get(some_id)
    name = one.title if one else component_name(plan, some_id)
    edit = Remove(thing, some_id)
    refused = app.workbench.trial(edit)
    if not refused:
        lines = [
            Line(f'"{name}" goes out of the plan, with all that is written of it.', "warning"),
            Line("What came after it will come after that which it came after. u puts it back."),
        ]
        sure = Confirm("Take out?", lines, yes="take it out", no="leave it")
        if not await app.push_screen_wait(sure):
            return
    says = f'taking out "{name}"'
    app.do(lambda: app.workbench.change(edit, says=says), lambda _: app.tell(f"{says}: done"))
