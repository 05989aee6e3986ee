"""The boards of a layout that was chosen become pieces of a component, each where it lies."""

from __future__ import annotations

from typing import TYPE_CHECKING

from crewboard.command.exits import Exit
from crewboard.command.opened import as_read, today
from crewboard.command.write import tell
from crewboard.folder.edit.adding_pieces import added_in_words
from crewboard.folder.edit.reckoned import added_to, boards_as_pieces
from crewboard.order.reckoning.laid import boards_laid

if TYPE_CHECKING:
    from crewboard.command.typed import Call
    from crewboard.order.reckoning.asked import For
    from crewboard.trade.reckoning import Reckoning
    from crewboard.workbench import Workbench


def write_pieces(call: Call, bench: Workbench, answer: Reckoning, of: For) -> Exit:
    """Refused where nothing was laid, or where pieces are called so already."""
    plan = bench.plan
    boards = as_read(lambda: boards_laid(answer, plan.vehicle.units))
    edits = as_read(lambda: boards_as_pieces(plan, boards, of, call.option("pieces")))
    words = added_in_words(edits[:1])
    outcome = bench.change(*edits, says=f"the pieces {words}", today=today(plan).on)
    return tell(call, bench, outcome, [added_to(plan, edits, of)])
