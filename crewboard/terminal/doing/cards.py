"""Bench cards on the screen: read in half a minute, and the whole sheets behind a key."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import partial
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget

from crewboard.order.board import Board
from crewboard.order.safety.checks import hazards_of
from crewboard.plan.hazard import Hazard
from crewboard.telling.bench_card import cards_lines
from crewboard.telling.hazard_sheet import hazard_lines
from crewboard.telling.line import GAP, Line
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.dialog import Dialog, Panel
from crewboard.terminal.widgets.prose import Prose


class CardPanel(Dialog[bool]):
    """The cards; answers True where the whole sheets are wanted."""

    keys: ClassVar[str] = "arrows, PgDn scroll   g the whole sheet   Enter OK"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("g", "talk", "the whole sheet", show=False),
        Binding("enter", "leave", "OK", show=False),
    ]

    def __init__(self, hazards: Sequence[Hazard]) -> None:
        super().__init__("Bench cards" if len(hazards) > 1 else "Bench card", wide=True)
        self.lines = tuple(cards_lines(hazards))

    def inside(self) -> Iterable[Widget]:
        yield Prose(self.lines)

    def action_talk(self) -> None:
        self.dismiss(True)


def show_cards(app: BoardApp, board: Board, hazards: Sequence[Hazard]) -> None:
    """The cards of these hazards over whatever is on the screen."""
    app.push_screen(CardPanel(hazards), partial(_show_whole, app, board, hazards))


def show_cards_of(app: BoardApp, task_id: str) -> None:
    """The cards of a task's hazards, those that its people bring along among them."""
    board = app.board
    hazards = hazards_of(board, task_id, board[task_id].crew)
    if hazards:
        show_cards(app, board, hazards)
    else:
        app.tell("no hazards are listed for it")


def _show_whole(app: BoardApp, board: Board, hazards: Sequence[Hazard], whole: bool | None) -> None:
    if not whole:
        return
    lines: list[Line] = []
    for hazard in hazards:
        lines += [*([GAP, GAP] if lines else []), *hazard_lines(hazard, board.plan.sheets)]
    app.push_screen(Panel("The whole sheet", lines))
