"""What the book says of a piece: as found, what was found on it, what was done, where it all is."""

from collections.abc import Container, Iterable, Iterator, Mapping

from crewboard.fabric.fabric import Fabric, PieceRecord
from crewboard.fabric.thing import Thing
from crewboard.logbook.acts import Reckoned, SizeDecided, TookPlace
from crewboard.logbook.entry import Entry
from crewboard.logbook.record.done import DONE, Reused
from crewboard.logbook.record.seen import Found, Pictured, TookIn
from crewboard.order.board import Board
from crewboard.order.reckoning.decided import superseded, superseded_in_words
from crewboard.order.said import listed, piece_name
from crewboard.plan.piece import Piece
from crewboard.telling.book.pictures import pictures_of
from crewboard.telling.book.reckoned import reckoned_sentence
from crewboard.telling.book.statement import (
    Section,
    Sentence,
    cited_by,
    said_by,
    section,
    told,
)

_APART = (*DONE, Found, Pictured, TookIn)  # each told in its own way


def piece_section(
    board: Board, fabric: Fabric, record: PieceRecord, shown: Container[str] = ()
) -> Iterator[Section]:
    """The section of a piece; none where only the plan speaks of it. Pictures that are `shown`
    elsewhere on the page, by their files, are left out."""
    entries, place = record.entries, place_in_plan(board, record.piece)
    done = [entry for entry in entries if isinstance(entry.act, DONE)]
    statements = [
        *as_planned(board, record.piece),
        *found_statements(board, entries),
        *beside_statements(board, entries),
        *(told(board, entry, "done") for entry in done),
        *_now(board, record),
    ]
    plates = pictures_of(board, fabric, entries, record.piece.pictures, place)
    pictures = [plate for plate in plates if plate.file not in shown]
    if entries or any(thing.entries for thing in record.things):
        yield from section(record.piece.name, statements, pictures, (), record.piece.id)


def place_in_plan(board: Board, piece: Piece) -> str:
    """Where the plan says so: "components/roof.toml: pieces.ribs"."""
    file = board.plan.main_of(piece.component).id
    table = (piece.several or piece.id).partition("/")[2]
    return f"components/{file}.toml: pieces.{table}"


def as_planned(board: Board, piece: Piece) -> Iterator[Sentence]:
    """What the plan says of a piece: as found, what is intended, whether it is kept."""
    place = place_in_plan(board, piece)
    found = "" if piece.as_found == "unknown" else piece.as_found
    of_time = board.plan.vehicle.time_in_words(piece.period)
    facts = (found, of_time, piece.material, piece.size, piece.place, piece.condition)
    if any(facts):
        yield Sentence("; ".join(filter(None, facts)), (), place, "as found")
    if piece.intended:
        why = f" ({piece.why})" if piece.why else ""
        yield Sentence(f"{piece.intended}{why}", (), place, "intended")
    elif piece.why:
        yield Sentence(piece.why, (), place, "why")
    if piece.keep:
        yield Sentence("kept for ever as it is", (), place, "kept")


def found_statements(board: Board, entries: Iterable[Entry]) -> Iterator[Sentence]:
    """What was seen, and apart from it what was thought of it."""
    for entry in entries:
        act = entry.act
        if isinstance(act, Found):
            where = f" ({act.place})" if act.place else ""
            by = said_by(board, entry)
            yield Sentence(f"{act.seen}{where}", (entry.id,), "", "seen", by)
            if act.thought:
                yield Sentence(act.thought, (entry.id,), "", "thought", by)
            if act.sample:
                kept = f", kept: {act.kept_at}" if act.kept_at else ""
                yield Sentence(f"{act.sample}{kept}", (entry.id,), "", "sample", by)
            if act.recording:
                at = f", at {act.minute}" if act.minute else ""
                yield Sentence(f"{act.recording}{at}", (entry.id,), "", "said in", by)
            yield from _borne_out_by(board, entry)


def _borne_out_by(board: Board, entry: Entry) -> Iterator[Sentence]:
    """The photographs and papers that a finding cites, each with where it is kept."""
    for cited in cited_by(entry):
        place = board.logbook.find(cited)
        if place is not None:
            source = told(board, place[0].wording(place[1]))
            both = (entry.id, cited)
            yield Sentence(source.says, both, "", "borne out by", said_by(board, entry))


def beside_statements(board: Board, entries: Iterable[Entry]) -> Iterator[Sentence]:
    """Layers, measurements, earlier repairs, departures, patterns, sizes, sources, reckonings."""
    entries = tuple(entries)
    later = _superseded(board, entries)
    for entry in entries:
        if isinstance(entry.act, Reckoned):
            yield reckoned_sentence(board, entry)
        elif entry.id in later:
            told_now = told(board, entry)
            says = f"{told_now.says}; {superseded_in_words(later[entry.id])}"
            yield told_now._replace(says=says, entries=(*told_now.entries, later[entry.id].id))
        elif not isinstance(entry.act, _APART):
            yield told(board, entry)


def _superseded(board: Board, entries: Iterable[Entry]) -> Mapping[str, Entry]:
    """The later word on each of the sizes decided on among these entries."""
    if not any(isinstance(entry.act, SizeDecided) for entry in entries):
        return {}
    return superseded(entry for entry in board.logbook.record() if entry.at <= board.at)


def _now(board: Board, record: PieceRecord) -> Iterator[Sentence]:
    """What it is now and where, what was made for its place, and where those lie that sat there
    before. Where no entry speaks of what is there, the plan has said it above."""
    if record.current.entries:
        yield _of_thing(board, record, record.current, _state_and_where(board, record), "now")
    for thing in record.things[record.current.number + 1 :]:
        if thing.where == "made":
            yield _of_thing(board, record, thing, "made, not fitted yet", "new")
    for thing in record.old:
        what = "the one found" if thing.number == 0 else f"the one before, no. {thing.number}"
        yield _of_thing(board, record, thing, f"{what}: {where_in_words(board, thing)}", "old")
    for thing in record.things:
        came = {source.piece for source in thing.wood_from}
        for entry in thing.entries:
            if isinstance(entry.act, (Reused, TookPlace)) and entry.act.piece in came:
                says = f"holds wood of {piece_name(board.plan, entry.act.piece)}"
                by, names = said_by(board, entry), (entry.act.piece,)
                yield Sentence(says, (entry.id,), "", "wood", by, names)


def _state_and_where(board: Board, record: PieceRecord) -> str:
    where = where_in_words(board, record.current)
    if where.startswith(record.state):
        return where
    return record.state if record.state.startswith(where) else f"{record.state}, {where}"


def _of_thing(board: Board, record: PieceRecord, thing: Thing, says: str, word: str) -> Sentence:
    """A sentence on a thing, by the last entry that speaks of it."""
    last = thing.whereabouts.entry or (thing.entries[-1] if thing.entries else None)
    entries = tuple(entry.id for entry in thing.entries)
    said = said_by(board, last) if last else ""
    names = tuple(dict.fromkeys(other.piece for other in thing.wood_to))
    return Sentence(says, entries, place_in_plan(board, record.piece), word, said, names)


def where_in_words(board: Board, thing: Thing) -> str:
    """ "put away: shelf 3", "in Rib 3"."""
    if thing.where == "in other pieces":
        into = dict.fromkeys(piece_name(board.plan, other.piece) for other in thing.wood_to)
        return f"all of it in {listed(into)}"
    if thing.where == "not said":
        return "where it is was not said"
    return str(thing.whereabouts)
