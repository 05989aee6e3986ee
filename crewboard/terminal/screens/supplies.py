"""Supplies: what is here, what is ordered, what is overdue, and which work waits for it."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from typing import ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.types import CSSPathType
from textual.widget import Widget

from crewboard.order.board import Board
from crewboard.telling.line import Line
from crewboard.telling.supplies import HERE, ORDERED, OVERDUE, group_of, supply_lines, supply_rows
from crewboard.terminal.doing.others import Other, one_of
from crewboard.terminal.page import PageWithBeside
from crewboard.terminal.widgets.prose import rows_and_beside
from crewboard.terminal.widgets.rows import Column, RowList

# What becomes of a supply, by the word of its entry.
BECAME = {
    "ordered": "and for when it is promised",
    "arrived": "all of it, or some",
    "sent back": "it was wrong or spoiled",
    "used": "on the work",
}
_NEXT = {OVERDUE: "arrived", ORDERED: "arrived", HERE: "used"}
COLUMNS = (Column(11), Column(), Column(16, tone="faint"), Column(8, right=True, tone="faint"))


class SuppliesPage(PageWithBeside):
    """Write down orders and arrivals; edit what is needed."""

    CSS_PATH: ClassVar[CSSPathType | None] = "supplies.tcss"
    word = "Supplies"
    explains: ClassVar[tuple[str, ...]] = (
        "What the tasks need that has to be bought, milled or lent. A task is not ready before "
        "all of its supplies are here.",
        "o writes into the logbook that something was ordered, and for when it is promised; "
        "that it arrived, that it was sent back, that it was used on the work. "
        "An amount that is left empty means all of it. New supplies go into supplies.toml.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            *("o", "other", "other: ordered, arrived, sent back, used"),
            id="other",
            tooltip="what became of it: ordered, arrived, sent back, used",
        ),
        Binding("e", "edit", "edit", id="edit", tooltip="edit the supply"),
        Binding("a", "add", "add", id="add", tooltip="add a new supply"),
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
    async def action_other(self) -> None:
        """Write down what became of the supply; the cursor is on what comes next."""
        from crewboard.terminal.doing.entry_form import write_of_supply

        app, supply = self.board_app, self.chosen
        if supply:
            others = [
                Other(word, says, partial(write_of_supply, app, word, supply))
                for word, says in BECAME.items()
            ]
            await one_of(app, others, at=_NEXT.get(group_of(self.board.stock[supply]), "ordered"))

    @work
    async def action_edit(self) -> None:
        from crewboard.terminal.planning.supply_form import ask_supply

        if self.chosen:
            await ask_supply(self.board_app, self.chosen)

    @work
    async def action_add(self) -> None:
        from crewboard.terminal.planning.supply_form import ask_supply

        if made := await ask_supply(self.board_app, ""):
            self.query_one("#supplies", RowList).go_to(made)

    @work
    async def action_remove(self) -> None:
        from crewboard.terminal.planning.supply_form import remove_supply

        if self.chosen:
            await remove_supply(self.board_app, self.chosen)
