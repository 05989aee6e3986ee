"""What was found, done and listed for the record; what waits to be sorted."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.types import CSSPathType
from textual.widget import Widget

from crewboard.logbook.acts import Found
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.telling.line import Line
from crewboard.telling.pictures import files_of_entry, shown_by_key
from crewboard.telling.record_entries import (
    WAIT_ROW,
    By,
    entries_of,
    entry_beside,
    on_what,
    record_rows,
)
from crewboard.terminal.jot_keys import COMES_OF_IT_KEYS, JOT_KEYS, JotKeys
from crewboard.terminal.page import PageWithBeside
from crewboard.terminal.picture_keys import PICTURES_SHOWN_KEY, PictureKeys
from crewboard.terminal.widgets.prose import rows_and_beside
from crewboard.terminal.widgets.rows import Column, RowList

if TYPE_CHECKING:
    from crewboard.terminal.doing.jot import Of

COLUMNS = (Column(11), Column(), Column(20, tone="faint", spare=True))
_TURNS: tuple[By, ...] = ("kind", "component", "day")


class FindingsPage(PictureKeys, JotKeys, PageWithBeside):
    """The entries of the record, the last one first: by kind, by component, or by day."""

    CSS_PATH: ClassVar[CSSPathType | None] = "findings.tcss"
    word = "Findings"
    explains: ClassVar[tuple[str, ...]] = (
        "What was seen and, apart from it, what is thought of it; what is temporary and must be "
        "undone; what was done to pieces, and their pictures; sizes decided on, measurements, "
        "layers of paint, earlier repairs, departures from how it was built, patterns, old "
        "photographs and papers. The left and right arrows put them by kind, by component and "
        "piece, or by day; / finds a piece, a component, a kind or a word.",
        "j jots something down on what the entry under the cursor is on. Enter on a finding asks "
        "what comes of it: a task, a hold, a piece kept for ever, an order; each names the "
        "finding. Enter on anything else shows all of it.",
        "e corrects an entry with a new one that names it, Delete takes it back; what was written "
        "stays to be read on the page of the logbook.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        *JOT_KEYS,
        *COMES_OF_IT_KEYS,
        PICTURES_SHOWN_KEY,
        Binding("e", "edit", "edit: correct", id="correct", tooltip="correct it by a new entry"),
        Binding("delete", "remove", "take back", id="take-back", tooltip="take the entry back"),
        Binding(
            *("right", "turn(1)", "by kind, component, day"),
            id="by-next",
            tooltip="by kind, by component and piece, by day",
            key_display="Left, right",
        ),
        Binding("left", "turn(-1)", "by", show=False, id="by-last"),
        Binding("tab", "beside", "fabric", id="to-fabric", priority=True),
    ]

    def __init__(self) -> None:
        super().__init__()
        self.by: By = "kind"
        self._entries: dict[str, Entry] = {}

    def body(self) -> Iterable[Widget]:
        empty = "nothing is on record yet: j jots the first thing down"
        yield rows_and_beside(RowList(COLUMNS, empty=empty, id="findings"))

    @property
    def _rows(self) -> RowList:
        return self.query_one("#findings", RowList)

    def show(self, board: Board) -> None:
        fabric = self.board_app.workbench.fabric(board.at)
        self._entries = {entry.id: entry for entry in entries_of(board, fabric)}
        self._fill()

    def _fill(self) -> None:
        self._rows.fill(record_rows(self.board, self._entries.values(), self.by))
        self.tell_beside()

    def beside(self) -> list[Line]:
        lines = entry_beside(self.board, self._entries.get(self._rows.at))
        return [*lines, *shown_by_key(self.shown_files)]

    @property
    def shown_files(self) -> tuple[str, ...]:
        return files_of_entry(self._entries.get(self._rows.at))

    # --- the keys ------------------------------------------------------------------------------

    def on_row_list_opened(self, event: RowList.Opened) -> None:
        if event.row_id == WAIT_ROW:
            from crewboard.terminal.screens.sorting import SortingPage

            self.app.push_screen(SortingPage())
        elif entry := self._entries.get(event.row_id):
            self._open(entry)

    def _open(self, entry: Entry) -> None:
        if isinstance(entry.act, Found):
            from crewboard.terminal.doing.from_finding import from_finding

            self.run_worker(from_finding(self.board_app, entry))
            return
        from crewboard.terminal.doing.mend import show_entry

        show_entry(self.board_app, entry.id)

    def action_turn(self, step: int) -> None:
        self.by = _TURNS[(_TURNS.index(self.by) + step) % len(_TURNS)]
        self._fill()

    @property
    def jotted_of(self) -> Of:
        """What the entry under the cursor is on, where it is on something."""
        from crewboard.terminal.doing.jot import Of

        return Of(*on_what(self.board, self._entries.get(self._rows.at)))

    def action_comes_of_it(self, way: str) -> None:
        """A task, a hold, a piece kept for ever or an order, of the finding under the cursor."""
        from crewboard.terminal.doing.from_finding import from_finding

        entry = self._entries.get(self._rows.at)
        if entry is not None and isinstance(entry.act, Found):
            self.run_worker(from_finding(self.board_app, entry, way))
        else:
            self.board_app.tell("that comes of a finding: go to one")

    @work
    async def action_edit(self) -> None:
        from crewboard.terminal.doing.mend import correct_entry

        if entry := self._entries.get(self._rows.at):
            await correct_entry(self.board_app, entry.id)

    @work
    async def action_remove(self) -> None:
        from crewboard.terminal.doing.mend import take_back_entry

        if entry := self._entries.get(self._rows.at):
            await take_back_entry(self.board_app, entry.id)

    def action_beside(self) -> None:
        self.board_app.action_open("fabric")
