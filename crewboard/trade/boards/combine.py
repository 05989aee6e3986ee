"""All ways in which boards from a stock add up to a length, and the nearest ones.

Lengths are whole numbers of one unit, so that sums are exact. Which sums can be reached at all is
worked out first (as bits of a number); so the search never follows a way that leads nowhere.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import gcd, lcm

Counts = tuple[int, ...]
"""How many of each width, in the order of the stock."""
MOST_UNITS = 5_000_000
"""A length of more units would take too much memory: nobody measures so finely."""


def whole(lengths: Sequence[Fraction]) -> tuple[list[int], Fraction]:
    """The lengths as whole numbers of the largest unit that divides all of them, and that unit."""
    under = lcm(*(length.denominator for length in lengths))
    numbers = [int(length * under) for length in lengths]
    common = gcd(*numbers) or 1
    return [number // common for number in numbers], Fraction(common, under)


def sums_of(sizes: Sequence[int], stock: Sequence[int], most: int) -> list[int]:
    """For each place in the stock the sums that it and those behind it reach, as bits up to `most`;
    the last one is of nothing left."""
    reached = [1]
    keep = (1 << (most + 1)) - 1
    for size, count in zip(reversed(sizes), reversed(stock), strict=True):
        sums, step, left = reached[-1], 1, min(count, most // size)
        while left:  # by doubling: 1, 2, 4 ... boards at a time
            step = min(step, left)
            sums |= (sums << (size * step)) & keep
            left, step = left - step, step * 2
        reached.append(sums)
    return reached[::-1]


def ways(sizes: Sequence[int], stock: Sequence[int], wanted: int, off: int = 0) -> Iterator[Counts]:
    """Every way to a sum of `wanted`, or over or under it by at most `off`: the nearest sums first,
    and of each sum the ways with more of the first sizes."""
    high = wanted + off
    if high < 0:
        return
    reached = sums_of(sizes, stock, high)

    def onward(place: int, left: int, counts: Counts) -> Iterator[Counts]:
        if place == len(sizes):
            yield counts
            return
        behind, size = reached[place + 1], sizes[place]
        for count in range(min(stock[place], left // size), -1, -1):
            rest = left - count * size
            if behind >> rest & 1:
                yield from onward(place + 1, rest, (*counts, count))

    low = max(0, wanted - off)
    sums = _set_bits(reached[0] >> low, low)
    for total in sorted(sums, key=lambda each: (abs(each - wanted), each)):
        yield from onward(0, total, ())


def _set_bits(bits: int, first: int) -> list[int]:
    """The places of the bits that are set, counted from `first`."""
    written = f"{bits:b}"[::-1]
    return [first + at for at, bit in enumerate(written) if bit == "1"]


def sums_beside(
    sizes: Sequence[int], stock: Sequence[int], wanted: int
) -> tuple[Sequence[int], Sequence[int]]:
    """The sums of at most `wanted`, and those of more by at most two boards, the nearest first."""
    most = wanted + 2 * max(sizes, default=0)
    reached = sums_of(sizes, stock, most)[0]
    under = reached & ((1 << (wanted + 1)) - 1)
    return _set_bits(under, 0)[::-1], _set_bits(reached >> (wanted + 1), wanted + 1)


def nearest(
    sizes: Sequence[int], stock: Sequence[int], wanted: int
) -> tuple[int | None, int | None]:
    """The greatest sum of at most `wanted` and the least of more, None where there is none."""
    most = wanted + max(sizes, default=0)
    reached = sums_of(sizes, stock, most)[0]
    under = reached & ((1 << (wanted + 1)) - 1)
    over = reached >> (wanted + 1)
    least = wanted + (over & -over).bit_length() if over else None
    return (under.bit_length() - 1 if under else None), least
