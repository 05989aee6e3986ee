"""Hours that people worked on several tasks together, divided equally over them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from crewboard.folder.edit.plan_edits import Key
from crewboard.logbook.acts import HoursWorked
from crewboard.logbook.fields import fields_of
from crewboard.logbook.on_several import on_tasks
from crewboard.logbook.state import STATES
from crewboard.order.admit.refusal import Refusal
from crewboard.order.said import how_many
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.choose import crew_choices
from crewboard.terminal.doing.entry_form import blank, record_here
from crewboard.terminal.doing.which import named, which
from crewboard.terminal.forms.fields import Field
from crewboard.terminal.forms.form import Form
from crewboard.terminal.forms.picked import SomeOf
from crewboard.terminal.meant import Meant


async def hours_on(app: BoardApp, meant: Meant) -> bool:
    """Ask who worked and for how long each, on all of the tasks; whether it was kept."""
    tasks = await which(app, meant, "Hours on which", STATES)
    if not tasks:
        return False
    board = app.board
    crew = dict.fromkeys(who for task in tasks for who in board[task].crew)
    typed = [f for f in fields_of(HoursWorked) if f.name in ("hours", "note")]
    fields: list[Field] = [SomeOf("who", "who", tuple(crew), lambda: crew_choices(board))]
    fields += [blank(app, field, field.default, board.at.date()) for field in typed]

    def keep(answers: Mapping[Key, Any], despite: str = "", by: str = "") -> Sequence[Refusal]:
        people, hours = answers.get("who", ()), answers.get("hours")
        if not people or not hours:
            return [Refusal("empty", "say who worked" if not people else "say how many hours")]
        worked = [HoursWorked(who, hours, "", answers.get("note", "")) for who in people]
        acts = [on_task for one in worked for on_task in on_tasks(one, tasks)]
        return record_here(app, *acts, despite=despite, by=by)

    intro = f"Each person's hours are divided equally over {how_many(len(tasks), 'task')}."
    form = Form(f"Hours: {named(board, tasks)}", fields, keep, whole=True, intro=intro, insist=keep)
    kept = await app.push_screen_wait(form) is True
    if kept:
        app.tell(f"hours saved: {named(board, tasks)}")
    return kept
