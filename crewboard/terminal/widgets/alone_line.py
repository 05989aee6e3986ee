"""LEAVE ALONE: the line that stands out from all others, with colour and without."""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip
from textual.widget import Widget

from crewboard.legible import legible
from crewboard.order.board import Board
from crewboard.order.left_alone import in_brief, in_short, told_together
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.cells import cell_len, shortened
from crewboard.terminal.tones import tones_of

_NAMES = (34, 30, 26, 22, 18)  # cells of a name where not all find room, the longest first


class AloneLine(Widget):
    """What nobody may touch, the soonest end first, in one or two lines; what finds no room is
    counted. Dark on light where all else is light on dark, so that it shows without colour too."""

    DEFAULT_CSS = "AloneLine { height: 1; min-width: 1; }"

    def __init__(self) -> None:
        super().__init__()
        self._board: Board | None = None
        self._most = 1

    def show(self, board: Board, *, most: int, width: int) -> int:
        """Show what is left alone on this board in at most so many lines; how many it takes."""
        self._board, self._most = board, most
        lines = len(self._lines(width))
        self.styles.height = max(1, lines)
        self.set_class(not lines, "-nothing")
        self.refresh()
        return lines

    def _lines(self, width: int) -> list[str]:
        board = self._board
        entries = told_together(board) if board is not None else ()
        if board is None or not entries or width < 8:
            return []
        plain = cast("BoardApp", self.app).plain
        head = f" LEAVE ALONE ({len(entries)}) "
        whole = [legible(in_short(board, entry)) for entry in entries]
        lines = in_lines(head, whole, width, self._most, plain=plain)
        if lines is None:
            tried = [self._in_brief(head, cells, width, plain=plain) for cells in _NAMES]
            # Of those that name as many the one with longer names.
            _, lines = min(tried, key=lambda left_and_lines: left_and_lines[0])
        return lines

    def _in_brief(self, head: str, cells: int, width: int, *, plain: bool) -> tuple[int, list[str]]:
        """With names of at most so many cells: how many are only counted, and the lines."""
        assert self._board is not None
        now = self._board.at
        brief = [
            f"{shortened(legible(name), cells, plain=plain)} {end}"
            for name, end in (in_brief(entry, now) for entry in told_together(self._board))
        ]
        placed = _placed(head, brief, width, self._most, plain=plain, count_rest=True)
        return placed or (0, [])

    def render_line(self, y: int) -> Strip:
        width, lines = self.size.width, self._lines(self.size.width)
        if y >= len(lines):
            return Strip.blank(max(0, width), self.rich_style)
        style = self.rich_style + Style(color=tones_of(self.app)["danger"], bold=True, reverse=True)
        text = lines[y] + " " * max(0, width - cell_len(lines[y]))
        return Strip([Segment(text, style)]).adjust_cell_length(width, style)


def in_lines(
    head: str,
    words: Sequence[str],
    width: int,
    most: int,
    *,
    plain: bool = False,
    count_rest: bool = False,
) -> list[str] | None:
    """The words behind the head, in at most so many lines of that width. Where they do not all find
    room: with `count_rest` those that do and "+3 more", else None."""
    placed = _placed(head, words, width, most, plain=plain, count_rest=count_rest)
    return placed[1] if placed is not None else None


def _placed(
    head: str, words: Sequence[str], width: int, most: int, *, plain: bool, count_rest: bool
) -> tuple[int, list[str]] | None:
    """How many of them are only counted, and the lines."""
    gap = "; " if plain else " · "
    lines: list[str] = []
    line = head
    for left, word in zip(range(len(words), 0, -1), words, strict=True):
        last = len(lines) == most - 1
        joined = f"{line} {word}" if line == head else f"{line}{gap}{word}"
        room = width - 1
        if last and left > 1 and count_rest:
            room -= cell_len(f"{gap}+{left - 1} more")
        if cell_len(joined) > room and not last:
            lines.append(line)
            line = f"   {word}"
        elif cell_len(joined) <= room:
            line = joined
        elif not count_rest:
            return None
        elif line == head:
            line = shortened(joined, room, plain=plain)
        else:
            return left, [*lines, f"{line}{gap}+{left} more"]
    return 0, [*lines, line]
