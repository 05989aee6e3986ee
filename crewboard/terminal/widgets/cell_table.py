"""A table of text that is typed straight into its cells."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.geometry import Region
from textual.message import Message
from textual.strip import Strip

from crewboard.legible import legible
from crewboard.terminal.cells import cell_len, fitted
from crewboard.terminal.tones import tones_of
from crewboard.terminal.widgets.pasted import pasted_cells, printable
from crewboard.terminal.widgets.typed_cells import TypedCells

_NUMBER = 5  # cells for the mark and the number of a row
_LONGEST = 200  # characters in a cell


class CellColumn(NamedTuple):
    """A column's name, and how many cells it has; 0: what the others leave."""

    name: str
    wide: int = 0


# What stands in a cell that nobody typed into: the row, the column, the row above as filled.
Propose = Callable[[int, int, Sequence[str]], str]


class CellTable(TypedCells):
    """Rows of text under their columns; an empty row always waits at the end for the next one.

    Tab goes to the next cell, Enter to the next row. `Retyped` after every key. `rows` is what was
    typed, `filled` that with what is proposed, which stands in brackets until it is typed over, or
    deleted.
    """

    DEFAULT_CSS = (
        "CellTable { height: 1fr; min-width: 1; scrollbar-size-vertical: 1; overflow-x: hidden; }"
    )

    class Retyped(Message):
        """Something was typed, or another cell is the one that is typed in."""

    def __init__(
        self,
        columns: Sequence[CellColumn],
        rows: Sequence[Sequence[str]],
        propose: Propose,
    ) -> None:
        super().__init__()
        self.columns, self.propose = tuple(columns), propose
        self.rows = [list(row) for row in rows]
        self.filled = [list(row) for row in rows]
        # The cells whose text is a person's own word, also where that is to have none.
        self._decided = {(row, at) for row in range(len(rows)) for at in range(len(columns))}
        self.wrong: set[tuple[int, int]] = set()  # the cells that cannot be read
        self.row, self.column = 0, 0
        self._moves["ctrl+j"] = self._below  # a line's end, pasted where no paste is marked
        self._wait_for_more()

    def go_to(self, row: int, column: int) -> None:
        """Put the cursor on a cell; beyond the last row it stays on that."""
        self.row = min(max(0, row), len(self.rows) - 1)
        self.column = min(max(0, column), len(self.columns) - 1)
        self.scroll_to_region(Region(0, self.row, 1, 2), animate=False, force=True)
        self.refresh()
        self.post_message(self.Retyped())

    # --- moving --------------------------------------------------------------------------------

    def on_mount(self) -> None:
        self.go_to(len(self.rows) - 1, 0)

    def _go(self, down: int, right: int) -> None:
        self.go_to(self.row + down, self.column + right)

    def _on(self, step: int) -> None:
        self.go_to(*divmod(max(0, self._place + step), len(self.columns)))

    @property
    def _place(self) -> int:
        return self.row * len(self.columns) + self.column

    def _below(self) -> None:
        self.go_to(self.row + 1, 0)

    def _edge(self, step: int) -> None:
        self.go_to(self.row, 0 if step < 0 else len(self.columns) - 1)

    def on_click(self, event: events.Click) -> None:
        left, row = _NUMBER, event.y - 1 + self.scroll_offset.y
        if event.y < 1 or row >= len(self.rows):
            return
        for column, wide in enumerate(self._widths()):
            if left <= event.x < left + wide:
                self.go_to(row, column)
            left += wide

    # --- typing --------------------------------------------------------------------------------

    def _writes(self, key: events.Key) -> bool:
        return key.is_printable

    def on_paste(self, event: events.Paste) -> None:
        """Text from elsewhere: a line is a row, Tab parts cells. Lines for the first column are
        new rows; for another one they fill it downwards."""
        event.stop()
        if not set("\t\r\n") & set(event.text):
            self._type(printable(event.text))
            return
        row, first = self.row, self.column
        if not first and any(self.rows[row]):
            row = len(self.rows) - 1
        for line in pasted_cells(event.text, [column.name for column in self.columns]):
            for column, text in enumerate(line[: len(self.columns) - first], first):
                if text is not None:
                    self._set(row, column, text)
            row += 1
        self.go_to(row, first)

    def _type(self, text: str) -> None:
        self._put(self.rows[self.row][self.column] + text)

    def _shorten(self) -> None:
        self._put(self.rows[self.row][self.column][:-1])

    def _clear(self) -> None:
        self._put("")

    def _put(self, text: str) -> None:
        self._set(self.row, self.column, text)
        self.refresh()
        self.post_message(self.Retyped())

    def _set(self, row: int, column: int, text: str) -> None:
        while row >= len(self.rows):
            self.rows.append([""] * len(self.columns))
        self.rows[row][column] = text[:_LONGEST]
        self._decided.add((row, column))
        self.wrong.discard((row, column))
        self._wait_for_more()

    def _wait_for_more(self) -> None:
        if not self.rows or any(self.rows[-1]):
            self.rows.append([""] * len(self.columns))
            self._resize()
        self.filled = []
        for row, cells in enumerate(self.rows):
            self.filled.append([self._fill(row, at, text) for at, text in enumerate(cells)])

    def _fill(self, row: int, column: int, text: str) -> str:
        if text or not row or not self.rows[row][0].strip() or (row, column) in self._decided:
            return text
        above = self.filled[row - 1]
        return self.propose(row, column, above) if above[0].strip() else ""

    # --- drawing -------------------------------------------------------------------------------

    def _resize(self) -> None:
        if self.is_mounted:
            self.reach(self._wide, len(self.rows) + 1)

    def _widths(self) -> list[int]:
        fixed = sum(column.wide for column in self.columns)
        loose = sum(not column.wide for column in self.columns)
        left = max(loose, self._wide - _NUMBER - fixed) // max(1, loose)
        return [column.wide or left for column in self.columns]

    def render_line(self, y: int) -> Strip:
        width, base = self._wide, self.rich_style
        row = y - 1 + self.scroll_offset.y
        if width <= 0 or row >= len(self.rows):
            return Strip.blank(max(0, width), base)
        segments = self._head(base) if y < 1 else self._cells(row, base)
        return Strip(segments).adjust_cell_length(width, base)

    def _head(self, base: Style) -> list[Segment]:
        faint = base + Style(color=tones_of(self.app)["faint"])
        names = zip(self.columns, self._widths(), strict=True)
        cells = [Segment(fitted(column.name, wide), faint) for column, wide in names]
        return [Segment(" " * _NUMBER, faint), *cells]

    def _cells(self, row: int, base: Style) -> list[Segment]:
        at, plain = row == self.row, bool(getattr(self.app, "plain", False))
        mark = (">" if plain else "▸") if at else " "
        tones = tones_of(self.app)
        number = base + Style(color=tones["strong" if at else "faint"], bold=at or None)
        segments = [Segment(f"{mark}{row + 1:>3} ", number)]
        for column, wide in enumerate(self._widths()):
            here, text = at and column == self.column, legible(self.rows[row][column])
            is_proposed = self.rows[row][column] != self.filled[row][column]
            text = f"({legible(self.filled[row][column])})" if is_proposed else text
            tone = "faint" if is_proposed and not here else "strong"
            tone = "danger" if (row, column) in self.wrong else tone
            style = base + Style(color=tones[tone], reverse=here or None, bold=here or None)
            shown = _end_of(f"{text}_", wide - 1) if here else text
            segments += [
                Segment(fitted(shown, wide - 1, plain=plain), style),
                Segment(" ", base),
            ]
        return segments


def _end_of(text: str, wide: int) -> str:
    """What is typed stays in sight: of a longer text the end."""
    while cell_len(text) > wide:
        text = text[1:]
    return text
