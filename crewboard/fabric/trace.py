"""From the entries to what sits in each place: in order of time, whatever day they were typed."""

from collections.abc import Iterable, Iterator, Mapping
from datetime import datetime

from crewboard.fabric.place import Contradiction, Place
from crewboard.fabric.wood import WoodWay, join, reached
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.pieces import PieceFailed, TookPlace
from crewboard.logbook.record.done import Reused
from crewboard.plan.piece import Piece


def of_the_vehicle(logbook: Logbook, at: datetime) -> list[Entry]:
    """The entries of the record up to that moment, and those of the work that say that a piece
    failed or a spare took its place, in order of time. Those of one moment stand in the order in
    which they were first put down, so that a correction does not move what it corrects, and two
    clones that are merged say the same whichever lines come first."""
    placed = [one for day in logbook.days.values() for one in _as_written(day, at)]
    placed.sort(key=lambda one: (one[1].at, one[0]))
    return [entry for _, entry in placed]


def _as_written(day: Day, at: datetime) -> list[tuple[datetime, Entry]]:
    """By the lines of the day's file, a corrected one in the place of the first, each with when
    that was put down; those that were put down as it happened come before all others."""
    of_the_work = [e for e in day.events if isinstance(e.act, (PieceFailed, TookPlace))]
    entries = [entry for entry in (*day.record, *of_the_work) if entry.at <= at]
    if not entries:
        return []
    lines = {line.id: (number, line.written) for number, line in enumerate(day.entries)}
    last = (len(lines), None)
    known = [(*lines.get(entry.id, last), entry) for entry in entries]
    known.sort(key=lambda one: one[0])
    return [(put_down or datetime.min, entry) for _, put_down, entry in known]


def in_order(entries: Iterable[Entry]) -> list[Entry]:
    return sorted(entries, key=lambda entry: entry.at)


def traced(pieces: Iterable[Piece], entries: Iterable[Entry]) -> dict[str, Place]:
    """What sits in each piece's place, after these entries in order of time. Entries on other
    pieces are passed over."""
    places = {piece.id: Place(piece) for piece in pieces}
    ways: list[WoodWay] = []
    for entry in entries:
        act = entry.act
        place = _sits_in(places, getattr(act, "piece", ""))
        if place is None:
            continue
        if isinstance(act, Reused):
            ways += _reused(entry, act, place, _sits_in(places, act.into))
        elif isinstance(act, PieceFailed):
            place.failed(entry)
        elif isinstance(act, TookPlace):
            ways += _spare(entry, places[act.piece], places.get(act.instead))
        else:
            place.take(entry)
    join(ways)
    return places


def _sits_in(places: Mapping[str, Place], piece: str) -> Place | None:
    """The piece's own place; of a spare that took another's place by now, that one."""
    place = places.get(piece)
    return place.went_to or place if place else None


def joined_by_wood(entries: Iterable[Entry], pieces: Iterable[str]) -> set[str]:
    """These pieces, and all that wood or a spare joins with them."""
    beside: dict[str, list[str]] = {}
    for entry in entries:
        if isinstance(entry.act, (Reused, TookPlace)):
            one, other = entry.act[:2]
            beside.setdefault(one, []).append(other)
            beside.setdefault(other, []).append(one)
    return {joined for piece in pieces for joined in reached(piece, lambda p: beside.get(p, ()))}


def contradictions(places: Iterable[Place]) -> list[Contradiction]:
    """All that cannot be, or hardly can, in order of time."""
    odd = [one for place in places for one in place.contradictions]
    return sorted(odd, key=lambda one: one.entry.at)


def _reused(entry: Entry, act: Reused, of: Place, place: Place | None) -> Iterator[WoodWay]:
    source = of.wood_of(entry, act)
    if source is not None and place is not None:
        yield WoodWay(entry, source, place.made or place.current, place, of)


def _spare(entry: Entry, spare: Place, place: Place | None) -> Iterator[WoodWay]:
    """A spare takes the place: what it is goes with it, and what is said of it after."""
    source = spare.taken_for(entry, place) if place is not None and place is not spare else None
    if source is not None and place is not None:
        target = place.put_in(entry, source.sort, source.material)
        yield WoodWay(entry, source, target, place, spare)
