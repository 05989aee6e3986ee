"""One physical thing that sits or sat in a piece's place: what it is, and where."""

from collections.abc import Mapping
from datetime import datetime
from fractions import Fraction
from typing import Literal, NamedTuple

from crewboard.logbook.entry import Entry

Where = Literal[
    "on the vehicle",
    "off the vehicle",  # taken off, and nobody said where it was put
    "made",  # and not fitted yet
    "put away",
    "given away",
    "discarded",
    "lost",
    "in other pieces",
    "missing",  # when the crew began
    "not made yet",
    "not said",  # another sits in its place
]
# From where no thing comes back but by a word that says so; a lost one may be found again.
GONE: frozenset[Where] = frozenset({"given away", "discarded", "in other pieces"})
NOWHERE: frozenset[Where] = GONE | {"lost", "missing", "not made yet"}

# Of which sort fabric can be (own words, after the common practice of conservators).
Sort = Literal[
    "original",
    "earlier repair",
    "later change",
    "spliced in",
    "replaced in kind",
    "replaced in other material",
    "copied on evidence",
    "copied by conjecture",
    "replaced, not said how",
    "missing",
    "unknown",
]


class Whereabouts(NamedTuple):
    """Where a thing is, since when, and the entry that says so.

    `words` is the shelf that it lies on, or to whom it was given. `entry` is None where the plan
    alone says it.
    """

    where: Where
    words: str = ""
    entry: Entry | None = None

    @property
    def since(self) -> datetime | None:
        return self.entry.at if self.entry else None

    def __str__(self) -> str:
        """ "put away: shelf 3", "given away to the depot museum", "on the vehicle"."""
        if not self.words:
            return self.where
        join = " to " if self.where == "given away" else ": "
        return f"{self.where}{join}{self.words}"


class Makeup(NamedTuple):
    """Of what sorts a thing is: `least` are exact shares of it, at least so much of each.

    They add up to one where all is known; what is left over is `open`: of which sort it is, nobody
    said. At most `most_original` of the thing is original.
    """

    least: Mapping[Sort, Fraction]
    most_original: Fraction

    @property
    def open(self) -> Fraction:
        return 1 - sum(self.least.values(), Fraction(0))


class ThingId(NamedTuple):
    """The thing with that number in a piece's place."""

    piece: str
    number: int


class Thing(NamedTuple):
    """A physical thing: number 0 as found, 1 the first that replaced it, and so on.

    `sort` is what it was when it came there, `makeup` what it consists of after what was done to
    it. `wood_from` are the things of which wood went into it, `wood_to` those that have wood of
    it. `entries` are those that speak of it, in order of time; by `came_by` it was put there, None
    of what sat there when the crew began, or is made and not fitted yet. `cut_out` is where the
    part lies that was spliced out of it last.
    """

    id: ThingId
    sort: Sort
    whereabouts: Whereabouts
    makeup: Makeup
    material: str = ""
    wood_from: tuple[ThingId, ...] = ()
    wood_to: tuple[ThingId, ...] = ()
    entries: tuple[Entry, ...] = ()
    came_by: Entry | None = None
    cut_out: Whereabouts | None = None

    @property
    def number(self) -> int:
        return self.id.number

    @property
    def where(self) -> Where:
        return self.whereabouts.where
