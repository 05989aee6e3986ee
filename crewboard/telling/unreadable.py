"""What cannot be read, said before all else: which file, why, and what follows from it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from crewboard.order.board import Board
from crewboard.order.said import how_many
from crewboard.telling.line import Line

if TYPE_CHECKING:
    from crewboard.telling.report import Sheet

_FEW = 3  # told one by one before the rest is counted


def unreadable_lines(board: Board) -> list[Line]:
    """A line for each of the first few files; mostly nothing."""
    few, more = board.unreadable[:_FEW], len(board.unreadable) - _FEW
    told = [f"{one.in_full}. To go on: {one.mend}." for one in few]
    if more > 0:
        counted = how_many(more, "more thing", "more things")
        told.append(f"{counted} cannot be read: crewboard check names all.")
    return [Line(text, "danger", 0, "ON HOLD:") for text in told]


def with_unreadable(sheet: Sheet, board: Board) -> Sheet:
    """The sheet, and on it before all else what cannot be read."""
    lines = tuple(unreadable_lines(board))
    if not lines:
        return sheet
    from crewboard.telling.report import Chapter  # most folders can be read

    return sheet._replace(chapters=(Chapter("Cannot be read", lines, "danger"), *sheet.chapters))
