"""After a finish: which old pieces lie nobody knows where, and how that is said."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from crewboard.command.typed import Call
from crewboard.fabric.unplaced import unplaced
from crewboard.logbook.acts import Finished
from crewboard.telling.fabric import unplaced_in_words
from crewboard.workbench import Workbench


def ask_for_old_pieces(call: Call, bench: Workbench, at: datetime, acts: Iterable[object]) -> None:
    """A line for each old piece of the finished work of which nobody said where it lies."""
    plan = bench.plan
    tasks = [plan.tasks[act.task] for act in acts if isinstance(act, Finished)]
    pieces = [piece for task in tasks for piece in task.pieces]
    for one in unplaced(bench.fabric(at), pieces) if pieces else ():
        option = " --old" if one.old else ""
        where = call.word("DIR") or "."
        call.out.talk(
            f"where is {unplaced_in_words(plan, one)} now? "
            f'crewboard store {where} {one.piece} "shelf 3"{option}'
        )
