"""Supplies: what is here, what is ordered, what is overdue, and which work waits for it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.types import CSSPathType
from textual.widget import Widget

from crewboard.order.board import Board
from crewboard.telling.line import Line
from crewboard.telling.supplies import supply_lines, supply_rows
from crewboard.terminal.page import PageWithBeside
from crewboard.terminal.widgets.prose import rows_and_beside
from crewboard.terminal.widgets.rows import Column, RowList

COLUMNS = (Column(11), Column(), Column(16, tone="faint"), Column(8, right=True, tone="faint"))


class SuppliesPage(PageWithBeside):
    """Write down orders and arrivals; edit what is needed."""

    CSS_PATH: ClassVar[CSSPathType | None] = "supplies.tcss"
    word = "Supplies"
    explains: ClassVar[tuple[str, ...]] = (
        "What the tasks need that has to be bought, milled or lent. A task is not ready before "
        "all of its supplies are here.",
        "o writes into the logbook that something was ordered, and for when it is promised; "
        "j writes that it arrived, s that it was sent back, t that it was used on the work. "
        "An amount that is left empty means all of it. New supplies go into supplies.toml.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "o", "became('ordered')", "ordered", id="ordered", tooltip="it was ordered; for when"
        ),
        Binding("j", "became('arrived')", "arrived", id="arrived", tooltip="it arrived"),
        Binding("s", "became('sent back')", "sent back", id="sent-back", tooltip="it went back"),
        Binding("t", "became('used')", "used", id="taken", tooltip="it was used on the work"),
        Binding("e", "edit", "edit", id="edit", tooltip="edit the supply"),
        Binding("a", "new", "add", id="new", tooltip="add a new supply"),
        Binding("delete", "remove", "remove", show=False, id="remove", tooltip="remove it"),
    ]

    def body(self) -> Iterable[Widget]:
        yield rows_and_beside(
            RowList(COLUMNS, empty="no supplies yet: a writes the first one", id="supplies")
        )

    def show(self, board: Board) -> None:
        self.query_one("#supplies", RowList).fill(supply_rows(board))
        self.tell_beside()

    @property
    def chosen(self) -> str:
        return self.query_one("#supplies", RowList).at

    def beside(self) -> list[Line]:
        return supply_lines(self.board, self.chosen)

    def on_row_list_opened(self, event: RowList.Opened) -> None:
        from crewboard.terminal.dialogs.dialog import Panel

        self.app.push_screen(Panel("Supply", supply_lines(self.board, event.row_id)))

    @work
    async def action_became(self, word: str) -> None:
        """Write down what became of the supply, by an entry of that word."""
        from crewboard.terminal.doing.entry_form import write_of_supply

        if self.chosen:
            await write_of_supply(self.board_app, word, self.chosen)

    @work
    async def action_edit(self) -> None:
        from crewboard.terminal.planning.supply_form import ask_supply

        if self.chosen:
            await ask_supply(self.board_app, self.chosen)

    @work
    async def action_new(self) -> None:
        from crewboard.terminal.planning.supply_form import ask_supply

        if made := await ask_supply(self.board_app, ""):
            self.query_one("#supplies", RowList).go_to(made)

    @work
    async def action_remove(self) -> None:
        from crewboard.terminal.planning.supply_form import remove_supply

        if self.chosen:
            await remove_supply(self.board_app, self.chosen)
