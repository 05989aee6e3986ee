"""The book as a report: of the whole vehicle, or of one component."""

from collections.abc import Iterator

from crewboard.fabric.fabric import fabric_of
from crewboard.order.board import Board
from crewboard.telling.book.of_component import component_book
from crewboard.telling.book.of_vehicle import vehicle_book
from crewboard.telling.book.statement import Book, Section, Sentence
from crewboard.telling.line import Line
from crewboard.telling.report import Chapter, PictureShown, Request, Sheet

CAUTION = (
    "What was seen and what is thought of it stand apart. Behind each sentence: the day and who "
    "wrote it, or the file of the plan. What is missing is listed at the end."
)


def report(request: Request) -> Sheet:
    """The page of the vehicle, or of the component that was asked for."""
    return as_sheet(book_of(request.board, request.component))


def as_sheet(book: Book) -> Sheet:
    """The book's page as a sheet to read or print."""
    return Sheet(book.title, CAUTION, tuple(map(_chapter, book.sections)))


def book_of(board: Board, component_id: str = "") -> Book:
    """The book's page at the board's moment. Raises KeyError for an unknown component."""
    fabric = fabric_of(board.plan, board.logbook, board.at)
    if component_id:
        return component_book(board, fabric, component_id)
    return vehicle_book(board, fabric)


def _chapter(section: Section) -> Chapter:
    return Chapter(
        section.heading,
        tuple(_points(section)),
        parts=tuple(map(_chapter, section.parts)),
        pictures=tuple(PictureShown(shown.file, shown.words) for shown in section.pictures),
    )


def _points(section: Section) -> Iterator[Line]:
    return map(_point, section.statements)


def _point(statement: Sentence) -> Line:
    # A gap is known by its piece: no reader needs the file as well.
    behind = statement.said or ("" if statement.word and statement.entries else statement.plan)
    word = f"{statement.word}:" if statement.word else "-"
    return Line(f"{statement.says} ({behind})" if behind else statement.says, "plain", 0, word)
