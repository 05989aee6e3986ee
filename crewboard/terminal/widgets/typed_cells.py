"""What tables have in common that are typed straight into: their keys, and how they are taken."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from textual import events

from crewboard.terminal.widgets.line_view import LineView


class TypedCells(LineView, can_focus=True):
    """A table with a cursor on one of its cells. A subclass says where the keys lead, and which
    characters it takes into a cell."""

    def __init__(self) -> None:
        super().__init__()
        self._moves: dict[str, Callable[[], None]] = {
            "up": partial(self._go, -1, 0),
            "down": partial(self._go, 1, 0),
            "left": partial(self._go, 0, -1),
            "right": partial(self._go, 0, 1),
            "tab": partial(self._on, 1),
            "shift+tab": partial(self._on, -1),
            "enter": self._below,
            "home": partial(self._edge, -1),
            "end": partial(self._edge, 1),
            "backspace": self._shorten,
            "delete": self._clear,
        }

    def _go(self, down: int, right: int) -> None:
        """So many cells down and to the right."""
        raise NotImplementedError

    def _on(self, step: int) -> None:
        """To the next cell across, from the end of a row to the next row."""
        raise NotImplementedError

    def _below(self) -> None:
        """On from the end of what is typed into a cell."""
        raise NotImplementedError

    def _edge(self, step: int) -> None:
        """To the first or last cell of the row."""
        raise NotImplementedError

    def _shorten(self) -> None:
        """Take the last character out of the cell."""
        raise NotImplementedError

    def _clear(self) -> None:
        """Empty the cell."""
        raise NotImplementedError

    def _type(self, text: str) -> None:
        """Add to what stands in the cell."""
        raise NotImplementedError

    def _writes(self, key: events.Key) -> bool:
        """Whether the key is a character that goes into a cell."""
        raise NotImplementedError

    def on_key(self, event: events.Key) -> None:
        """Every key is taken here, in the order of typing: bindings would come in later."""
        if self._writes(event):
            self._type(event.character or "")
        elif (move := self._moves.get(event.key)) is not None:
            move()
        else:
            return
        event.stop()
        event.prevent_default()

    def takes(self, key: events.Key) -> bool:
        """Whether the table takes the key itself."""
        return self._writes(key) or key.key in self._moves

    # --- drawing -------------------------------------------------------------------------------

    @property
    def _wide(self) -> int:
        """The cells of a line beside the scroll bar."""
        return self.scrollable_content_region.width

    def on_resize(self) -> None:
        self._resize()

    def _resize(self) -> None:
        """Say how far the lines reach."""
        raise NotImplementedError
