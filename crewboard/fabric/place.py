"""What sat and sits in one piece's place, followed entry by entry.

Entries come in order of time. None is refused here: what cannot be is kept as a `Contradiction`,
and what was there before stands.
"""

from typing import Literal, NamedTuple

from crewboard.fabric.makeup import all_of, exactly, spliced
from crewboard.fabric.thing import (
    GONE,
    NOWHERE,
    Makeup,
    Sort,
    Thing,
    ThingId,
    Where,
    Whereabouts,
)
from crewboard.logbook.entry import Entry
from crewboard.logbook.record.done import (
    REPLACED,
    DoneTo,
    Gone,
    PieceMade,
    Reused,
    Stored,
    TakenOff,
)
from crewboard.plan.piece import Piece

Code = Literal[
    "gone",  # the thing is gone, and something is said to be done with it
    "came back",  # given away, and here again
    "nothing there",  # the piece was missing when the crew began
    "off already",
    "kept and replaced",  # a part of it was kept: that is a splice
    "itself",  # wood of a thing in the thing itself, or in what took its place
    "circle",  # wood goes round
]


class Contradiction(NamedTuple):
    """An entry that cannot be, or hardly can, since the piece, or the `old` one, is where
    `whereabouts` says. `yields`: it may be so all the same."""

    code: Code
    entry: Entry
    piece: str
    whereabouts: Whereabouts
    yields: bool = False
    old: bool = False


class Traced:
    """A thing while its entries are followed."""

    def __init__(self, thing_id: ThingId, sort: Sort, where: Whereabouts, material: str) -> None:
        self.id, self.sort, self.material = thing_id, sort, material
        self.whereabouts = where
        self.makeup: Makeup = all_of(sort)
        self.came_by: Entry | None = None
        self.cut_out: Traced | None = None  # the part that was spliced out of it last
        self.entries: list[Entry] = []
        self.wood_from: list[Traced] = []
        self.wood_to: list[Traced] = []

    @property
    def number(self) -> int:
        return self.id.number

    @property
    def where(self) -> Where:
        return self.whereabouts.where

    def is_now(self, where: Where, entry: Entry, words: str = "") -> None:
        self.whereabouts = Whereabouts(where, words, entry)

    def as_thing(self) -> Thing:
        return Thing(
            self.id,
            self.sort,
            self.whereabouts,
            self.makeup,
            self.material,
            tuple(thing.id for thing in self.wood_from),
            tuple(thing.id for thing in self.wood_to),
            tuple(self.entries),
            self.came_by,
            self.cut_out.whereabouts if self.cut_out else None,
        )


