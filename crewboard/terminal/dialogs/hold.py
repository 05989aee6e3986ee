"""A hold to read, and what may be done with it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget

from crewboard.order.board import Board
from crewboard.order.hold_words import hold_title
from crewboard.order.running import StandingHold
from crewboard.telling.holds import hold_lines
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.widgets.prose import Prose


class HoldDialog(Dialog[str]):
    """A hold to read; answers "release" or "extend", None when left."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("r", "answer('release')", "release", show=False),
        Binding("e", "answer('extend')", "extend", show=False),
        Binding("enter", "leave", "close", show=False),
    ]

    def __init__(self, board: Board, hold: StandingHold) -> None:
        super().__init__(f"Hold: {hold_title(board.plan, hold)}")
        self.board, self.hold = board, hold

    def inside(self) -> Iterable[Widget]:
        yield Prose(hold_lines(self.board, self.hold))

    def foot(self) -> str:
        if self.hold.stops_work:
            early = " early" if self.hold.stage == "running" else " after a look"
            return f"r release{early}   e extend   Esc cancel"
        return "e extend   Esc cancel" if self.hold.released_at is None else "Esc cancel"

    def action_answer(self, word: str) -> None:
        still_tacky = word == "extend" and self.hold.released_at is None
        if self.hold.stops_work or still_tacky:
            self.dismiss(word)
