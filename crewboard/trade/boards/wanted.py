"""What a floor of boards has to be: the width, the stock, and what the joiner insists on."""

from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple


class Old(NamedTuple):
    """An old board that keeps its place: it begins so far from the left edge. mm."""

    at: Fraction
    width: Fraction


class Deck(NamedTuple):
    """Boards side by side with a gap between any two; lengths in mm.

    `stock` is each width with how many of it there are, every width once. A way is exact at
    `width`, and may be over or under by `tolerance`. `not_at_edge` are widths that may not lie
    outermost; `mirrored` asks for the same boards from both edges inward.
    """

    width: Fraction
    stock: tuple[tuple[Fraction, int], ...]
    gap: Fraction = Fraction(0)
    tolerance: Fraction = Fraction(0)
    not_at_edge: frozenset[Fraction] = frozenset()
    mirrored: bool = False
    old: tuple[Old, ...] = ()

    @property
    def stretches(self) -> tuple[Fraction, ...]:
        """What has to be filled from left to right, between the edges and the old boards: each as
        the sum of its boards with a gap counted for every one."""
        if not self.old:
            return (self.width + self.gap,)
        first, last = self.old[0], self.old[-1]
        between = (right.at - left.at - left.width - self.gap for left, right in pairwise(self.old))
        return (first.at, *between, self.width - last.at - last.width)
