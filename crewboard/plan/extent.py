"""How large a piece is, by length, area or volume: the basis on which "original" is counted."""

import re
from fractions import Fraction
from typing import Literal, NamedTuple

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import INCH, length

Basis = Literal["pieces", "length", "area", "volume"]
SIGN: dict[Basis, str] = {"pieces": "pieces", "length": "m", "area": "m²", "volume": "m³"}
_FOOT = 12 * INCH / 1000  # m
# An area or volume by its sign: what it measures, and how many m² or m³ one is. A board foot is
# 144 cubic inches (common practice of the timber trade, no source).
_SIGNS: dict[str, tuple[Basis, Fraction]] = {
    **dict.fromkeys(("m2", "m²", "sq m"), ("area", Fraction(1))),
    **dict.fromkeys(("ft2", "ft²", "sq ft"), ("area", _FOOT**2)),
    **dict.fromkeys(("m3", "m³", "cu m"), ("volume", Fraction(1))),
    **dict.fromkeys(("ft3", "ft³", "cu ft"), ("volume", _FOOT**3)),
    **dict.fromkeys(("bd ft", "board feet"), ("volume", _FOOT**3 / 12)),
}
_SIGNED = re.compile(
    rf"(\d+(?:[.,]\d+)?)\s*({'|'.join(map(re.escape, _SIGNS))})", re.IGNORECASE | re.ASCII
)


class Extent(NamedTuple):
    """`amount` in m, m² or m³, exact."""

    basis: Basis
    amount: Fraction


ONE_PIECE = Extent("pieces", Fraction(1))


def extent(written: str) -> Extent:
    """The extent as it is written: "2.4 m", "0.8 m2", "12 sq ft", "0.02 m3". Raises Unread."""
    signed = _SIGNED.fullmatch(written.strip())
    if signed:
        basis, one = _SIGNS[signed[2].casefold()]
        return Extent(basis, Fraction(signed[1].replace(",", ".")) * one)
    try:
        return Extent("length", length(written).mm / 1000)
    except Unread:
        sentence = f'"{written}" is no length, area or volume'
        raise Unread(sentence, "write 2.4 m, 0.8 m2 or 0.02 m3") from None
