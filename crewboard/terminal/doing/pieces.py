"""Say what became of a piece: it failed, a spare takes its place."""

from __future__ import annotations

from crewboard.logbook.acts import PieceFailed, TookPlace
from crewboard.logbook.kinds import BY_WORD
from crewboard.order.board import Board
from crewboard.plan.piece import Piece
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.pick import Choice, PickOne
from crewboard.terminal.doing.entry_form import write_entry


async def piece_failed(app: BoardApp, piece_id: str) -> None:
    """Ask why, and whether it is made anew; and write that it failed."""
    kind = next(kind for kind in BY_WORD.values() if kind.act is PieceFailed)
    name = app.board.plan.pieces[piece_id].name
    if await write_entry(app, kind, {"piece": piece_id}, f"Failed: {name}"):
        app.tell(f"failed: {name}")


async def spare_for(app: BoardApp, piece_id: str) -> None:
    """Pick one of the spares of its kind that are left, and write that it takes the place."""
    piece = app.board.plan.pieces[piece_id]
    left = spares_left(app.board, piece)
    if not left:
        app.tell(f'no spare of the kind of "{piece.name}" is left', warning=True)
        return
    choices = [Choice(spare.id, spare.name) for spare in left]
    spare = await app.push_screen_wait(PickOne(f"Takes the place of {piece.name}", choices))
    if spare is None:
        return
    why = await app.push_screen_wait(AskLine(f"Instead of {piece.name}", "why", needed=False))
    if why is not None and (await app.keep([TookPlace(spare, piece_id, why)])).kept:
        app.tell(f"{app.board.plan.pieces[spare].name} takes the place of {piece.name}")


def spares_left(board: Board, piece: Piece) -> list[Piece]:
    """The spares of its kind that neither failed nor stand for another."""
    of_its_kind = (board.plan.pieces[one] for one in board.plan.several.get(piece.several, ()))
    gone = {*board.history.failed, *board.history.stands_for}
    return [one for one in of_its_kind if one.spare and one.id not in gone and one != piece]
