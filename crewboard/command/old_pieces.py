"""After a finish: which old pieces lie nobody knows where, and how that is said."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from crewboard.command.typed import Call
from crewboard.fabric.unplaced import unplaced
from crewboard.logbook.acts import Finished
from crewboard.order.said import piece_name
from crewboard.workbench import Workbench


def ask_for_old_pieces(call: Call, bench: Workbench, at: datetime, acts: Iterable[object]) -> None:
    """A line for each old piece of the finished work of which nobody said where it lies."""
    plan = bench.plan
    tasks = [plan.tasks[act.task] for act in acts if isinstance(act, Finished)]
    pieces = [piece for task in tasks for piece in task.pieces]
    for thing in unplaced(bench.fabric(at), pieces) if pieces else ():
        piece = thing.id.piece
        is_old = thing.id != bench.fabric(at).pieces[piece].current.id
        old, option = ("the old ", " --old") if is_old else ("", "")
        where = call.word("DIR") or "."
        call.out.talk(
            f"where is {old}{piece_name(plan, piece)} now? "
            f'crewboard store {where} {piece} "shelf 3"{option}'
        )
