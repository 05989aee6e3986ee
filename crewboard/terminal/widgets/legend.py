"""What the letters over a table's columns mean, several side by side."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.geometry import Size
from textual.message import Message
from textual.strip import Strip
from textual.widget import Widget

from crewboard.legible import legible
from crewboard.terminal.cells import fitted
from crewboard.terminal.tones import tones_of

_EACH = 36  # cells a meaning wants
_MOST = 8  # lines


class Meaning(NamedTuple):
    """A letter and what it stands for."""

    letter: str
    text: str


class Legend(Widget):
    """The letters with their meanings; the current one stands out. A click tells `Picked`."""

    DEFAULT_CSS = "Legend { height: auto; min-width: 1; }"

    class Picked(Message):
        """The meaning of that number was clicked."""

        def __init__(self, number: int) -> None:
            super().__init__()
            self.number = number

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.meanings: tuple[Meaning, ...] = ()
        self.current = 0

    def tell(self, meanings: Sequence[Meaning], current: int) -> None:
        """Show these, with one of them as the current."""
        taller = len(meanings) != len(self.meanings)
        self.meanings, self.current = tuple(meanings), current
        self.refresh(layout=taller)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002
        return max(1, min(_MOST, -(-len(self.meanings) // self._across(width))))

    def _across(self, width: int) -> int:
        return max(1, min(4, width // _EACH))

    def _first(self) -> int:
        """The first meaning shown: as far down as it takes for the current one to be seen."""
        across = self._across(self.size.width)
        lines = max(1, self.size.height)
        rows = -(-len(self.meanings) // across)
        return max(0, min(self.current // across - lines // 2, rows - lines)) * across

    def render_line(self, y: int) -> Strip:
        width, base = self.size.width, self.rich_style
        if width <= 0:
            return Strip([])
        across = self._across(width)
        each_wide = width // across
        plain = bool(getattr(self.app, "plain", False))
        segments: list[Segment] = []
        start = self._first() + y * across
        for number in range(start, min(start + across, len(self.meanings))):
            meaning = self.meanings[number]
            at = number == self.current
            style = base + Style(
                color=tones_of(self.app)["strong" if at else "faint"], bold=at or None
            )
            text = f"{meaning.letter:>2} {legible(meaning.text)}"
            segments.append(Segment(fitted(text, each_wide - 1, plain=plain) + " ", style))
        return Strip(segments).adjust_cell_length(width, base)

    def on_click(self, event: events.Click) -> None:
        across = self._across(self.size.width)
        column = min(across - 1, event.x // max(1, self.size.width // across))
        number = self._first() + event.y * across + column
        if number < len(self.meanings):
            self.post_message(self.Picked(number))
