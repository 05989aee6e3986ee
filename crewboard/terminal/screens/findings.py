"""What was found, and the short lists beside the pieces; what waits to be sorted."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.types import CSSPathType
from textual.widget import Widget

from crewboard.logbook.acts import Found
from crewboard.order.board import Board
from crewboard.telling.line import Line
from crewboard.telling.pictures import files_of_entry, shown_by_key
from crewboard.telling.record_rows import WAIT_ROW, entry_beside, listed_entry, record_rows
from crewboard.terminal.keys import JOT_KEY
from crewboard.terminal.page import PageWithBeside
from crewboard.terminal.picture_keys import PICTURES_SHOWN_KEY, PictureKeys
from crewboard.terminal.widgets.prose import rows_and_beside
from crewboard.terminal.widgets.rows import Column, RowList

COLUMNS = (Column(11), Column(), Column(20, tone="faint"))


class FindingsPage(PictureKeys, PageWithBeside):
    """Findings, the last one first, then what is listed beside the pieces."""

    CSS_PATH: ClassVar[CSSPathType | None] = "findings.tcss"
    word = "Findings"
    explains: ClassVar[tuple[str, ...]] = (
        "What was seen and, apart from it, what is thought of it; what is temporary and must be "
        "undone; sizes decided on, measurements, layers of paint, earlier repairs, departures from "
        "how it was built, patterns, old photographs and papers.",
        "j jots something down. Enter on a finding asks what comes of it: a task, a hold, a piece "
        "kept for ever, an order; each names the finding. Entries are corrected and struck out on "
        "the page of the logbook.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        JOT_KEY,
        PICTURES_SHOWN_KEY,
        Binding("tab", "beside", "fabric", id="to-fabric", priority=True),
    ]

    def body(self) -> Iterable[Widget]:
        empty = "nothing is on record yet: j jots the first thing down"
        yield rows_and_beside(RowList(COLUMNS, empty=empty, id="findings"))

    def show(self, board: Board) -> None:
        self.fabric = self.board_app.workbench.fabric(board.at)
        self.query_one("#findings", RowList).fill(record_rows(board, self.fabric))
        self.tell_beside()

    def beside(self) -> list[Line]:
        lines = entry_beside(self.board, self.fabric, self.query_one("#findings", RowList).at)
        return [*lines, *shown_by_key(self.shown_files)]

    @property
    def shown_files(self) -> tuple[str, ...]:
        return files_of_entry(listed_entry(self.fabric, self.query_one("#findings", RowList).at))

    def on_row_list_opened(self, event: RowList.Opened) -> None:
        if event.row_id == WAIT_ROW:
            from crewboard.terminal.screens.sorting import SortingPage

            self.app.push_screen(SortingPage())
            return
        entry = listed_entry(self.fabric, event.row_id)
        if entry is not None and isinstance(entry.act, Found):
            from crewboard.terminal.doing.from_finding import from_finding

            self.run_worker(from_finding(self.board_app, entry))

    def action_jot(self) -> None:
        from crewboard.terminal.doing.jot import Of, jot

        self.run_worker(jot(self.board_app, Of()))

    def action_beside(self) -> None:
        self.board_app.action_open("fabric")
