"""The logbook: every line by day, by person or by task; correct, take back."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.timer import Timer
from textual.types import CSSPathType
from textual.widget import Widget

from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.terminal.page import Page
from crewboard.terminal.screens.logbook_rows import (
    OUTER,
    WIDE_FROM,
    By,
    Lines,
    inner_columns,
    inner_rows,
    key_of,
    lines_by,
    outer_rows,
)
from crewboard.terminal.widgets.rows import RowList

_TURNS: tuple[By, ...] = ("day", "person", "task")


class LogbookPage(Page):
    """Choose a day, a person or a task; read its lines."""

    CSS_PATH: ClassVar[CSSPathType | None] = "logbook.tcss"
    word = "Logbook"
    explains: ClassVar[tuple[str, ...]] = (
        "What happened, entry by entry, as it was written: by day, by person or by task; the left "
        "and right arrows change that. Enter goes into the entries, Esc comes back, Tab changes "
        "sides.",
        "No entry is ever changed. e corrects one with a new entry that names it, Delete takes "
        "one back; the old entry stays to be read, struck through and with the word CORRECTED or "
        "TAKEN BACK, and does not count any more.",
        "u undoes what was last written in this sitting; that too is a new entry.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            *("right", "turn(1)", "by day, person, task"),
            id="by-next",
            tooltip="by day, by person, by task",
            key_display="Left, right",
        ),
        Binding("left", "turn(-1)", "by", show=False, id="by-last"),
        Binding("e", "edit", "edit: correct", id="correct", tooltip="correct it by a new entry"),
        Binding("delete", "remove", "take back", id="take-back", tooltip="take the entry back"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self.by: By = "day"
        self._lines: Lines = {}
        self._soon: Timer | None = None

    def body(self) -> Iterable[Widget]:
        yield Container(
            RowList(OUTER, empty="the logbook is empty", wide_from=0, id="outer"),
            RowList(inner_columns(()), empty="nothing written", wide_from=WIDE_FROM, id="inner"),
            id="split",
        )

    def show(self, board: Board) -> None:
        self._lines = {} if self.by == "day" else lines_by(board, self.by)
        self._outer.fill(outer_rows(board, self.by, self._lines))
        self._show_lines()

    @property
    def _outer(self) -> RowList:
        return self.query_one("#outer", RowList)

    @property
    def _inner(self) -> RowList:
        return self.query_one("#inner", RowList)

    def _show_lines(self) -> None:
        lines = self._of(self._outer.at)
        self._inner.columns = inner_columns(lines)
        width = self._inner.scrollable_content_region.width
        self._inner.fill(inner_rows(self.board, lines, width, self.by != "day"))

    def _of(self, chosen: str) -> list[tuple[Day, Entry]]:
        if self.by != "day":
            return self._lines.get(chosen, [])
        day = self.board.logbook.days.get(date.fromisoformat(chosen)) if chosen else None
        if day is None:
            return []
        return [(day, entry) for entry in sorted(day.entries, key=lambda e: e.at)]

    # --- going about ---------------------------------------------------------------------------

    def on_row_list_moved(self, event: RowList.Moved) -> None:
        if event.rows is not self._outer:
            return
        if self.by == "day":
            self._show_lines()
            return
        # A person's lines may be thousands: they are laid out once the cursor rests.
        if self._soon is not None:
            self._soon.stop()
        self._soon = self.set_timer(0.05, self._show_lines)

    def on_resize(self) -> None:
        self.call_after_refresh(self._show_lines)

    def on_row_list_opened(self, event: RowList.Opened) -> None:
        if event.rows is self._outer:
            self._inner.focus()
        else:
            self._tell_all(event.row_id)

    def action_back(self) -> None:
        if self._inner.has_focus:
            self._outer.focus()
        else:
            super().action_back()

    def action_turn(self, step: int) -> None:
        self.by = _TURNS[(_TURNS.index(self.by) + step) % len(_TURNS)]
        self.query_one("#outer", RowList).query_text = ""
        self.show(self.board)
        self._outer.action_end(-1)
        self._outer.focus()

    @property
    def searched(self) -> RowList:
        """A find looks in the list that was last gone through."""
        return self._inner if self._in_lines else self._outer

    _in_lines = False

    def on_descendant_focus(self) -> None:
        if self.focused in (self._inner, self._outer):
            self._in_lines = self.focused is self._inner

    # --- the line under the cursor -------------------------------------------------------------

    def _line(self) -> tuple[Day, Entry] | None:
        key = key_of(self._inner.at)
        day = self.board.logbook.days.get(key.day) if key else None
        if day is None or key is None:
            return None
        return next(((day, e) for e in day.entries if e.id == key.entry), None)

    def _tell_all(self, row_id: str) -> None:
        from crewboard.terminal.dialogs.dialog import Panel
        from crewboard.terminal.entry_lines import entry_lines

        if row_id and (line := self._line()):
            self.app.push_screen(Panel("An entry of the logbook", entry_lines(self.board, *line)))

    @work
    async def action_edit(self) -> None:
        from crewboard.terminal.doing.correct import correct

        if line := self._line():
            await correct(self.board_app, *line)

    @work
    async def action_remove(self) -> None:
        from crewboard.terminal.doing.correct import take_back

        if line := self._line():
            await take_back(self.board_app, *line)
