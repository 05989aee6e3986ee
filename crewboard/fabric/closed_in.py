"""Which pieces cannot be seen any more, since work that closes something in was finished."""

from datetime import datetime

from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.work import Finished, Reopened
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task


def closed_in(plan: Plan, logbook: Logbook, at: datetime) -> dict[str, Entry]:
    """Piece id -> the finish by which it was closed in. Work that was reopened hides nothing."""
    closes = {task.id: task for task in plan.tasks.values() if task.changes == "closes"}
    if not closes:
        return {}
    finishes: dict[str, Entry] = {}
    events = (e for day in logbook.days.values() for e in day.events if e.at <= at)
    for entry in sorted(events, key=lambda entry: entry.at):
        if isinstance(entry.act, Finished) and entry.act.task in closes:
            finishes[entry.act.task] = entry
        elif isinstance(entry.act, Reopened):
            finishes.pop(entry.act.task, None)
    return {
        piece: entry for task, entry in finishes.items() for piece in _hidden_by(plan, closes[task])
    }


def _hidden_by(plan: Plan, task: Task) -> tuple[str, ...]:
    """The pieces that it is done to; where it names none, all of its component."""
    if task.pieces:
        return task.pieces
    within = plan.with_parts(task.component)
    return tuple(piece.id for piece in plan.pieces.values() if piece.component in within)
