"""The book as a report: of the whole vehicle, or of one component."""

from collections.abc import Mapping
from functools import partial

from crewboard.order.board import Board
from crewboard.telling.book.of_component import component_book
from crewboard.telling.book.of_vehicle import vehicle_book
from crewboard.telling.book.statement import Book, Section, Sentence
from crewboard.telling.line import Line, Pointer
from crewboard.telling.report import Chapter, PictureShown, Request, Sheet

CAUTION = (
    "What was seen and what is thought of it stand apart. Behind each sentence: the day and who "
    "wrote it, or the file of the plan. What is missing is listed at the end."
)


def report(request: Request) -> Sheet:
    """The page of the vehicle, or of the component that was asked for."""
    return as_sheet(book_of(request.board, request.component))


def as_sheet(book: Book, ways: Mapping[str, Pointer] | None = None) -> Sheet:
    """The book's page as a sheet to read or print. `ways` lead to what is told of each piece and
    component, by its id."""
    lay = partial(_chapter, ways or {})
    return Sheet(book.title, CAUTION, tuple(map(lay, book.sections)))


def book_of(board: Board, component_id: str = "") -> Book:
    """The book's page at the board's moment. Raises KeyError for an unknown component."""
    if component_id:
        return component_book(board, board.fabric, component_id)
    return vehicle_book(board, board.fabric)


def _chapter(ways: Mapping[str, Pointer], section: Section) -> Chapter:
    own = section.piece
    return Chapter(
        section.heading,
        tuple(_point(ways, statement, own) for statement in section.statements),
        parts=tuple(_chapter(ways, part) for part in section.parts),
        pictures=tuple(PictureShown(shown.file, shown.words) for shown in section.pictures),
        place=own,
    )


def _point(ways: Mapping[str, Pointer], statement: Sentence, own: str) -> Line:
    # A gap is known by its piece: no reader needs the file as well.
    behind = statement.said or ("" if statement.word and statement.entries else statement.plan)
    word = f"{statement.word}:" if statement.word else "-"
    says = f"{statement.says} ({behind})" if behind else statement.says
    leads = tuple(ways[name] for name in statement.names if name in ways and name != own)
    return Line(says, "plain", 0, word, ways=leads)
