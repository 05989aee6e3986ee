"""The page of a component: what was found and done, piece by piece, how much of it is original."""

from collections.abc import Iterable, Iterator

from crewboard.fabric.fabric import Fabric, PieceRecord
from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import named_by
from crewboard.order.board import Board
from crewboard.order.said import component_name, pieces_in_words
from crewboard.plan.piece import Piece
from crewboard.telling.book.gaps import gap_sections
from crewboard.telling.book.of_piece import (
    as_planned,
    beside_statements,
    found_statements,
    piece_section,
    place_in_plan,
)
from crewboard.telling.book.original import original_sections
from crewboard.telling.book.pictures import pictures_of
from crewboard.telling.book.statement import Book, Plate, Section, Sentence, section
from crewboard.telling.book.temporary import ever_temporary_on, temporary_sentence


def component_book(board: Board, fabric: Fabric, component_id: str) -> Book:
    """The page of a component with its parts. Raises KeyError for an unknown one."""
    title = f"{component_name(board.plan, component_id)}: {board.plan.vehicle.name}"
    return Book(title, tuple(component_sections(board, fabric, component_id)))


def component_sections(board: Board, fabric: Fabric, component_id: str) -> Iterator[Section]:
    """What the page says, section by section."""
    plan = board.plan
    inside = plan.with_parts(component_id)
    pieces = [one for one in plan.pieces.values() if one.component in inside]
    entries = [entry for entry in board.logbook.record() if entry.at <= board.at]
    own = [entry for entry in entries if _component_of(board, entry) in inside]
    yield from section("As it is", _as_it_is(board, component_id), _drawn(board, component_id))
    yield from original_sections(board, fabric, component_id)
    yield from section("Found", found_statements(board, own), pictures_of(board, fabric, own))
    yield from section("Beside the pieces", beside_statements(board, own))
    yield from section("Temporary", _temporary(board, inside))
    records = [fabric.pieces[piece.id] for piece in pieces]
    together = list(_of_several(board, fabric, records))
    shown = {plate.file for plate in together}
    sections = [part for record in records for part in piece_section(board, fabric, record, shown)]
    silent = [r.piece for r in records if not any(piece_section(board, fabric, r))]
    yield from section("The pieces", _silent(board, silent), together, sections)
    yield from gap_sections(board, fabric, component_id)


def _of_several(board: Board, fabric: Fabric, records: Iterable[PieceRecord]) -> Iterator[Plate]:
    """The pictures that show several of these pieces: each stands once, with the names of them."""
    of: dict[str, tuple[Plate, list[str]]] = {}
    for record in records:
        for plate in pictures_of(board, fabric, record.entries):
            of.setdefault(plate.file, (plate, []))[1].append(record.piece.id)
    for plate, pieces in of.values():
        if len(pieces) > 1:
            names = pieces_in_words(board.plan, pieces)
            yield plate._replace(words=f"{names}, {plate.words}")


def _component_of(board: Board, entry: Entry) -> str:
    """The component that an entry of the record is on, empty where it is on a piece or on none."""
    named = {one.thing: one.id for one in named_by(entry.act)}
    if "piece" in named:
        return ""
    component = named.get("component", "")
    task = board.plan.written(named.get("task", ""))
    return component or (task.component if task else "")


def _as_it_is(board: Board, component_id: str) -> Iterator[Sentence]:
    component, plan = board.plan.components[component_id], board.plan
    file = plan.main_of(component_id).id
    place = f"components/{file}.toml"
    if component.about:
        yield Sentence(component.about, (), place)
    standard, said_of = plan.standard_of(component_id)
    if standard:
        where = place if said_of else "vehicle.toml: standard"
        yield Sentence(standard, (), where, "standard agreed on")


def _drawn(board: Board, component_id: str) -> Iterator[Plate]:
    """The drawings that the plan names for a component and its parts."""
    place = f"components/{board.plan.main_of(component_id).id}.toml"
    parts = (board.plan.components[one] for one in board.plan.with_parts(component_id))
    drawn = (file for part in parts for file in part.pictures)
    return (Plate(file, f"({place})", plan=place) for file in dict.fromkeys(drawn))


def _temporary(board: Board, inside: set[str]) -> Iterator[Sentence]:
    """What must not stay or did not: on the component, on its pieces, or before its tasks."""
    plan = board.plan
    for entry, undone in ever_temporary_on(board):
        for named in named_by(entry.act):
            piece, task = plan.pieces.get(named.id), plan.written(named.id)
            home = piece.component if piece else task.component if task else named.id
            if named.thing in ("piece", "component", "task") and home in inside:
                yield temporary_sentence(board, entry, undone)
                break


def _silent(board: Board, pieces: list[Piece]) -> Iterator[Sentence]:
    """The pieces of which nothing is on record: what the plan says of them, those of which it says
    the same in one sentence."""
    alike: dict[tuple[Sentence, ...], list[Piece]] = {}
    for piece in pieces:
        planned = tuple(as_planned(board, piece))
        alike.setdefault(planned, []).append(piece)
    for planned, of_it in alike.items():
        names = pieces_in_words(board.plan, [piece.id for piece in of_it])
        known = "; ".join(f"{one.word}: {one.says}" for one in planned)
        says = f"{known}. Nothing is on record yet" if known else "nothing is on record yet"
        place = place_in_plan(board, of_it[0])
        yield Sentence(says, (), place, names)
