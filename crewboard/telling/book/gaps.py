"""What the book does not say, and should: stated openly at the end of each page."""

from collections.abc import Iterator

from crewboard.fabric.fabric import Fabric
from crewboard.order.board import Board
from crewboard.telling.book.statement import Section, section


def gap_sections(board: Board, fabric: Fabric, component_id: str) -> Iterator[Section]:
    """The gaps of a component with its parts, of everything where none is named."""
    inside = board.plan.with_parts(component_id) if component_id else set(board.plan.components)
    del fabric, inside
    yield from section("What is missing here", ())