class Place:
    """A piece's place: `things` sat there one after the other. The last may be made and not
    fitted yet (`made`); `current` sits there or belongs there; `out` came out of there last: the
    thing that was replaced, or the part of one that was cut out."""

    def __init__(self, piece: Piece) -> None:
        self.piece = piece
        self.things = [_as_found(piece)]
        self.current = self.things[0]
        self.made: Traced | None = None
        self.out: Traced | None = None
        self.went_to: Place | None = None  # of a spare: the place that it took
        self.contradictions: list[Contradiction] = []

    def take(self, entry: Entry) -> None:
        """Follow an entry of this piece; one that neither moves nor changes it is passed over."""
        match entry.act:
            case DoneTo() as done if done.action in REPLACED:
                self._replaced(entry, done)
            case DoneTo() as done:
                self._done(entry, done)
            case PieceMade() as made:
                self._made(entry, made)
            case TakenOff():
                self._taken_off(entry)
            case Stored() as stored:
                self._stored(entry, stored)
            case Gone() as gone:
                self._gone(entry, gone)

    # --- what is done to it --------------------------------------------------------------------

    def _replaced(self, entry: Entry, done: DoneTo) -> None:
        sort: Sort = done.action  # type: ignore[assignment]
        if done.grade == "E":
            sort = "copied by conjecture"
        if done.share:
            self.odd("kept and replaced", entry, self.current)
        self.put_in(entry, sort)

    def put_in(self, entry: Entry, sort: Sort, material: str = "") -> Traced:
        """A new thing takes the place: the one that was made for it, where one was."""
        old = self.current
        if old.where not in NOWHERE and old.where != "put away":
            old.is_now("not said", entry)
        old.entries.append(entry)
        new = self.made or self._new(sort, material)
        new.sort, new.makeup, new.came_by = sort, all_of(sort), entry
        new.is_now("on the vehicle", entry)
        new.entries.append(entry)
        self.out, self.current, self.made = old, new, None
        return new

    def lay_ready(self, entry: Entry, sort: Sort, material: str) -> Traced:
        """A spare is to go where nothing sits: it is not on the vehicle before it is fitted."""
        new = self.made or self._new(sort, material)
        new.is_now("made", entry)
        new.entries.append(entry)
        self.made = new
        return new

    def _done(self, entry: Entry, done: DoneTo) -> None:
        thing, fitted = self.current, done.action == "fitted"
        if fitted and (self.made is not None or thing.where == "missing"):
            self.put_in(entry, "replaced, not said how")
            return
        thing.entries.append(entry)
        if not self._is_here(entry, thing, back=fitted):
            return
        if done.action == "spliced" or (done.share is not None and done.share < 100):
            kept = exactly(done.share) if done.share is not None else None
            thing.makeup = spliced(thing.makeup, kept)
        if done.action == "spliced":
            self._cut_out(entry, thing)
        if fitted:
            thing.is_now("on the vehicle", entry)

    def _cut_out(self, entry: Entry, thing: Traced) -> None:
        """What a splice took the place of lies somewhere too."""
        part = Traced(thing.id, thing.sort, Whereabouts("not said", "", entry), thing.material)
        self.out = thing.cut_out = part

    def _made(self, entry: Entry, made: PieceMade) -> None:
        if self.current.where == "not made yet":
            new = self.current
            new.is_now("made", entry)
        elif self.made is None and self._made_afterwards():
            new = self.current  # it was said only after it was fitted
        else:
            new = self.made or self._new("replaced, not said how")
            new.is_now("made", entry)
            self.made = new
        new.material = made.material or new.material
        new.entries.append(entry)

    def _made_afterwards(self) -> bool:
        own = self.current.entries
        return self.current.number > 0 and not any(isinstance(e.act, PieceMade) for e in own)

    def _new(self, sort: Sort, material: str = "") -> Traced:
        made = Whereabouts("made")
        new = Traced(ThingId(self.piece.id, len(self.things)), sort, made, material)
        self.things.append(new)
        return new

    # --- where it is ---------------------------------------------------------------------------

    def _taken_off(self, entry: Entry) -> None:
        thing = self.current
        thing.entries.append(entry)
        if not self._is_here(entry, thing):
            return
        if thing.where in ("off the vehicle", "put away"):
            self.odd("off already", entry, thing, True)
        elif thing.where in ("on the vehicle", "lost"):
            thing.is_now("off the vehicle", entry)

    def _stored(self, entry: Entry, stored: Stored) -> None:
        thing = self._spoken_of(entry, stored.old)
        if self._is_here(entry, thing, back=True):
            thing.is_now("put away", entry, stored.where)

    def _gone(self, entry: Entry, gone: Gone) -> None:
        thing = self._spoken_of(entry, gone.old)
        if self._is_here(entry, thing):
            words = gone.to if gone.how == "given away" else ""
            thing.is_now(gone.how, entry, words)  # type: ignore[arg-type]

    def wood_of(self, entry: Entry, reused: Reused) -> Traced | None:
        """The thing of which wood is reused; None where there is none to take."""
        thing = self._spoken_of(entry, reused.old)
        if not self._is_here(entry, thing):
            return None
        if reused.into == self.piece.id:
            self.odd("itself", entry, thing)
            return None
        if reused.all_of_it:
            thing.is_now("in other pieces", entry)
        return self.things[thing.number]

    def taken_for(self, entry: Entry, place: "Place") -> Traced | None:
        """The spare, which goes to another place; None where it is gone already."""
        thing = self.current
        thing.entries.append(entry)
        if not self._is_here(entry, thing):
            return None
        thing.is_now("in other pieces", entry, f"the place of {place.piece.name}")
        self.went_to = place
        return thing

    def failed(self, entry: Entry) -> None:
        """The new one came out wrong before it was fitted, or what sits there broke."""
        thing = self.made or self.current
        thing.entries.append(entry)
        if thing is self.made:
            thing.is_now("not said", entry)
            self.made = None

    def _spoken_of(self, entry: Entry, old: bool) -> Traced:
        """The thing, or part of one, that is meant, with the entry among those of the thing."""
        thing = self.meant(old)
        self.things[thing.number].entries.append(entry)
        return thing

    def meant(self, old: bool) -> Traced:
        """For `old` what came out last, or is to come out; else the new one where the one before
        it has its place already."""
        if old:
            return self.out or self.current
        if self.made is not None and self.current.where != "off the vehicle":
            return self.made
        return self.current

    def _is_here(self, entry: Entry, thing: Traced, *, back: bool = False) -> bool:
        """Whether something can be done with the thing; what cannot be is a contradiction. `back`:
        the entry says that it is here, which of one that was given away or missing may be."""
        where = thing.where
        if where in ("given away", "missing") and back:
            self.odd("came back" if where == "given away" else "nothing there", entry, thing, True)
            if where == "missing":
                thing.sort, thing.makeup = "original", all_of("original")
            return True
        if where in GONE or where == "missing":
            self.odd("gone" if where in GONE else "nothing there", entry, thing)
            return False
        return True

    def odd(self, code: Code, entry: Entry, thing: Traced, yields: bool = False) -> None:
        old = thing is not self.current and thing is not self.made
        odd = Contradiction(code, entry, self.piece.id, thing.whereabouts, yields, old)
        self.contradictions.append(odd)


def _as_found(piece: Piece) -> Traced:
    first = ThingId(piece.id, 0)
    if piece.spare:
        return Traced(first, "replaced, not said how", Whereabouts("not made yet"), piece.material)
    where: Where = "missing" if piece.as_found == "missing" else "on the vehicle"
    return Traced(first, piece.as_found, Whereabouts(where), piece.material)
