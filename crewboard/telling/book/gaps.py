"""What the book does not say, and should: stated openly at the end of each page."""

from collections.abc import Iterator

from crewboard.fabric.fabric import Fabric
from crewboard.fabric.gaps import gaps
from crewboard.order.board import Board
from crewboard.telling.book.of_piece import place_in_plan
from crewboard.telling.book.statement import Section, Sentence, section
from crewboard.telling.gaps import gap_in_words


def gap_sections(board: Board, fabric: Fabric, component_id: str) -> Iterator[Section]:
    """The gaps of a component with its parts, of everything where none is named: the piece that
    lacks least first."""
    plan = board.plan
    inside = plan.with_parts(component_id) if component_id else set(plan.components)
    statements = []
    for piece_id, of_it in gaps(fabric).items():
        piece = plan.pieces[piece_id]
        if piece.component not in inside:
            continue
        for gap in of_it:
            entries = (gap.entry.id,) if gap.entry else ()
            place = place_in_plan(board, piece)
            statements.append(
                Sentence(gap_in_words(fabric, gap), entries, place, piece.name, names=(piece.id,))
            )
    yield from section("What is missing here", statements)
