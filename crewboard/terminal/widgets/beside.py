"""Rows, and beside them what there is to read of the row under the cursor."""

from __future__ import annotations

from textual.containers import Container
from textual.widget import Widget

from crewboard.terminal.widgets.prose import Prose


class Beside(Prose, can_focus=False):
    """The keys stay with the rows, which it follows."""

    def __init__(self) -> None:
        super().__init__(id="beside")


def rows_and_beside(rows: Widget) -> Container:
    """Both, side by side or one above the other as the page's stylesheet says."""
    return Container(rows, Beside(), id="split")
