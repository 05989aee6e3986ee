"""One piece's whole sheet on a screen of its own."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget

from crewboard.order.board import Board
from crewboard.telling.line import Line
from crewboard.telling.pictures import files_of_piece
from crewboard.telling.piece_sheet import piece_sheet
from crewboard.telling.record_rows import piece_beside
from crewboard.terminal.jot_keys import JOT_KEYS, JotKeys
from crewboard.terminal.picture_keys import PICTURES_SHOWN_KEY, PictureKeys
from crewboard.terminal.piece_keys import PieceKeys
from crewboard.terminal.widgets.prose import Prose

if TYPE_CHECKING:
    from crewboard.terminal.doing.jot import Of


class PieceSheetPage(PictureKeys, JotKeys, PieceKeys):
    """Read what is known of a piece, and say what became of it."""

    CSS_PATH = "piece_sheet.tcss"
    word = "Piece"
    explains: ClassVar[tuple[str, ...]] = (
        "Everything known of one piece: as it was found, what is intended, what it is now and "
        "where the old one lies, which work is done to it and how far that is, the holds on it, "
        "and what the logbook says.",
        "o says that it failed: it split, broke or came out wrong; or that a spare takes its "
        "place: what is still to be done to it is done to the spare. o also corrects an entry of "
        "its record, or takes one back.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            *("o", "other", "other: failed, spare"),
            id="other",
            tooltip="it split, came out wrong; a spare takes its place; correct or take back",
        ),
        *JOT_KEYS,
        PICTURES_SHOWN_KEY,
        Binding("e", "edit", "edit", id="edit", tooltip="edit what is said of it alone"),
        Binding("escape", "back", "back", id="back"),
    ]

    def __init__(self, piece_id: str) -> None:
        super().__init__()
        self.piece_id = piece_id

    def body(self) -> Iterable[Widget]:
        yield Prose(id="sheet")

    def show(self, board: Board) -> None:
        prose = self.query_one(Prose)
        if self.piece_id in board.plan.pieces:
            self.fabric = self.board_app.workbench.fabric(board.at)
            now = piece_beside(self.fabric, self.piece_id)
            prose.tell(piece_sheet(board, self.piece_id, now), from_top=False)
        else:
            gone = f'there is no piece "{self.piece_id}" in the plan any more'
            prose.tell([Line(gone, "warning")])

    @property
    def chosen(self) -> str:
        return ""

    @property
    def chosen_piece(self) -> str:
        return self.piece_id if self.piece_id in self.board.plan.pieces else ""

    @property
    def shown_files(self) -> tuple[str, ...]:
        fabric = self.board_app.workbench.fabric(self.board.at)
        return files_of_piece(fabric, self.piece_id)

    @property
    def jotted_of(self) -> Of | None:
        from crewboard.terminal.doing.jot import Of

        return Of((self.chosen_piece,)) if self.chosen_piece else None

    def reveal_piece(self, some_id: str) -> None:
        if some_id in self.board.plan.pieces:
            self.piece_id = some_id
        self.show(self.board)

    def action_other(self) -> None:
        from crewboard.terminal.doing.mend import ways_to_mend
        from crewboard.terminal.doing.others import Other, one_of
        from crewboard.terminal.doing.pieces import piece_failed, spare_for

        app, piece = self.board_app, self.chosen_piece
        if piece:
            others = (
                Other(
                    "failed", "it split, broke, came out wrong", partial(piece_failed, app, piece)
                ),
                Other("spare", "a spare takes its place", partial(spare_for, app, piece)),
                *ways_to_mend(app, self.fabric.pieces[piece].entries),
            )
            app.run_worker(one_of(app, others))
