"""Lengths as people type them, exact inside: "2400 mm", "2.4 m", "7' 9 1/2\\"", "2 3/8 in".

An inch is 25.4 mm exactly (the international yard and pound, 1959), so every length typed in feet,
inches and fractions is a fraction of a millimetre and nothing is rounded before it is shown.
"""

import re
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple
from unicodedata import normalize

from crewboard.plan.as_typed import Unread

INCH = Fraction(127, 5)  # mm
FOOT = 12 * INCH
_FEET = ("'", "ft", "foot", "feet")
_MM = {
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), Fraction(1)),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), Fraction(10)),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), Fraction(1000)),
    **dict.fromkeys(('"', "in", "inch", "inches"), INCH),
    **dict.fromkeys(_FEET, FOOT),
    **dict.fromkeys(("yd", "yard", "yards"), 3 * FOOT),
}
_SIGNS = "|".join(re.escape(sign) for sign in sorted(_MM, key=len, reverse=True))
# One character for a fraction, with blanks around it: 2⅜ is two and three eighths. Signs as some
# keyboards and other programs write them.
_SPELLED_HERE = str.maketrans(
    {
        **{one: f" {normalize('NFKC', one)} " for one in "¼½¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"},
        **dict.fromkeys("″”“", '"'),
        **dict.fromkeys("′’‘", "'"),
    }
)
# At most so many figures, and only 0 to 9: a number that has more is no length.
_WHOLE, _DECIMALS = r"[0-9]{1,12}", r"[.,][0-9]{1,20}"
_GROUPED = (
    r"[1-9][0-9]{0,2}(?: [0-9]{3}){1,3}(?![0-9])"  # 2 340: thousands as ISO 80000-1 parts them
)
_PLAIN = rf"(?:{_GROUPED}|{_WHOLE})(?:{_DECIMALS})?|{_DECIMALS}"
NUMBER = rf"(?:({_WHOLE})[ -]+)?({_WHOLE})/({_WHOLE})|({_PLAIN})"
_PART = rf"(?:{NUMBER})(?![\d/.,])\s*(?:({_SIGNS})(?![^\W\d_])(?:\.(?!\d))?)?\s*"
_THOUSANDS = r"[1-9][0-9]{0,2},[0-9]{3}"
_APART = r"([0-9])'([0-9]{3})(?![0-9])"  # 1'000: thousands as some part them, or a foot?
_MEND = "write a length such as 2400 mm, 2.4 m, 2 3/8 in or 7' 9 1/2\""
_GIVE_OR_TAKE = re.compile(r"±|\+/?-|give or take")
MOST = Fraction(10**9)  # mm: a thousand kilometres
_FEET_FROM = 120  # inches: from ten feet on a length is shown in feet and inches


class Length(NamedTuple):
    """A length in mm, exact; `text` is how it was typed, with its unit."""

    mm: Fraction
    text: str


def length(typed: str, units: str = "metric") -> Length:
    """The length that was typed. Without a unit millimetres are meant, in a folder with imperial
    units inches. Raises Unread."""
    text = one_way(typed)
    if not text:
        raise Unread("no length is written here", _MEND)
    if re.search(_APART, text):
        wanted = re.sub(_APART, r"\1\2", text)
        raise Unread(f'"{typed}" can be read in two ways', f"write {wanted}, or feet and a blank")
    *before, (last, sign) = _parts(text, typed)
    if not sign and not before:
        sign = "in" if units == "imperial" else "mm"
        text = f"{text} {sign}"
    elif not sign and before[-1][1] in _FEET:  # 7' 9: the inches behind feet need no sign
        sign, text = "in", f"{text} in"
    parts = [*before, (last, sign)]
    sizes = [_MM.get(sign) for _, sign in parts]
    if None in sizes or any(a <= b for a, b in pairwise(sizes) if a and b):
        raise Unread(f'"{typed}" is not a length', _MEND)  # 1 3, or inches before feet
    mm = sum((number * _MM[sign] for number, sign in parts), Fraction(0))
    if mm > MOST:
        raise Unread(f'"{typed}" is too long', _MEND)
    return Length(mm, text)


