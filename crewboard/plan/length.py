"""Lengths as people type them, exact inside: "2400 mm", "2.4 m", "7' 9 1/2\\"", "2 3/8 in".

An inch is 25.4 mm exactly (the international yard and pound, 1959), so every length typed in feet,
inches and fractions is a fraction of a millimetre and nothing is rounded before it is shown.
"""

import re
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from crewboard.plan.as_typed import Unread

INCH = Fraction(127, 5)  # mm
_MM = {
    **dict.fromkeys(("mm", "millimetre", "millimetres"), Fraction(1)),
    **dict.fromkeys(("cm", "centimetre", "centimetres"), Fraction(10)),
    **dict.fromkeys(("m", "metre", "metres"), Fraction(1000)),
    **dict.fromkeys(('"', "in", "inch", "inches"), INCH),
    **dict.fromkeys(("'", "ft", "foot", "feet"), 12 * INCH),
}
_SIGNS = "|".join(re.escape(sign) for sign in sorted(_MM, key=len, reverse=True))
# One character for a fraction, as some keyboards and other programs write it.
_ONE_SIGN = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_NUMBER = r"(?:(\d+)[ -]+)?(\d+)/(\d+)|(\d+(?:[.,]\d+)?|[.,]\d+)"
_PART = re.compile(rf"\s*(?:{_NUMBER})\s*({_SIGNS})?(?![A-Za-z\d/.,])", re.IGNORECASE)
_MEND = "write a length such as 2400 mm, 2.4 m, 2 3/8 in or 7' 9 1/2\""
MOST = Fraction(10**9)  # mm: a thousand kilometres


class Length(NamedTuple):
    """A length in mm, exact; `text` is how it was typed, with its unit."""

    mm: Fraction
    text: str


def length(typed: str, units: str = "metric") -> Length:
    """The length that was typed. Without a unit millimetres are meant, in a folder with imperial
    units inches. Raises Unread."""
    text = typed.strip().replace("″", '"').replace("′", "'").replace("”", '"').replace("’", "'")
    for sign, figures in _ONE_SIGN.items():
        text = re.sub(rf"(?<=\d){sign}", f" {figures}", text).replace(sign, figures)
    text = text.replace("''", '"')
    parts, at = [], 0
    while at < len(text):
        part = _PART.match(text, at)
        if part is None:
            raise Unread(f'"{typed}" is not a length', _MEND)
        parts.append((_number(part, typed), (part[5] or "").casefold()))
        at = part.end()
        while text[at : at + 1].isspace():
            at += 1
    if not parts:
        raise Unread("no length is written here", _MEND)
    usual = "in" if units == "imperial" else "mm"
    *before, (last, sign) = parts
    if not sign:
        # 7' 9: the inches behind feet need no sign; 1 3 is no length.
        sign = usual if not before else "in" if before[-1][1] in ("'", "ft", "foot", "feet") else ""
        text = f"{text} {sign}"
    whole = [*before, (last, sign)]
    sizes = [_MM.get(sign) for _, sign in whole]
    if None in sizes or any(a <= b for a, b in pairwise(sizes) if a and b):
        raise Unread(f'"{typed}" is not a length', _MEND)  # 1 3, or inches before feet
    mm = sum((number * _MM[sign] for number, sign in whole), Fraction(0))
    if mm > MOST:
        raise Unread(f'"{typed}" is too long', _MEND)
    return Length(mm, text)


def _number(part: re.Match[str], typed: str) -> Fraction:
    whole, over, under, plain = part[1], part[2], part[3], part[4]
    if plain:
        return Fraction(plain.replace(",", "."))
    if int(under) == 0:
        raise Unread(f'"{typed}" divides by nought', _MEND)
    return int(whole or 0) + Fraction(int(over), int(under))
