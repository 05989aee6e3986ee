"""Tags for pieces that are taken off, and the list that hangs at the shelf they go to.

Where a piece lies is written by hand: the plan does not know it.
"""

from collections.abc import Iterator

from crewboard.order.board import Board
from crewboard.order.said import component_name, day_in_words
from crewboard.plan.piece import Piece
from crewboard.telling.report import (
    Card,
    Cards,
    Cell,
    Chapter,
    Fill,
    Request,
    RuledTable,
    Sheet,
    TableColumn,
)

_KEEP = "FOR EVER as it is: never cut, strip or paint over"
_NONE = "The plan names no pieces here."


def report(request: Request) -> Cards:
    """A tag for each piece, those of one component beside one another."""
    board = request.board
    cards = tuple(_tag(board, piece) for piece in pieces_asked_for(request))
    return Cards(f"Tags for pieces: {board.plan.vehicle.name}", cards, _NONE)


def pieces_asked_for(request: Request) -> Iterator[Piece]:
    """All pieces but those that failed, or those of one component with its parts."""
    plan, failed = request.board.plan, request.board.history.failed
    inside = plan.with_parts(request.component) if request.component else plan.components
    return (p for p in plan.pieces.values() if p.component in inside and p.id not in failed)


def _tag(board: Board, piece: Piece) -> Card:
    runs = f"from {piece.runs_from} to {piece.runs_to}" if piece.runs_from or piece.runs_to else ""
    facts: list[tuple[str, Cell]] = [
        ("keep", _KEEP if piece.keep else ""),
        ("what", what_it_is(piece)),
        ("from", from_where(board, piece)),
        ("runs", runs),
        ("as found", _as_found(board, piece)),
        ("to do", piece.intended),
        ("why", piece.why),
        ("to shelf", Fill("line")),
        ("off on, by", Fill("line")),
    ]
    shown = tuple(fact for fact in facts if fact[1])
    return Card(piece.id, piece.name, shown, "danger" if piece.keep else "strong")


def what_it_is(piece: Piece) -> str:
    """ "window pane, safety glass, 4 mm"; of a spare that it is one."""
    spare = "spare" if piece.spare else ""
    return ", ".join(filter(None, (spare, piece.kind, piece.material, piece.size)))


def from_where(board: Board, piece: Piece) -> str:
    """The component or part, and the place on the vehicle."""
    return ", ".join(filter(None, (component_name(board.plan, piece.component), piece.place)))


def _as_found(board: Board, piece: Piece) -> str:
    found = piece.as_found if piece.as_found != "unknown" else ""
    of_time = board.plan.vehicle.time_in_words(piece.period)
    return ", ".join(filter(None, (found, of_time, piece.condition)))


def shelf_list(request: Request) -> Sheet:
    """What comes off, by component, with room for the shelf and for the day it goes back."""
    board = request.board
    by_component: dict[str, list[Piece]] = {}
    for piece in pieces_asked_for(request):
        by_component.setdefault(piece.component, []).append(piece)
    chapters = tuple(
        Chapter(component_name(board.plan, component), table=_table(pieces))
        for component, pieces in by_component.items()
    )
    title = f"Shelf list, {day_in_words(board.at)}: {board.plan.vehicle.name}"
    return Sheet(title, "", chapters or (Chapter(_NONE),))


def _table(pieces: list[Piece]) -> RuledTable:
    columns = (
        TableColumn("tag", 18),
        TableColumn("piece", 20),
        TableColumn("what", 28),
        TableColumn("off on", 10),
        TableColumn("shelf", 14),
        TableColumn("back on", 10),
    )
    rows = tuple((piece.id, piece.name, _told(piece), "", "", "") for piece in pieces)
    return RuledTable(columns, rows, "line")


def _told(piece: Piece) -> str:
    return "; ".join(filter(None, (what_it_is(piece), f"keep {_KEEP}" if piece.keep else "")))
