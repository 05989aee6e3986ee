"""The heads of a list's columns, drawn where its cells are."""

from __future__ import annotations

from collections.abc import Sequence

from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip
from textual.widget import Widget

from crewboard.terminal.cells import fitted
from crewboard.terminal.tones import tones_of
from crewboard.terminal.widgets.rows import Column


class Heads(Widget):
    """One line over a `RowList` of the same columns, which keeps a place for its scrollbar."""

    DEFAULT_CSS = "Heads { height: 1; min-width: 1; }"

    def __init__(self, columns: Sequence[Column], heads: Sequence[str]) -> None:
        super().__init__()
        self.columns, self.heads = tuple(columns), tuple(heads)

    def render_line(self, y: int) -> Strip:
        width = self.size.width
        if y or width <= 0:
            return Strip.blank(max(0, width), self.rich_style)
        room = width - 4  # the cursor's mark on the left; a blank and the scrollbar on the right
        fixed = sum(column.width + 1 for column in self.columns if column.width)
        grows = [column for column in self.columns if not column.width]
        share = max(0, room - fixed - len(grows) + 1) // max(1, len(grows))
        cells = [
            fitted(head, column.width or share, right=column.right)
            for column, head in zip(self.columns, self.heads, strict=True)
        ]
        style = self.rich_style + Style(color=tones_of(self.app)["faint"])
        return Strip([Segment("  " + " ".join(cells), style)]).adjust_cell_length(width, style)
