"""Amounts of liquid, spreading rates and films of paint as people type and read them, exact.

A US gallon is 231 cubic inches and an imperial one 4.54609 litres, both exact (NIST Handbook 44,
appendix C; Weights and Measures Act 1985: values from memory, worked out against 1604.17 square
feet for a gallon one mil thick). A mil is a thousandth of an inch.
"""

import re
from fractions import Fraction

from crewboard.plan.as_typed import Unread
from crewboard.plan.extent import extent
from crewboard.plan.length import INCH, NUMBER, decimals, number_in, one_way, rounded

GALLON = 231 * (INCH / 100) ** 3  # litres
MIL = INCH  # µm
_LITRES = {
    **dict.fromkeys(("l", "litre", "litres", "liter", "liters", "ltr"), Fraction(1)),
    **dict.fromkeys(("ml", "millilitre", "millilitres"), Fraction(1, 1000)),
    "cl": Fraction(1, 100),
    **dict.fromkeys(("gal", "gallon", "gallons", "us gal", "us gallon", "us gallons"), GALLON),
    **dict.fromkeys(("qt", "quart", "quarts"), GALLON / 4),
    **dict.fromkeys(("pt", "pint", "pints"), GALLON / 8),
    **dict.fromkeys(
        ("imp gal", "imp. gal", "imperial gal", "imperial gallon", "imperial gallons"),
        Fraction(454609, 100000),
    ),
}
_HOURS = {
    **dict.fromkeys(("h", "hr", "hrs", "hour", "hours"), Fraction(1)),
    **dict.fromkeys(("min", "mins", "minute", "minutes"), Fraction(1, 60)),
    **dict.fromkeys(("d", "day", "days"), Fraction(24)),
}
_FILMS = {
    **dict.fromkeys(("µm", "μm", "um", "micron", "microns", "micrometres"), Fraction(1)),
    **dict.fromkeys(("mil", "mils", "thou"), MIL),
    "mm": Fraction(1000),
}


def liquid(typed: str) -> Fraction:
    """Litres of "2.5 l", "1 gal" (a US gallon) or "1 imp gal". Raises Unread."""
    return _signed(typed, _LITRES, "an amount of liquid", "write 2.5 l or 1 gal")


def hours(typed: str) -> Fraction:
    """Hours of "6 h", "90 min", "1 day"; of a number alone, hours. Raises Unread."""
    alone = f"{typed} h" if re.fullmatch(NUMBER, one_way(typed)) else typed
    return _signed(alone, _HOURS, "a time", "write 6 h or 90 min")


def spreading(typed: str) -> Fraction:
    """m² a litre of "8 m2/l", "350 sq ft/gal"; of "80 ml/m2", as other labels have it. Raises
    Unread."""
    over, _, under = one_way(typed).replace(" per ", "/").rpartition("/")
    by_area = under.strip().casefold() in _LITRES
    try:
        area = extent(over if by_area else f"1 {under}")
        litres = _LITRES[under.strip().casefold()] if by_area else liquid(over)
        if area.basis == "area" and litres:
            return area.amount / litres
    except Unread as unread:
        if "two ways" in unread.sentence:
            raise
    hint = "write what the label says, of a range its lower end: 8 m2/l or 350 sq ft/gal"
    raise Unread(f'"{typed}" is no spreading rate', hint)


def film(typed: str) -> Fraction:
    """Micrometres of "125 µm" or "5 mil". Raises Unread."""
    return _signed(typed, _FILMS, "the thickness of a film", "write 125 µm or 5 mil")


def _signed(typed: str, signs: dict[str, Fraction], thing: str, hint: str) -> Fraction:
    words = "|".join(map(re.escape, sorted(signs, key=len, reverse=True)))
    signed = re.fullmatch(rf"(?:{NUMBER})\s*({words})\.?", one_way(typed), re.IGNORECASE)
    if signed is None:
        raise Unread(f'"{typed}" is not {thing}', hint)
    return number_in(signed, typed) * signs[signed[5].casefold()]


def number_shown(value: Fraction | float, places: int = 2) -> str:
    """A number of nought or more, "about" where it is rounded to so many decimals."""
    exact = Fraction(value) * 10**places
    about = "" if rounded(exact) == exact else "about "
    return f"{about}{decimals(rounded(exact), places)}"


def litres_shown(litres: Fraction, units: str) -> str:
    """ "5.2 l", or "about 5.08 gal" in a folder with imperial units."""
    if units == "imperial":
        return f"{number_shown(litres / GALLON)} gal"
    return f"{number_shown(litres)} l"


def spreading_shown(rate: Fraction, units: str) -> str:
    """ "5.2 m² a litre" or "208.5 sq ft a gallon"."""
    if units == "imperial":
        square_feet = rate * GALLON / (INCH * 12 / 1000) ** 2
        return f"{number_shown(square_feet, 1)} sq ft a gallon"
    return f"{number_shown(rate)} m² a litre"


def film_shown(micrometres: Fraction, units: str) -> str:
    """ "125 µm" or "5 mil"."""
    if units == "imperial":
        return f"{number_shown(micrometres / MIL)} mil"
    return f"{number_shown(micrometres, 1)} µm"
