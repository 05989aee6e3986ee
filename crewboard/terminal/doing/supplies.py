"""Write down that a supply was ordered, and that it arrived."""

from __future__ import annotations

from crewboard.logbook.acts import Arrived, Ordered
from crewboard.logbook.kinds import KINDS_OF_ENTRY
from crewboard.order.said import supply_name
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.doing.entry_form import write_entry


async def ordered(app: BoardApp, supply_id: str) -> None:
    """Ask for when it is promised."""
    name = supply_name(app.board.plan, supply_id)
    preset = {"supply": supply_id}
    if await write_entry(app, KINDS_OF_ENTRY[Ordered], preset, f"Ordered: {name}"):
        app.tell(f"ordered: {name}")


async def arrived(app: BoardApp, supply_id: str) -> None:
    """Ask for a note, such as what was found on unpacking."""
    name = supply_name(app.board.plan, supply_id)
    ask = AskLine(f"Arrived: {name}", "note (may stay empty)", needed=False)
    note = await app.push_screen_wait(ask)
    if note is not None and (await app.keep([Arrived(supply_id, note)])).kept:
        app.tell(f"arrived: {name}")
