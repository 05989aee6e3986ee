"""The question at the end of a day: what still stands in the way, and what is done about it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar, Literal

from textual.binding import Binding, BindingType
from textual.widget import Widget

from crewboard.telling.line import Line
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.widgets.prose import Prose

Word = Literal["close", "sign", "leave", "stop", "sheet"]


class ClosingDialog(Dialog[Word]):
    """Answers what is to be done, None when left."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("y", "answer('close')", "close", show=False),
        Binding("c", "answer('sign')", "sign checks", show=False),
        Binding("s", "answer('leave')", "sign out", show=False),
        Binding("g", "answer('stop')", "goes on another day", show=False),
        Binding("t", "answer('sheet')", "type in a filled sheet", show=False),
        Binding("n", "leave", "no", show=False),
    ]

    def __init__(
        self, lines: Iterable[Line], name: str, *, in_the_way: bool, under_way: bool
    ) -> None:
        super().__init__(name)
        self.lines, self.in_the_way, self.under_way = tuple(lines), in_the_way, under_way

    def inside(self) -> Iterable[Widget]:
        yield Prose(self.lines)

    def foot(self) -> str:
        signs = ["s sign out", "c checks"] if self.in_the_way else ["s sign out"]
        stops = ["g stop"] if self.under_way else []
        close = "y close: why" if self.in_the_way else "y close, all out"
        return "   ".join([*signs, *stops, "t type in", close, "n stay open"])

    def action_answer(self, word: Word) -> None:
        self.dismiss(word)
