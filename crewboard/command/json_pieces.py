"""The form of `--json` (see `json_form`) for pieces."""

from __future__ import annotations

from collections.abc import Iterable

from crewboard.command.json_form import Form, form_of
from crewboard.order.board import Board, Standing
from crewboard.plan.piece import Piece
from crewboard.telling.pieces import Pieces


def pieces_form(board: Board, pieces: Iterable[Piece]) -> Form:
    work = Pieces(board).work
    forms = [_piece(board, piece, work.get(piece.id, ())) for piece in pieces]
    return form_of("pieces", at=board.at, pieces=forms)


def _piece(board: Board, piece: Piece, work: Iterable[Standing]) -> dict[str, object]:
    history = board.history
    failed = history.failed.get(piece.id)
    return {
        **piece._asdict(),
        "several": piece.several or None,
        "number": piece.number or None,
        "failed": getattr(failed.act, "why", "") if failed else None,
        "replaced_by": [spare for spare, of in history.stands_for.items() if of == piece.id],
        "stands_for": [of for spare, of in history.stands_for.items() if spare == piece.id],
        "tasks": [{"id": standing.task.id, "state": standing.state} for standing in work],
        "holds": [hold.id for hold in board.stopping() if piece.id in hold.pieces],
    }
