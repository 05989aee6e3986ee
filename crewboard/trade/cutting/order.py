"""What is to be cut from what, in whole units: the saw's kerf is counted with every piece."""

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from crewboard.plan.as_typed import Unread
from crewboard.trade.boards.combine import MOST_UNITS, Counts, whole

ANY = 0
"""Of a stock length: as many as are needed."""
MOST_PIECES = 5_000


class Cutting(NamedTuple):
    """Pieces and boards, longest first. All in units of `unit` mm, a kerf longer than they are: n
    pieces of one board take n - 1 cuts, so that n x (L + kerf) is at most board + kerf; the last
    cut may fall outside. `stock` has how many there are of each board, ANY for no end of them."""

    boards: tuple[int, ...]
    stock: Counts
    pieces: tuple[int, ...]
    wanted: Counts
    unit: Fraction
    kerf: Fraction

    def mm(self, units: int) -> Fraction:
        """A length without its kerf."""
        return units * self.unit - self.kerf

    @property
    def total(self) -> int:
        """Of all pieces together."""
        return sum(p * n for p, n in zip(self.pieces, self.wanted, strict=True))

    @property
    def enough(self) -> Counts:
        """How many of each board can be of use."""
        count = sum(self.wanted)
        return tuple(have or count for have in self.stock)


class OneBoard(NamedTuple):
    """A board cut in one way: which of the stock, how many of each piece, how often."""

    board: int
    pieces: Counts
    times: int = 1


def cutting(
    boards: Sequence[tuple[Fraction, int]],
    pieces: Sequence[tuple[Fraction, int]],
    kerf: Fraction,
) -> Cutting:
    """Raises Unread for a piece that no board has, and for more than anybody cuts."""
    stock, wanted = _summed(boards), _summed(pieces)
    if sum(wanted.values()) > MOST_PIECES:
        raise Unread(f"these are more than {MOST_PIECES} pieces", "reckon them in parts")
    if max(wanted) > max(stock):
        raise Unread("a piece is longer than every board", "write longer boards or shorter pieces")
    sizes, unit = whole([length + kerf for length in (*stock, *wanted)])
    if max(sizes) > MOST_UNITS:
        raise Unread("these lengths are too fine to be added up", "write them less finely")
    return Cutting(
        tuple(sizes[: len(stock)]),
        tuple(stock.values()),
        tuple(sizes[len(stock) :]),
        tuple(wanted.values()),
        unit,
        kerf,
    )


def _summed(lengths: Sequence[tuple[Fraction, int]]) -> dict[Fraction, int]:
    """Each length once, longest first; no end of one stays so."""
    summed: dict[Fraction, int] = {}
    for length, count in sorted(lengths, reverse=True):
        known = summed.get(length, count)
        summed[length] = (
            ANY if ANY in (count, known) else count + (known if length in summed else 0)
        )
    return summed
