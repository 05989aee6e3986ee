"""The answers kept for a piece or a component, as they stand beside its row and on its sheet."""

from collections.abc import Iterator
from typing import Literal

from crewboard.order.board import Board
from crewboard.order.reckoning.kept import kept_of
from crewboard.telling.line import GAP, Line, title

_LATEST = 4  # answers shown: all of them stand in the logbook


def reckoned_lines(
    board: Board, thing: Literal["piece", "component"], some_id: str
) -> Iterator[Line]:
    """A heading and a line each, the latest last; nothing where none was kept."""
    kept = kept_of(board, thing, some_id)
    if kept:
        from crewboard.telling.reckoning import kept_line  # most pieces have none

        yield from (GAP, title("Reckoned"))
        yield from (kept_line(board, entry) for entry in kept[-_LATEST:])
