"""Pieces and fabric: what each piece is now, where it and the old one are, how much is original."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.types import CSSPathType
from textual.widget import Widget

from crewboard.order.board import Board
from crewboard.telling.line import Line
from crewboard.telling.pictures import files_of_piece, shown_by_key
from crewboard.telling.record_rows import fabric_rows, piece_beside
from crewboard.terminal.jot_keys import JOT_KEYS, JotKeys
from crewboard.terminal.page import PageWithBeside
from crewboard.terminal.picture_keys import PICTURES_SHOWN_KEY, PictureKeys
from crewboard.terminal.piece_keys import piece_of
from crewboard.terminal.widgets.prose import rows_and_beside
from crewboard.terminal.widgets.rows import Column, RowList

COLUMNS = (
    Column(22),
    Column(),
    Column(24, tone="faint", spare=True),
    Column(7, right=True, tone="faint", spare=True),
)

if TYPE_CHECKING:
    from crewboard.terminal.doing.jot import Of


class FabricPage(PictureKeys, JotKeys, PageWithBeside):
    """Every piece with its state and where it is."""

    CSS_PATH: ClassVar[CSSPathType | None] = "fabric.tcss"
    word = "Fabric"
    explains: ClassVar[tuple[str, ...]] = (
        "What the vehicle is made of now, worked out from the plan and the logbook: original, "
        "spliced, replaced, copied; where each piece and the old one lie; how much is original, "
        "by the measure that stands beside it. Gaps are what a museum would miss on record.",
        "j jots down for the record what was found, done, measured, or put away. Enter opens the "
        "piece's sheet. o corrects an entry on the piece, or takes one back; all entries stand on "
        "the page beside this, with findings, old papers and the short lists.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        *JOT_KEYS,
        PICTURES_SHOWN_KEY,
        Binding("o", "other", "other", id="other", tooltip="correct an entry on it, take one back"),
        Binding("tab", "beside", "findings", id="to-findings", priority=True),
    ]

    def body(self) -> Iterable[Widget]:
        yield rows_and_beside(
            RowList(COLUMNS, empty="no pieces yet: on the vehicle (F3) p adds some", id="pieces")
        )

    def show(self, board: Board) -> None:
        self.fabric = self.board_app.workbench.fabric(board.at)
        self.query_one("#pieces", RowList).fill(fabric_rows(self.fabric))
        self.tell_beside()

    @property
    def chosen_piece(self) -> str:
        return piece_of(self.query_one("#pieces", RowList).at)

    def beside(self) -> list[Line]:
        lines = piece_beside(self.fabric, self.chosen_piece)
        return [*lines, *shown_by_key(self.shown_files)]

    @property
    def shown_files(self) -> tuple[str, ...]:
        return files_of_piece(self.fabric, self.chosen_piece)

    def on_row_list_opened(self, event: RowList.Opened) -> None:
        from crewboard.terminal.screens.piece_sheet import PieceSheetPage

        if piece_of(event.row_id):
            self.app.push_screen(PieceSheetPage(piece_of(event.row_id)))

    @property
    def jotted_of(self) -> Of:
        from crewboard.terminal.doing.jot import Of

        return Of((self.chosen_piece,) if self.chosen_piece else ())

    def action_other(self) -> None:
        from crewboard.terminal.doing.mend import ways_to_mend
        from crewboard.terminal.doing.others import one_of

        record = self.fabric.pieces.get(self.chosen_piece)
        if others := ways_to_mend(self.board_app, record.entries if record else ()):
            self.run_worker(one_of(self.board_app, others))
        else:
            self.board_app.tell("nothing is on record of it yet")

    def action_beside(self) -> None:
        self.board_app.action_open("findings")
