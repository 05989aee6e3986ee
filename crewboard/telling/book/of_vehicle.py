"""The page of the whole vehicle: what it is and shows, how much is original, what is listed."""

from collections.abc import Iterator

from crewboard.fabric.fabric import Fabric
from crewboard.logbook.acts import Departure, HoldStarted, Pattern, Pictured, Released, Sourced
from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import named_by
from crewboard.order.board import Board
from crewboard.order.said import name_of, quoted_title
from crewboard.telling.book.gaps import gap_sections
from crewboard.telling.book.of_piece import beside_statements, found_statements
from crewboard.telling.book.original import original_sections
from crewboard.telling.book.pictures import pictures_of
from crewboard.telling.book.statement import (
    Book,
    Section,
    Sentence,
    listed_below,
    said_by,
    section,
    told,
)
from crewboard.telling.book.temporary import ever_temporary_on, temporary_sentence

_LISTED = (Sourced, Pattern, Departure)  # each has a list of its own on this page


def vehicle_book(board: Board, fabric: Fabric) -> Book:
    """The page of the whole vehicle."""
    return Book(board.plan.vehicle.name, tuple(vehicle_sections(board, fabric)))


def vehicle_sections(board: Board, fabric: Fabric) -> Iterator[Section]:
    """What the page says, section by section; what is of one component stands on its own page."""
    entries = [entry for entry in board.logbook.record() if entry.at <= board.at]
    on_it = [entry for entry in entries if not _is_of_a_part(entry.act)]
    captions = [entry for entry in on_it if isinstance(entry.act, Pictured)]
    shown = {entry.act.file for entry in captions if isinstance(entry.act, Pictured)}
    cited = (p for p in pictures_of(board, fabric, on_it) if p.file not in shown)
    beside = [entry for entry in on_it if not isinstance(entry.act, _LISTED)]
    yield from section("The vehicle", _vehicle(board), pictures_of(board, fabric, captions))
    yield from original_sections(board, fabric, "")
    yield from section("Found", found_statements(board, on_it), cited)
    yield from section("Beside the pieces", beside_statements(board, beside))
    yield from section(
        "Old photographs and papers", (listed_below(board, e) for e in fabric.sources)
    )
    patterns = (listed_below(board, entry) for entry in fabric.patterns)
    yield from section("Patterns and forms", patterns)
    departures = (listed_below(board, entry) for entry in fabric.departures)
    yield from section("Departures from how it was built", departures)
    temporary = (temporary_sentence(board, *both) for both in ever_temporary_on(board))
    yield from section("Temporary", temporary)
    yield from section("Approvals", _approvals(board))
    yield from gap_sections(board, fabric, "")


def _is_of_a_part(act: object) -> bool:
    return any(named.thing in ("piece", "component", "task") for named in named_by(act))


def _vehicle(board: Board) -> Iterator[Sentence]:
    vehicle = board.plan.vehicle
    what = f", {vehicle.what}" if vehicle.what else ""
    yield Sentence(f"{vehicle.name}{what}", (), "vehicle.toml")
    for period in vehicle.periods.values():
        years = " to ".join(filter(None, (period.since, period.until)))
        shown = "; the restoration shows this one" if period.id == vehicle.shows else ""
        says = f"{period.name}{f', {years}' if years else ''}{shown}"
        yield Sentence(says, (), f"vehicle.toml: periods.{period.id}", "period")
    if vehicle.standard:
        yield Sentence(vehicle.standard, (), "vehicle.toml: standard", "standard agreed on")


def _approvals(board: Board) -> Iterator[Sentence]:
    """The owner's or curator's word: what was asked, and what was answered."""
    asked, answered = dict[str, Entry](), dict[str, list[Entry]]()
    for entry in board.logbook.counting():
        if entry.at > board.at:
            continue
        act = entry.act
        if isinstance(act, HoldStarted) and act.hold == "approval":
            asked[entry.id] = entry
        elif isinstance(act, Released) and act.hold in asked:
            answered.setdefault(act.hold, []).append(entry)
    for asked_id, entry in asked.items():
        assert isinstance(entry.act, HoldStarted)
        on = entry.act.piece or entry.act.component
        what = (
            quoted_title(board.plan, entry.act.task) if entry.act.task else name_of(board.plan, on)
        )
        why = f" ({entry.act.why})" if entry.act.why else ""
        waits = "" if asked_id in answered else "; no answer yet"
        yield Sentence(f"{what}{why}{waits}", (asked_id,), "", "asked", said_by(board, entry))
        for answer in answered.get(asked_id, ()):
            assert isinstance(answer.act, Released)
            word = "refused" if answer.act.refused else "approved"
            yield told(board, answer)._replace(says=answer.act.why or "no words", word=word)
