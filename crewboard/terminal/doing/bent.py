"""What a bend came to, asked where it comes off its form: the next forms are reckoned by it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from crewboard.logbook.acts import Bent
from crewboard.logbook.kinds import KINDS_OF_ENTRY
from crewboard.order.said import quoted_title
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.doing.entry_form import write_entry

_INTRO = "Measured now, or left for later with Esc: j keeps it then. The next form goes by it."


async def ask_what_it_came_to(app: BoardApp, task_ids: Sequence[str]) -> None:
    """Ask it of each task whose bend was released, one after the other, until one is left."""
    for task_id in task_ids:
        if task_id in app.board.plan.tasks:
            if not await _ask(app, task_id):
                return
            app.tell("kept: the next form is reckoned by it")


async def _ask(app: BoardApp, task_id: str) -> bool:
    from crewboard.order.reckoning.known import facts_of

    facts = facts_of(app.board, task_id)
    proposed: dict[str, Any] = {"days": 0.0}
    proposed |= {name: facts[name].typed for name in ("species", "thickness") if name in facts}
    preset = {"task": task_id}
    pieces = app.board.plan.tasks[task_id].pieces
    if len(pieces) == 1:
        preset["piece"] = pieces[0]
    title = f"What it came to: {quoted_title(app.board.plan, task_id)}"
    return await write_entry(app, KINDS_OF_ENTRY[Bent], preset, title, _INTRO, proposed=proposed)
