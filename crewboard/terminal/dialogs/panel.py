"""A panel to read: why, what then, help, mistakes."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget

from crewboard.telling.line import Line
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.widgets.prose import Prose


class Panel(Dialog[None]):
    """Lines to read and scroll; Esc, Enter or q closes."""

    keys: ClassVar[str] = "arrows, PgDn scroll   Esc closes"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,q", "leave", "close", show=False),
    ]

    def __init__(self, title: str, lines: Iterable[Line]) -> None:
        super().__init__(title, wide=True)
        self.lines = tuple(lines)

    def inside(self) -> Iterable[Widget]:
        yield Prose(self.lines)
