"""Which tasks of a series nobody is asked to do: of pieces that failed, and of spares that wait."""

from collections.abc import Iterator
from typing import NamedTuple

from crewboard.logbook.acts import PieceFailed
from crewboard.order.history import History
from crewboard.plan.piece import Piece
from crewboard.plan.plan import Plan


class NotAsked(NamedTuple):
    """Why a task of a series is not to be done; `lost`: what was done to its piece is no more."""

    why: str
    lost: bool = False


def not_asked(plan: Plan, history: History) -> dict[str, NotAsked]:
    """The tasks of series that are not to be done, with why."""
    return dict(_not_asked(plan, history)) if plan.series else {}


def _not_asked(plan: Plan, history: History) -> Iterator[tuple[str, NotAsked]]:
    taken = {piece: spare for spare, piece in history.stands_for.items()}
    idle = {
        piece.id: answer
        for piece in plan.pieces.values()
        if (answer := _idle(plan, history, taken, piece)) is not None
    }
    for series in plan.series.values() if idle else ():
        for piece, task in series.members.items():
            answer = idle.get(piece)
            if answer is not None and (answer.lost or not series.task.spares):
                yield task, answer


def _idle(plan: Plan, history: History, taken: dict[str, str], piece: Piece) -> NotAsked | None:
    if piece.id in taken:
        spare = plan.pieces.get(taken[piece.id])
        return NotAsked(f"{spare.name if spare else taken[piece.id]} took its place", lost=True)
    entry = history.failed.get(piece.id)
    if entry is not None:
        assert isinstance(entry.act, PieceFailed)
        reason = f": {entry.act.why}" if entry.act.why else ""
        return NotAsked(f"{piece.name} failed{reason}", lost=True)
    if piece.spare and piece.id not in history.stands_for:
        return NotAsked("a spare, not needed so far")
    return None
