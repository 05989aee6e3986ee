"""Ask yes or no."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget

from crewboard.telling.line import Line
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.widgets.prose import Prose


class Confirm(Dialog[bool]):
    """Answers True for yes; None when left."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("y,enter", "yes", "yes", show=False),
        Binding("n", "leave", "no", show=False),
    ]

    def __init__(
        self, title: str, lines: Iterable[Line | str], *, yes: str = "yes", no: str = "no"
    ) -> None:
        super().__init__(title)
        self.lines = [Line(each) if isinstance(each, str) else each for each in lines]
        self.yes, self.no = yes, no

    def inside(self) -> Iterable[Widget]:
        yield Prose(self.lines)

    def foot(self) -> str:
        return f"y {self.yes}   n {self.no}"

    def action_yes(self) -> None:
        self.dismiss(True)
