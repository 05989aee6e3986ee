"""Mistakes in the folder's files: where each is, what is wrong, how to mend it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.types import CSSPathType
from textual.widget import Widget

from crewboard.folder.read.fault import Fault
from crewboard.order.board import Board
from crewboard.order.said import how_many
from crewboard.telling.line import Line, step_by_step
from crewboard.telling.row import Row
from crewboard.terminal.page import PageWithBeside
from crewboard.terminal.widgets.prose import Beside
from crewboard.terminal.widgets.rows import Column, RowList


class MistakesPage(PageWithBeside):
    """Read them, and open the file at the line."""

    CSS_PATH: ClassVar[CSSPathType | None] = "mistakes.tcss"
    word = "Mistakes"
    explains: ClassVar[tuple[str, ...]] = (
        "Every mistake that was found in the folder's files, with file, line and column, and how "
        "to mend it. The rest of the folder can be worked with meanwhile; nothing is ever written "
        "over a file that cannot be read.",
        "Enter opens the file in the editor that VISUAL or EDITOR names, at the line. What is "
        "mended and saved there goes from this list at once, and so it does in any other editor.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "open", "open", show=False, tooltip="open the file at the line"),
        Binding("escape", "back", "back", id="back"),
    ]

    def body(self) -> Iterable[Widget]:
        yield RowList((Column(),), empty="No mistakes.", id="faults")
        yield Beside()

    def look_again(self) -> None:
        """The faults may change where the board does not: always shown anew."""
        self._shown = None
        super().look_again()

    def show(self, board: Board) -> None:  # noqa: ARG002
        self.faults = list(self.board_app.workbench.faults)
        rows = [_row(number, fault) for number, fault in enumerate(self.faults)]
        self.query_one("#faults", RowList).fill(rows)
        self.tell_beside()
        self.query_one("#beside").display = bool(rows)

    @property
    def chosen(self) -> Fault | None:
        at = self.query_one("#faults", RowList).at
        return self.faults[int(at)] if at and int(at) < len(self.faults) else None

    def beside(self) -> list[Line]:
        fault = self.chosen
        lines: list[Line] = []  # the list says already that there are none
        if fault is not None:
            where = f"{fault.file}, line {fault.line}, column {fault.column}"
            lines = [
                Line(where, "strong", 0, "where:"),
                Line(fault.sentence, "warning", 0, "wrong:"),
                *step_by_step(fault.steps),
            ]
            if fault.hint:
                lines.append(Line(fault.hint, "must", 0, "mend:"))
            if fault.follow:
                lines.append(Line(fault.following, "plain"))
            count = how_many(len(self.faults), "mistake")
            lines.append(Line(f"{count} in all; Enter opens the file", "faint"))
        return lines

    def on_row_list_opened(self) -> None:
        self.action_open()

    def action_open(self) -> None:
        from crewboard.terminal.editor import open_in_editor

        if self.chosen is not None:
            open_in_editor(self.board_app, self.chosen.file, self.chosen.line)


def _row(number: int, fault: Fault) -> Row:
    place = f"{fault.file}:{fault.line}:{fault.column}"
    return Row(str(number), (place,), "warning", (fault.whole,), find=fault.hint)
