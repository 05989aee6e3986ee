"""Write down what became of a supply: ordered, arrived, sent back, used."""

from __future__ import annotations

from crewboard.logbook.acts import Arrived, Ordered, SentBack, Used
from crewboard.logbook.kinds import KINDS_OF_ENTRY
from crewboard.order.said import supply_name
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.doing.entry_form import write_entry


async def ordered(app: BoardApp, supply_id: str) -> None:
    """Ask for when it is promised, and how much was ordered."""
    await _ask(app, Ordered, supply_id)


async def arrived(app: BoardApp, supply_id: str) -> None:
    """Ask how much came, and what was not as ordered."""
    await _ask(app, Arrived, supply_id)


async def sent_back(app: BoardApp, supply_id: str) -> None:
    """Ask how much went back, and why."""
    await _ask(app, SentBack, supply_id)


async def used(app: BoardApp, supply_id: str) -> None:
    """Ask how much was used, and on which task."""
    await _ask(app, Used, supply_id)


async def _ask(app: BoardApp, act: type, supply_id: str) -> None:
    kind, name = KINDS_OF_ENTRY[act], supply_name(app.board.plan, supply_id)
    if await write_entry(app, kind, {"supply": supply_id}, f"{kind.title}: {name}"):
        app.tell(f"{kind.word}: {name}")
