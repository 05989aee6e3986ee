"""The record of the vehicle at a moment. Made by `fabric_of`, never stored."""

from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import NamedTuple

from crewboard.fabric.closed_in import closed_in
from crewboard.fabric.place import Contradiction, Place
from crewboard.fabric.states import State, state_of_fabric
from crewboard.fabric.thing import Thing, ThingId, Whereabouts
from crewboard.fabric.trace import contradictions, in_order, of_the_vehicle, traced
from crewboard.logbook.entry import Entry
from crewboard.logbook.kinds import kind_of
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.record.done import Gone
from crewboard.logbook.record.listed import (
    Departure,
    EarlierRepair,
    Pattern,
    SizeDecided,
)
from crewboard.logbook.record.seen import (
    TAKEN_BY_FILE,
    Found,
    Layers,
    Measured,
    Pictured,
    Sourced,
    TookIn,
)
from crewboard.logbook.record.temporary import still_temporary
from crewboard.logbook.record.waiting import FileWaiting, files_waiting
from crewboard.plan.piece import Piece
from crewboard.plan.plan import Plan


class PieceRecord(NamedTuple):
    """All that is on record of a piece.

    `things` sat in its place one after the other; `current` is the one that sits there or belongs
    there, even where it is off the vehicle or gone. `entries` name the piece, in order of time;
    `pictures` are the files that show it, by what they are for, as they were captioned.
    """

    piece: Piece
    state: State
    things: tuple[Thing, ...]
    current: Thing
    entries: tuple[Entry, ...] = ()
    pictures: Mapping[str, tuple[str, ...]] = {}

    @property
    def where(self) -> Whereabouts:
        return self.current.whereabouts

    @property
    def old(self) -> tuple[Thing, ...]:
        """What sat there before, the oldest first; what was never there is none of it."""
        before = self.things[: self.current.number]
        return tuple(thing for thing in before if thing.where not in ("missing", "not made yet"))

    def why_gone(self, thing: Thing) -> str:
        """Why a thing was replaced or went, as far as anybody said."""
        after = self.things[thing.number + 1 :]
        replaced = [one.came_by for one in after[:1] if one.came_by]
        now = thing.whereabouts.entry  # what is said of the old one may be of a part cut out
        went = [now] if now is not None and isinstance(now.act, Gone) else []
        reasons = (getattr(entry.act, "why", "") for entry in (*replaced, *went))
        return next(filter(None, reasons), "")


class Fabric(NamedTuple):
    """The record at the moment `at`. The lists are entries in order of time; `temporary` are those
    not undone; `waiting` what was taken in and nobody has sorted; `pictures` the captions of each
    file, `taken` the entry that says when it was taken, where its own data or its name do.
    `closed_in` are pieces that cannot be seen any more, with the finish that hid them.
    `contradictions` are the entries that cannot be as the others stand."""

    at: datetime
    plan: Plan
    pieces: Mapping[str, PieceRecord]
    findings: tuple[Entry, ...] = ()
    sources: tuple[Entry, ...] = ()
    measurements: tuple[Entry, ...] = ()
    layers: tuple[Entry, ...] = ()
    patterns: tuple[Entry, ...] = ()
    departures: tuple[Entry, ...] = ()
    repairs: tuple[Entry, ...] = ()
    sizes: tuple[Entry, ...] = ()
    temporary: tuple[Entry, ...] = ()
    waiting: tuple[FileWaiting, ...] = ()
    pictures: Mapping[str, tuple[Entry, ...]] = {}
    taken: Mapping[str, Entry] = {}
    closed_in: Mapping[str, Entry] = {}
    contradictions: tuple[Contradiction, ...] = ()

    def taken_at(self, file: str) -> datetime | None:
        """When a picture or recording was taken, where that is known better than by its file's
        time."""
        entry = self.taken.get(file)
        return entry.act.taken if entry is not None and isinstance(entry.act, TookIn) else None

    def thing(self, thing_id: ThingId) -> Thing:
        return self.pieces[thing_id.piece].things[thing_id.number]


def fabric_of(plan: Plan, logbook: Logbook, at: datetime) -> Fabric:
    """The record at a moment: what was found, what was done, what the vehicle is made of."""
    entries = of_the_vehicle(logbook, at)
    places = traced(plan.pieces.values(), entries)
    record = [entry for entry in entries if kind_of(entry.act).of_record]
    by_kind: dict[type, list[Entry]] = {}
    for entry in record:
        by_kind.setdefault(type(entry.act), []).append(entry)

    def listed(kind: type) -> tuple[Entry, ...]:
        return tuple(by_kind.get(kind, ()))

    return Fabric(
        at,
        plan,
        _records(places, record),
        findings=listed(Found),
        sources=listed(Sourced),
        measurements=listed(Measured),
        layers=listed(Layers),
        patterns=listed(Pattern),
        departures=listed(Departure),
        repairs=listed(EarlierRepair),
        sizes=listed(SizeDecided),
        temporary=_temporary(logbook, at),
        waiting=tuple(files_waiting(logbook, at)),
        pictures=_captions(listed(Pictured)),
        taken=_taken(listed(TookIn)),
        closed_in=closed_in(plan, logbook, at),
        contradictions=tuple(contradictions(places.values())),
    )


def _records(places: Mapping[str, Place], record: Iterable[Entry]) -> dict[str, PieceRecord]:
    entries: dict[str, list[Entry]] = {}
    pictures: dict[str, dict[str, list[str]]] = {}
    for entry in record:
        for piece in _pieces(entry):
            entries.setdefault(piece, []).append(entry)
            if isinstance(entry.act, Pictured):
                of_piece = pictures.setdefault(piece, {})
                of_piece.setdefault(entry.act.shows, []).append(entry.act.file)
    return {
        piece_id: PieceRecord(
            place.piece,
            state_of_fabric(place),
            tuple(thing.as_thing() for thing in place.things),
            place.current.as_thing(),
            tuple(entries.get(piece_id, ())),
            {kind: tuple(files) for kind, files in pictures.get(piece_id, {}).items()},
        )
        for piece_id, place in places.items()
    }


def _pieces(entry: Entry) -> Iterable[str]:
    """The pieces that an entry of the record names, each once."""
    act = entry.act
    named = (getattr(act, "piece", ""), getattr(act, "into", ""), *getattr(act, "pieces", ()))
    return dict.fromkeys(filter(None, named))


def _captions(pictured: Iterable[Entry]) -> dict[str, tuple[Entry, ...]]:
    captions: dict[str, tuple[Entry, ...]] = {}
    for entry in pictured:
        file = getattr(entry.act, "file", "")
        captions[file] = (*captions.get(file, ()), entry)
    return captions


def _taken(taken_in: Iterable[Entry]) -> dict[str, Entry]:
    """A file's own time is that of its last copy, and says nothing of the picture."""
    return {
        entry.act.file: entry
        for entry in taken_in
        if isinstance(entry.act, TookIn)
        and entry.act.taken is not None
        and entry.act.taken_by != TAKEN_BY_FILE
    }


def _temporary(logbook: Logbook, at: datetime) -> tuple[Entry, ...]:
    """What must not stay, and was not undone by then."""
    entries = (e for day in logbook.days.values() for e in day.events if e.at <= at)
    return tuple(in_order(entry for entry, _ in still_temporary(entries).values()))
