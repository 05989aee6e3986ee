"""The keys that act on pieces: add, edit and take out, and the sheet of one."""

from __future__ import annotations

from textual.binding import Binding

from crewboard.telling.pieces import PIECE_ROW
from crewboard.terminal.keys import PlanKeys

PIECES_KEY = Binding(
    "p", "pieces", "pieces", id="pieces", tooltip="add pieces to the component: 9 ribs, ridge"
)


def piece_of(row_id: str) -> str:
    """The id of the piece or table of a row, empty where the row is of something else."""
    return row_id.removeprefix(PIECE_ROW) if row_id.startswith(PIECE_ROW) else ""


class PieceKeys(PlanKeys):
    """A page on which `chosen_piece` is the id of the piece, or of the table of several, under the
    cursor; empty where it lies on something else."""

    @property
    def chosen_piece(self) -> str:
        raise NotImplementedError

    @property
    def piece_component(self) -> str:
        """The component of the chosen piece, empty where none is chosen."""
        plan, chosen = self.board.plan, self.chosen_piece
        several = plan.several.get(chosen)
        piece = plan.pieces.get(several[0] if several else chosen)
        return piece.component if piece else ""

    def reveal_piece(self, some_id: str) -> None:
        """Show a piece that was just kept, where the page can."""

    def action_pieces(self) -> None:
        plan = self.board.plan
        task = plan.written(self.chosen)
        component = self.piece_component or (task.component if task else self.chosen)
        if component:
            self.board_app.run_worker(self._add_pieces(component))

    def action_add(self) -> None:
        if self.chosen_piece:
            self.board_app.run_worker(self._add(self.piece_component))
        else:
            super().action_add()

    def action_edit(self) -> None:
        if self.chosen_piece:
            self.board_app.run_worker(self._edit_piece(self.chosen_piece))
        else:
            super().action_edit()

    def action_remove(self) -> None:
        from crewboard.terminal.planning.pieces import remove_pieces

        if self.chosen_piece:
            self.board_app.run_worker(remove_pieces(self.board_app, self.chosen_piece))
        else:
            super().action_remove()

    async def _add_pieces(self, component_id: str) -> None:
        from crewboard.terminal.planning.pieces import add_pieces

        if added := await add_pieces(self.board_app, component_id):
            self.reveal_piece(added)

    async def _edit_piece(self, some_id: str) -> None:
        from crewboard.terminal.planning.piece_form import edit_piece

        if kept := await edit_piece(self.board_app, some_id):
            self.reveal_piece(kept)
