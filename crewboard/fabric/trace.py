"""From the entries to what sits in each place: in order of time, whatever day they were typed."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from datetime import datetime

from crewboard.fabric.place import Contradiction, Place
from crewboard.fabric.wood import WoodWay, join, reached
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import named_by
from crewboard.logbook.kinds import KINDS_OF_ENTRY
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.pieces import PieceFailed, TookPlace
from crewboard.logbook.record.done import DONE, Reused
from crewboard.plan.piece import Piece


def of_the_vehicle(logbook: Logbook, at: datetime) -> list[Entry]:
    """The entries of the record up to that moment, and those of the work that say that a piece
    failed or a spare took its place, in order of time. Those of one moment stand in the order in
    which they were first put down, so that a correction does not move what it corrects, and two
    clones that are merged say the same whichever lines come first."""
    return _as_put_down(one for day in logbook.days.values() for one in _as_written(day, at))


def of_pieces(logbook: Logbook, pieces: Iterable[str]) -> tuple[set[str], list[Entry]]:
    """These pieces and all that wood or a spare joins with them, and what was ever done to any of
    them, in order as in `of_the_vehicle`. Of the other days nothing is read that was put off."""
    joined = joined_by_wood(_read_for(logbook, (Reused,), None), pieces)
    kinds = (*DONE, PieceFailed, TookPlace)
    every = _read_for(logbook, DONE, joined)
    return joined, [entry for entry in every if isinstance(entry.act, kinds)]


def _read_for(logbook: Logbook, kinds: tuple[type, ...], pieces: set[str] | None) -> list[Entry]:
    """The entries of the vehicle, of the record only of days that can have one of these kinds on
    one of the pieces (None: on any)."""
    at, words = datetime.max, {KINDS_OF_ENTRY[kind].word for kind in kinds}
    return _as_put_down(
        one
        for day in logbook.days.values()
        for one in _as_written(day, at, reads=_speaks(day, kinds, words, pieces))
    )


def _speaks(
    day: Day, kinds: tuple[type, ...], words: Collection[str], pieces: set[str] | None
) -> bool:
    off = day.put_off
    if off is None:
        return True
    for (word, thing), ids in off.names.items():
        if thing == "piece" and word in words and (pieces is None or not pieces.isdisjoint(ids)):
            return True
    at_hand = (entry.act for entry in day.at_hand if isinstance(entry.act, kinds))
    named = {one.id for act in at_hand for one in named_by(act) if one.thing == "piece"}
    return bool(named) if pieces is None else not pieces.isdisjoint(named)


def _as_written(day: Day, at: datetime, *, reads: bool = True) -> list[tuple[datetime, Entry]]:
    """By the lines of the day's file, a corrected one in the place of the first, each with when
    that was put down; those that were put down as it happened come before all others. Unless it
    `reads` the record of the day, only what is of the work."""
    of_the_work = [e for e in day.events if isinstance(e.act, (PieceFailed, TookPlace))]
    every = (*day.record, *of_the_work) if reads else of_the_work
    entries = [entry for entry in every if entry.at <= at]
    if not entries:
        return []
    known_lines = day.entries if reads else day.at_hand
    lines = {line.id: (number, line.written) for number, line in enumerate(known_lines)}
    last = (len(lines), None)
    known = [(*lines.get(entry.id, last), entry) for entry in entries]
    known.sort(key=lambda one: one[0])
    return [(put_down or datetime.min, entry) for _, put_down, entry in known]


def _as_put_down(placed: Iterable[tuple[datetime, Entry]]) -> list[Entry]:
    """In order of time, of one moment in the order in which they were put down."""
    return [entry for _, entry in sorted(placed, key=lambda one: (one[1].at, one[0]))]


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
        empty = place.current.where == "missing"
        target = (place.lay_ready if empty else place.put_in)(entry, source.sort, source.material)
        yield WoodWay(entry, source, target, place, spare)
