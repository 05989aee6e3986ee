"""Say what became of a piece: it failed, and is made anew or not; a spare takes its place."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from crewboard.logbook.acts import Act, PieceFailed, TookPlace
from crewboard.logbook.kinds import BY_WORD
from crewboard.logbook.on_several import on_pieces
from crewboard.logbook.state import STATES
from crewboard.order.board import Board
from crewboard.order.said import pieces_in_words
from crewboard.plan.piece import Piece
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.pick import Choice, PickOne
from crewboard.terminal.doing.entry_form import write_entry
from crewboard.terminal.doing.which import which
from crewboard.terminal.meant import Meant


async def piece_failed(app: BoardApp, *pieces: str) -> bool:
    """Ask why, and whether they are made anew, and write that they failed; a piece that is not
    known yet is picked. Whether it was kept."""
    kind = next(kind for kind in BY_WORD.values() if kind.act is PieceFailed)
    names = pieces_in_words(app.board.plan, pieces)

    def on_each(act: Act) -> Sequence[Act]:
        return on_pieces(act, pieces)

    preset = {"piece": pieces[0]} if pieces else {}
    kept = await write_entry(
        app, kind, preset, f"Failed: {names}" if pieces else "", spread=on_each
    )
    if kept:
        app.tell(f"failed: {names}" if pieces else "saved in the logbook")
    return kept


async def tasks_piece_failed(app: BoardApp, meant: Meant) -> bool:
    """The same of the pieces that these tasks are done to; of a series some are picked first."""
    if not pieces_of_tasks(app.board, meant.tasks):
        return await piece_failed(app)
    pieces = pieces_of_tasks(app.board, await which(app, meant, "Failed: which", STATES))
    return bool(pieces) and await piece_failed(app, *pieces)


async def spare_for(app: BoardApp, piece_id: str) -> bool:
    """Pick one of the spares of its kind that are left, and write that it takes the place."""
    piece = app.board.plan.pieces[piece_id]
    left = spares_left(app.board, piece)
    if not left:
        app.tell(f'no spare of the kind of "{piece.name}" is left', warning=True)
        return False
    choices = [Choice(spare.id, spare.name) for spare in left]
    spare = await app.push_screen_wait(PickOne(f"Takes the place of {piece.name}", choices))
    return spare is not None and await _takes_place(app, spare, piece_id)


async def spare_for_tasks(app: BoardApp, meant: Meant) -> bool:
    """A spare takes the place of one of the pieces of these tasks, or one of them is the spare;
    without such tasks, of any piece."""
    board = app.board
    known = pieces_of_tasks(board, meant.tasks)
    if len(known) == 1 and _is_left(board, board.plan.pieces[known[0]]):
        spare = board.plan.pieces[known[0]]
        places = [one for one in board.plan.pieces.values() if _may_stand_for(board, spare, one)]
        instead = await _pick(app, f"{spare.name} takes the place of which?", places)
        return instead is not None and await _takes_place(app, spare.id, instead)
    pieces = [board.plan.pieces[piece] for piece in known] or list(board.plan.pieces.values())
    places = [one for one in pieces if any(_may_stand_for(board, s, one) for s in spares(board))]
    instead = await _pick(app, "A spare takes the place of which?", places)
    return instead is not None and await spare_for(app, instead)


async def _takes_place(app: BoardApp, spare: str, piece_id: str) -> bool:
    plan = app.board.plan
    name = plan.pieces[piece_id].name
    why = await app.push_screen_wait(AskLine(f"Instead of {name}", "why", needed=False))
    kept = why is not None and (await app.keep([TookPlace(spare, piece_id, why)])).kept
    if kept:
        app.tell(f"{plan.pieces[spare].name} takes the place of {name}")
    return kept


async def _pick(app: BoardApp, title: str, pieces: Iterable[Piece]) -> str | None:
    """One of these pieces, those that failed first; without a question where there is only one."""
    failed = app.board.history.failed
    order = sorted(pieces, key=lambda piece: piece.id not in failed)
    if len(order) == 1:
        return order[0].id
    choices = [
        Choice(piece.id, piece.name, "failed" if piece.id in failed else "", "plain", piece.id)
        for piece in order
    ]
    empty = "no spare is left, or nothing that it could stand for"
    return await app.push_screen_wait(PickOne(title, choices, empty=empty))


def pieces_of_tasks(board: Board, tasks: Iterable[str]) -> tuple[str, ...]:
    """The pieces that these tasks are done to, as far as the plan knows them."""
    named = (piece for task in tasks for piece in board.plan.tasks[task].pieces)
    return tuple(dict.fromkeys(piece for piece in named if piece in board.plan.pieces))


def spares_left(board: Board, piece: Piece) -> list[Piece]:
    """The spares of its kind that neither failed nor stand for another."""
    return [spare for spare in spares(board) if spare.several == piece.several and spare != piece]


def spares(board: Board) -> list[Piece]:
    """Every spare that neither failed nor stands for another."""
    return [piece for piece in board.plan.pieces.values() if _is_left(board, piece)]


def _is_left(board: Board, piece: Piece) -> bool:
    gone = {*board.history.failed, *board.history.stands_for}
    return piece.spare and piece.id not in gone


def _may_stand_for(board: Board, spare: Piece, piece: Piece) -> bool:
    """Whether the piece is of the spare's kind, has a place, and nothing took that yet."""
    stands_for = board.history.stands_for
    has_place = not piece.spare or piece.id in stands_for
    return has_place and spare.several == piece.several and piece.id not in stands_for.values()
