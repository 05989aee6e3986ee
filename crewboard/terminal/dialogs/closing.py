"""The question at the end of a day: what still stands in the way, and what is done about it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar, Literal

from textual.binding import Binding, BindingType
from textual.widget import Widget

from crewboard.telling.line import Line
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.widgets.prose import Prose

Word = Literal["close", "checks", "in_or_out", "other"]


class ClosingDialog(Dialog[Word]):
    """Answers what is to be done, None when left."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("i", "answer('in_or_out')", "in/out", show=False),
        Binding("c", "answer('checks')", "check", show=False),
        Binding("o", "answer('other')", "other", show=False),
        Binding("enter", "answer('close')", "close", show=False),
    ]

    def __init__(self, lines: Iterable[Line], name: str, *, in_the_way: bool) -> None:
        super().__init__(name)
        self.lines, self.in_the_way = tuple(lines), in_the_way

    def inside(self) -> Iterable[Widget]:
        yield Prose(self.lines)

    def foot(self) -> str:
        close = "close with a reason" if self.in_the_way else "close the day"
        return f"i in/out   c check   o other   Enter {close}   Esc cancel"

    def action_answer(self, word: Word) -> None:
        self.dismiss(word)
