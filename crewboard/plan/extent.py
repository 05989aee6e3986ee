"""How large a piece is, by length, area or volume: the basis on which "original" is counted."""

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import product
from typing import Literal, NamedTuple

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import FOOT, INCH, NUMBER, decimals, length, number_in, one_way, rounded

Basis = Literal["pieces", "length", "area", "volume"]
_Signs = tuple[str, tuple[Basis, Fraction]]
SIGN: dict[Basis, str] = {"pieces": "pieces", "length": "m", "area": "m²", "volume": "m³"}
_FOOT, _INCH, _CM = FOOT / 1000, INCH / 1000, Fraction(1, 100)  # m
_LONG: dict[tuple[str, ...], Fraction] = {
    ("m", "metre", "metres", "meter", "meters"): Fraction(1),
    ("cm", "centimetre", "centimetres"): _CM,
    ("ft", "foot", "feet"): _FOOT,
    ("in", "inch", "inches"): _INCH,
    ("yd", "yard", "yards"): 3 * _FOOT,
}


def _signs(basis: Basis, power: int, spelled: str, words: tuple[str, str]) -> Iterator[_Signs]:
    """ "m2", "m²", "m^2", "sqm", "sq m", "square metres" and so on."""
    for (short, *longer), one in _LONG.items():
        for sign in (f"{short}{power}", f"{short}{spelled}", f"{short}^{power}"):
            yield sign, (basis, one**power)
        for word, unit in product(words, (short, *longer)):
            yield f"{word} {unit}", (basis, one**power)
            yield f"{word}{unit}", (basis, one**power)


# An area or volume by its sign: what it measures, and how many m² or m³ one is. A board foot is
# 144 cubic inches (common practice of the timber trade, no source).
_SIGNS: dict[str, tuple[Basis, Fraction]] = {
    **dict(_signs("area", 2, "²", ("sq", "square"))),
    **dict(_signs("volume", 3, "³", ("cu", "cubic"))),
    **dict.fromkeys(("bd ft", "board feet", "board foot"), ("volume", _FOOT**3 / 12)),
}
_LONGEST = sorted(_SIGNS, key=len, reverse=True)
_SIGNED = rf"(?:{NUMBER})(?![\d/.,])\s*({'|'.join(map(re.escape, _LONGEST))})\.?"
_ABBREVIATED = r"\b(sq|cu)\.\s*"
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
    text = re.sub(_ABBREVIATED, r"\1 ", one_way(written), flags=re.IGNORECASE)
    signed = re.fullmatch(_SIGNED, text, re.IGNORECASE)
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