def give_or_take(
    typed: str, beside: str = "", units: str = "metric"
) -> tuple[Length, Length | None]:
    """A length, and how exactly it is known where that is said: behind it, "812 mm ± 2", or
    `beside` it. Without a unit that is in the length's. Raises Unread, also where only what stands
    behind it has a unit, and not the folder's: "2.45 ± 0.03 m" is nobody's 2.45 mm."""
    measured, *said = map(str.strip, _GIVE_OR_TAKE.split(typed))
    sign = signed(said[0]) if said and not signed(measured) else ""
    if sign and _MM[sign] != _MM["in" if units == "imperial" else "mm"]:
        wanted = f"write {measured} {sign} ± {said[0]}"
        raise Unread(f'"{typed}" may be of several units', wanted)
    said += [beside] if beside.strip() else []
    if len(said) > 1:
        raise Unread(f'"{typed}" says how exactly twice', "say it once: 2.40 m ± 30 mm")
    known = length(measured, units)
    return known, exactly(said[0], known, units) if said else None


def signed(typed: str) -> str:
    """The sign of the last number, empty where it has none or it is no length."""
    try:
        return (_parts(one_way(typed), typed) or [(Fraction(0), "")])[-1][1]
    except Unread:
        return ""


def exactly(typed: str, of: Length, units: str) -> Length:
    """How exactly a length is known; without a unit in that of the length. Raises Unread."""
    *_, (_, sign) = _parts(one_way(typed), typed) or [(Fraction(0), "")]
    if sign or not typed.strip():
        return length(typed, units)
    *_, (_, of_length) = _parts(of.text, of.text)
    if _MM[of_length] > INCH:  # give or take two metres is not meant
        raise Unread(f'"{typed.strip()}" may be of several units', "write 2 mm, or 1/16 in")
    return length(f"{typed} {of_length}", units)


def one_way(typed: str) -> str:
    """What was typed with its signs and fractions in one spelling: "7′ 9½″" as `7' 9 1/2 "`."""
    text = typed.translate(_SPELLED_HERE).replace("⁄", "/").replace("∕", "/").replace("''", '"')
    text = re.sub(r"('|(?:ft|foot|feet)\.?)\s*-\s*(?=\d)", r"\1 ", text, flags=re.IGNORECASE)
    return re.sub(r"\s+(?=[\"'])", "", " ".join(text.split()))


def _parts(text: str, typed: str) -> list[tuple[Fraction, str]]:
    """Each number with its sign, empty where it has none."""
    parts, at = [], 0
    while at < len(text):
        part = re.compile(_PART, re.IGNORECASE).match(text, at)
        if part is None:
            raise Unread(f'"{typed}" is not a length', _MEND)
        parts.append((number_in(part, typed), (part[5] or "").casefold()))
        at = part.end()
    return parts


def number_in(part: re.Match[str], typed: str) -> Fraction:
    """The number that matched NUMBER, exact. Raises Unread."""
    whole, over, under, plain = part.groups()[:4]
    if plain and re.fullmatch(_THOUSANDS, plain):
        wanted = f"write {plain.replace(',', '')} or {plain.replace(',', '.')}"
        raise Unread(f'"{typed}" can be read in two ways', wanted)
    if plain:
        return Fraction(plain.replace(" ", "").replace(",", "."))
    if int(under) == 0:
        raise Unread(f'"{typed}" divides by nought', _MEND)
    return int(whole or 0) + Fraction(int(over), int(under))


def shown(mm: Fraction, units: str = "metric", part: int = 16) -> str:
    """A length of nought or more as this folder's people read it, "about" where it is rounded.

    Millimetres with at most one decimal; with imperial units inches to 1/32 where that is exact,
    else to the nearest 1/16 (or other `part`), and from ten feet on feet and inches.
    """
    if units != "imperial":
        tenths = rounded(mm * 10)
        about = "" if tenths == mm * 10 else "about "
        return f"{about}{decimals(tenths, 1)} mm"
    inches = mm / INCH
    near = inches if (inches * 32).denominator == 1 else Fraction(rounded(inches * part), part)
    about = "" if near == inches else "about "
    if near < _FEET_FROM:
        return f"{about}{_mixed(near)} in"
    feet, rest = divmod(near, 12)
    return f"{about}{feet}'" + (f' {_mixed(rest)}"' if rest else "")


def rounded(number: Fraction) -> int:
    """To the nearest whole number, a half upwards."""
    return int(number + Fraction(1, 2))


def decimals(parts: int, places: int) -> str:
    """So many tenths, hundredths ... as a decimal without needless noughts: 24, 1 is "2.4"."""
    whole, rest = divmod(parts, 10**places)
    return f"{whole}.{rest:0{places}}".rstrip("0").rstrip(".") if rest else str(whole)


def _mixed(number: Fraction) -> str:
    """ "93 1/2", "5/16" or "6"."""
    whole, rest = divmod(number, 1)
    return " ".join(str(part) for part in (whole, rest) if part) or "0"
