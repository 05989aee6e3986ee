"""Write down that a supply was ordered, and that it arrived."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from crewboard.folder.edit.plan_edits import Key
from crewboard.logbook.acts import Arrived, Ordered
from crewboard.order.refusal import Refusal
from crewboard.order.said import supply_name
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.forms.fields import Field, Typed
from crewboard.terminal.forms.form import Form
from crewboard.terminal.forms.reading import day
from crewboard.terminal.forms.recorded import record_here


async def ordered(app: BoardApp, supply_id: str) -> None:
    """Ask for when it is promised."""
    name = supply_name(app.board.plan, supply_id)
    fields: list[Field] = [
        Typed("due", "promised for", "", day, "2026-06-13; empty: no date promised"),
        Typed("note", "note", "", hint="where, order number"),
    ]

    def keep(said: Mapping[Key, Any]) -> Sequence[Refusal]:
        return record_here(app, Ordered(supply_id, said.get("due"), said.get("note", "")))

    if await app.push_screen_wait(Form(f"Ordered: {name}", fields, keep, whole=True)):
        app.tell(f"ordered: {name}")


async def arrived(app: BoardApp, supply_id: str) -> None:
    """Ask for a note, such as what was found on unpacking."""
    name = supply_name(app.board.plan, supply_id)
    ask = AskLine(f"Arrived: {name}", "note (may stay empty)", needed=False)
    note = await app.push_screen_wait(ask)
    if note is not None and (await app.keep([Arrived(supply_id, note)])).kept:
        app.tell(f"arrived: {name}")
