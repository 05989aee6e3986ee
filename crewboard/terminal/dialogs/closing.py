"""Close the day: what is in the way, and whether it is signed or closed all the same."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar, Literal

from textual.binding import Binding, BindingType
from textual.widget import Widget

from crewboard.telling.line import Line
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.widgets.prose import Prose

Word = Literal["close", "sign", "leave"]


class ClosingDialog(Dialog[Word]):
    """Answers what is to be done, None when left."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("y", "answer('close')", "close", show=False),
        Binding("c", "answer('sign')", "sign checks", show=False),
        Binding("s", "answer('leave')", "sign out", show=False),
        Binding("n", "leave", "no", show=False),
    ]

    def __init__(self, lines: Iterable[Line], name: str, *, in_the_way: bool) -> None:
        super().__init__(name)
        self.lines, self.in_the_way = tuple(lines), in_the_way

    def inside(self) -> Iterable[Widget]:
        yield Prose(self.lines)

    def foot(self) -> str:
        if self.in_the_way:
            return "s sign out   c sign checks   y close all the same, with a reason   n stay open"
        return "y close the day, sign everybody out   n stay open"

    def action_answer(self, word: Word) -> None:
        self.dismiss(word)
