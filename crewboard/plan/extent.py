"""How large a piece is, by length, area or volume: the basis on which "original" is counted."""

import re
from fractions import Fraction
from typing import Literal, NamedTuple

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import FOOT, INCH, NUMBER, decimals, length, number_in, one_way, rounded

Basis = Literal["pieces", "length", "area", "volume"]
SIGN: dict[Basis, str] = {"pieces": "pieces", "length": "m", "area": "m²", "volume": "m³"}
_FOOT, _INCH, _CM = FOOT / 1000, INCH / 1000, Fraction(1, 100)  # m
# An area or volume by its sign: what it measures, and how many m² or m³ one is. A board foot is
# 144 cubic inches (common practice of the timber trade, no source).
_SIGNS: dict[str, tuple[Basis, Fraction]] = {
    **dict.fromkeys(("m2", "m²", "sq m", "square metres"), ("area", Fraction(1))),
    **dict.fromkeys(("cm2", "cm²", "sq cm"), ("area", _CM**2)),
    **dict.fromkeys(("ft2", "ft²", "sq ft", "square feet"), ("area", _FOOT**2)),
    **dict.fromkeys(("in2", "in²", "sq in", "square inches"), ("area", _INCH**2)),
    **dict.fromkeys(("m3", "m³", "cu m", "cubic metres"), ("volume", Fraction(1))),
    **dict.fromkeys(("cm3", "cm³", "cu cm"), ("volume", _CM**3)),
    **dict.fromkeys(("ft3", "ft³", "cu ft", "cubic feet"), ("volume", _FOOT**3)),
    **dict.fromkeys(("in3", "in³", "cu in", "cubic inches"), ("volume", _INCH**3)),
    **dict.fromkeys(("bd ft", "board feet"), ("volume", _FOOT**3 / 12)),
}
_SIGNED = rf"(?:{NUMBER})(?![\d/.,])\s*({'|'.join(map(re.escape, _SIGNS))})\.?"
_IMPERIAL: dict[Basis, tuple[str, Fraction]] = {
    "length": ("ft", _FOOT),
    "area": ("sq ft", _FOOT**2),
    "volume": ("cu ft", _FOOT**3),
}
_MEND = "write 2.4 m, 0.8 m2 or 0.02 m3"
_FINE = 3  # decimals that an extent is shown with


class Extent(NamedTuple):
    """`amount` in m, m² or m³, exact and more than nothing."""

    basis: Basis
    amount: Fraction


ONE_PIECE = Extent("pieces", Fraction(1))


def extent(written: str) -> Extent:
    """The extent as it is written: "2.4 m", "7' 9 1/2\\"", "0.8 m2", "12 1/2 sq ft", "0.02 m3".
    It always has its unit. Raises Unread."""
    measured = _signed(written) or _long(written)
    if not measured.amount:
        raise Unread(f'"{written}" is no size at all', _MEND)
    return measured


def _signed(written: str) -> Extent | None:
    signed = re.fullmatch(_SIGNED, one_way(written), re.IGNORECASE)
    if signed is None:
        return None
    basis, one = _SIGNS[signed[5].casefold()]
    return Extent(basis, number_in(signed, written) * one)


def _long(written: str) -> Extent:
    text = one_way(written)
    bare = f'"{written}" has no unit' if re.fullmatch(NUMBER, text) else ""
    try:
        measured = length(written)
    except Unread as unread:
        if "two ways" in unread.sentence:
            raise
        sentence = f'"{written}" is no length, area or volume'
        raise Unread(sentence, _MEND) from None
    if bare:
        raise Unread(bare, _MEND)
    return Extent("length", measured.mm / 1000)


def shown(extent: Extent, units: str = "metric") -> str:
    """ "2.4 m", "0.8 m²", "9 pieces"; with imperial units feet; "about" where it is rounded to
    three decimals."""
    sign, one = SIGN[extent.basis], Fraction(1)
    if units == "imperial":
        sign, one = _IMPERIAL.get(extent.basis, (sign, one))
    if extent.basis == "pieces" and extent.amount == 1:
        sign = "piece"
    exact = extent.amount / one * 10**_FINE
    about = "" if rounded(exact) == exact else "about "
    return f"{about}{decimals(rounded(exact), _FINE)} {sign}"
