"""The ways in which a deck can be laid, the one that a joiner would choose first."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import lru_cache
from itertools import islice
from math import ceil, floor
from typing import NamedTuple

from crewboard.plan.as_typed import Unread
from crewboard.trade.boards.arrange import arranged, edges_of
from crewboard.trade.boards.combine import MOST_UNITS, Counts, nearest, sums_beside, ways, whole
from crewboard.trade.boards.wanted import Deck

MOST = 5_000
"""So many ways are looked at, the nearest first; the answer says where there are more."""
_MOST_SUMS = 300


class Lay(NamedTuple):
    """One way: the boards from left to right, each its width in mm and whether it is an old one in
    its place. `off` is by how much each stretch comes out over, or under where it is less than
    nothing; `counts` are the boards taken from the stock, in its order."""

    boards: tuple[tuple[Fraction, bool], ...]
    counts: Counts
    off: tuple[Fraction, ...]

    @property
    def exact(self) -> bool:
        return not any(self.off)

    @property
    def edges(self) -> tuple[Fraction, Fraction]:
        """The widths of the outermost boards."""
        return self.boards[0][0], self.boards[-1][0]

    @property
    def is_mirrored(self) -> bool:
        """Whether the same boards lie from both edges inward."""
        return self.boards == self.boards[::-1]


Hopeless = tuple[int, Fraction | None, Fraction | None]
"""A stretch by its number, and by how much the nearest sums are under and over."""


class Lays(NamedTuple):
    """The ways within the tolerance, best first; where there is none, the nearest that can be laid.
    `more`: there are more than were looked at. `hopeless` are the stretches, by number, that
    nothing in the stock fills within the tolerance, each with the nearest under and over."""

    within: tuple[Lay, ...] = ()
    near: tuple[Lay, ...] = ()
    more: bool = False
    hopeless: tuple[Hopeless, ...] = ()


@lru_cache(maxsize=1)
def lays(deck: Deck) -> Lays:
    """The last one is remembered: whoever goes through its ways asks again for each.

    Raises Unread where old boards overlap, or the lengths are too fine to be added up."""
    search = _Search(deck)
    found = sorted(search.all(), key=_rank)
    if found:
        return Lays(tuple(found), more=search.looked_at > MOST)
    hopeless = tuple(search.hopeless()) if deck.old else ()
    near = tuple(sorted(_near_old(deck, hopeless) if deck.old else search.near(), key=_rank))
    return Lays(near=near, more=search.looked_at > MOST, hopeless=hopeless)


def _near_old(deck: Deck, hopeless: Sequence[Hopeless]) -> Iterator[Lay]:
    """Beside old boards: every way with as much tolerance as the worst stretch needs."""
    needed = [
        min((abs(off) for off in (under, over) if off is not None), default=None)
        for _, under, over in hopeless
    ]
    known = [each for each in needed if each is not None]
    if known and len(known) == len(needed):
        yield from _Search(deck._replace(tolerance=max(known))).all()


def _rank(lay: Lay) -> tuple[object, ...]:
    """What a joiner wants, in this order: near to the width, edges of one width and wide, the same
    from both sides, little ripped off, few boards (rule of this program, no source)."""
    left, right = lay.edges
    off = sum(map(abs, lay.off))
    over = sum(each for each in lay.off if each > 0)
    few = len(lay.boards)
    return off, left != right, -min(left, right), not lay.is_mirrored, over, few, lay.counts


class _Search:
    """A deck in whole units."""

    def __init__(self, deck: Deck) -> None:
        self.deck = deck
        stretches = deck.stretches
        if any(stretch < 0 for stretch in stretches):
            raise Unread("old boards overlap, or lie outside", "write where each begins")
        widths = [width for width, _ in deck.stock]
        self.widths, self.stock = widths, [count for _, count in deck.stock]
        sizes, self.unit = whole([width + deck.gap for width in widths])
        self.sizes, self.stretches = sizes, stretches
        self.looked_at = 0
        longest = max(stretches) + deck.tolerance
        if longest / self.unit + max(sizes, default=0) > MOST_UNITS:
            raise Unread("these lengths are too fine to be added up", "write them less finely")

    def all(self) -> Iterator[Lay]:
        """Every way within the tolerance that may be laid."""
        for taken in self._fill(0, tuple(self.stock)):
            yield from self._laid(taken)

    def _fill(self, number: int, stock: Counts) -> Iterator[tuple[Counts, ...]]:
        """The counts of each stretch from this one on, out of what is left."""
        if number == len(self.stretches):
            yield ()
            return
        stretch, tolerance = self.stretches[number], self.deck.tolerance
        for counts in self._ways(stock, stretch, tolerance):
            self.looked_at += 1
            if self.looked_at > MOST:
                return
            left = tuple(have - take for have, take in zip(stock, counts, strict=True))
            for behind in self._fill(number + 1, left):
                yield (counts, *behind)

    def _ways(self, stock: Counts, stretch: Fraction, tolerance: Fraction) -> Iterator[Counts]:
        """Those of a stretch within the tolerance; it may lie between two whole units."""
        wanted = floor(stretch / self.unit)
        off = ceil((tolerance + stretch % self.unit) / self.unit)
        for counts in ways(self.sizes, stock, wanted, off):
            if abs(self._total(counts) - stretch) <= tolerance:
                yield counts

    def _total(self, counts: Counts) -> Fraction:
        return sum((n * size for n, size in zip(counts, self.sizes, strict=True)), 0) * self.unit

    def _laid(self, taken: Sequence[Counts]) -> Iterator[Lay]:
        edges = edges_of(self.deck, self.widths, taken)
        if edges is None:
            return
        boards = arranged(self.deck, self.widths, taken, edges)
        off = tuple(
            self._total(counts) - stretch
            for counts, stretch in zip(taken, self.stretches, strict=True)
        )
        counts = tuple(map(sum, zip(*taken, strict=True)))
        yield Lay(boards, counts, off)

    def near(self) -> Iterator[Lay]:
        """Where nothing fits: all ways to the nearest sum under and over that can be laid."""
        for sums in sums_beside(self.sizes, self.stock, floor(self.stretches[0] / self.unit)):
            for wanted in filter(None, islice(sums, _MOST_SUMS)):
                counted = islice(ways(self.sizes, self.stock, wanted), MOST)
                found = [lay for counts in counted for lay in self._laid((counts,))]
                yield from found
                if found:
                    break

    def hopeless(self) -> Iterator[Hopeless]:
        """The stretches that nothing fills, even with all of the stock."""
        for number, stretch in enumerate(self.stretches):
            sums = nearest(self.sizes, self.stock, floor(stretch / self.unit))
            off = [None if s is None else s * self.unit - stretch for s in sums]
            if all(each is None or abs(each) > self.deck.tolerance for each in off):
                yield number, off[0], off[1]
