"""The book as pages that lead to one another: one of the vehicle, one of each main component."""

from collections.abc import Iterator, Mapping
from urllib.parse import quote

from crewboard.order.board import Board
from crewboard.order.said import component_name, piece_name
from crewboard.plan.plan import Plan
from crewboard.telling.book.report import as_sheet, book_of
from crewboard.telling.book.statement import Book, Section
from crewboard.telling.line import Pointer
from crewboard.telling.report import Sheet

_VEHICLE = "vehicle.html"


def book_pages(board: Board) -> Iterator[tuple[str, Sheet]]:
    """Each page of the whole book, by the name of its file."""
    files = page_files(board.plan)
    books = {component: book_of(board, component) for component in files}
    ways = _ways(board.plan, files, books)
    mains = tuple(ways[component] for component in files if component)
    whole = Pointer(f"{board.plan.vehicle.name}, the whole of it", _VEHICLE)
    for component, file in files.items():
        sheet = as_sheet(books[component], ways)
        yield file, sheet._replace(ways=(whole,) if component else mains)


def page_files(plan: Plan) -> dict[str, str]:
    """The file of each page by its component, "" for the vehicle; no two have one name, whatever a
    component is called."""
    files, taken = {"": _VEHICLE}, {_VEHICLE}
    for component in plan.components.values():
        if not component.part_of:
            stem = component.id
            while f"{stem}.html".casefold() in taken:
                stem += "-"
            files[component.id] = f"{stem}.html"
            taken.add(files[component.id].casefold())
    return files


def _ways(plan: Plan, files: Mapping[str, str], books: Mapping[str, Book]) -> dict[str, Pointer]:
    """To each component, and to each piece of which a page tells by itself."""
    ways = {
        component: Pointer(
            component_name(plan, component), quote(files[plan.main_of(component).id])
        )
        for component in plan.components
    }
    for component, book in books.items():
        for section in _all(book.sections):
            if section.piece:
                address = f"{quote(files[component])}#{quote(section.piece)}"
                ways[section.piece] = Pointer(piece_name(plan, section.piece), address)
    return ways


def _all(sections: tuple[Section, ...]) -> Iterator[Section]:
    for section in sections:
        yield section
        yield from _all(section.parts)
