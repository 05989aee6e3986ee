"""Whether what will not be seen any more was pictured before the work that changes it."""

from collections.abc import Iterator

from crewboard.logbook.acts import Found, Pictured, TakenOff
from crewboard.order.board import Board
from crewboard.order.may.obstacle import Obstacle
from crewboard.plan.task import Task

# What shows how it was: a picture of the finished work does not.
_SHOWS_IT = ("before", "during", "hidden now", "evidence", "measured")


def not_pictured(board: Board, task: Task) -> Iterator[Obstacle]:
    """Of work that closes, strips, blasts or cuts: the pieces of which there is no picture yet, or
    the task where it names none and nobody pictured its component."""
    if task.changes is None:
        return
    pieces, others = _pictured(board)
    if task.pieces:
        missing = tuple(piece for piece in task.pieces if piece not in pieces)
        if missing and not {task.id, task.series} & others:
            yield Obstacle("picture", pieces=missing)
    elif not {task.id, task.component} & others:
        yield Obstacle("picture")


def _pictured(board: Board) -> tuple[set[str], set[str]]:
    """The pieces, and the tasks and components, of which there is a picture by now."""
    pieces: set[str] = set()
    others: set[str] = set()
    for entry in board.logbook.record():
        match entry.act:
            case Pictured() as act if act.shows in _SHOWS_IT and entry.at <= board.at:
                pieces |= set(act.pieces)
                others |= {act.component, act.task}
            case (Found() | TakenOff()) as act if act.pictures and entry.at <= board.at:
                pieces.add(act.piece)
                others.add(getattr(act, "component", "") or getattr(act, "task", ""))
    plan = board.plan
    pieces |= {piece.id for piece in plan.pieces.values() if piece.pictures}
    others |= {c.id for c in plan.components.values() if c.pictures}
    return pieces, others - {""}
