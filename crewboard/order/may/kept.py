"""Whether work that strips, blasts or cuts is to be done to a piece that is kept for ever."""

from collections.abc import Iterator

from crewboard.order.board import Board
from crewboard.order.may.obstacle import Obstacle
from crewboard.plan.task import Task


def kept_for_ever(board: Board, task: Task) -> Iterator[Obstacle]:
    """What is closed in stays as it is; so it may be, whatever is kept there."""
    if task.changes not in (None, "closes"):
        kept = tuple(piece for piece in task.pieces if board.plan.pieces[piece].keep)
        if kept:
            yield Obstacle("kept", pieces=kept)
