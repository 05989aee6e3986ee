"""How long a nail, by the thickness of what it holds."""

from fractions import Fraction

from crewboard.plan.length import INCH, shown
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.reckoning import Reckoning, Source

RULE = Source(
    "three times the thickness of the board held", "rule of the trade, two texts", "second-hand"
)
PENNIES = Source("lengths of nails by the penny", "four tables that agree", "second-hand")
# Penny -> length in inches.
PENNY: dict[int, Fraction] = {
    2: Fraction(1),
    3: Fraction(5, 4),
    4: Fraction(3, 2),
    5: Fraction(7, 4),
    6: Fraction(2),
    7: Fraction(9, 4),
    8: Fraction(5, 2),
    9: Fraction(11, 4),
    10: Fraction(3),
    12: Fraction(13, 4),
    16: Fraction(7, 2),
    20: Fraction(4),
    30: Fraction(9, 2),
    40: Fraction(5),
    60: Fraction(6),
}
_TIMES = 3


def _answer(given: Given) -> Reckoning:
    thick, units = given.length("thickness"), given.units
    wanted = _TIMES * thick
    into = given.length("behind") + thick if given.has("behind") else None
    penny = next((penny for penny, inches in PENNY.items() if inches * INCH >= wanted), None)
    size = f": {penny}d, {shown(PENNY[penny] * INCH, 'imperial')}" if penny else ": longer than 60d"
    longest = PENNY[penny] * INCH if penny else wanted
    through = into is not None and longest >= into
    said = (
        f"a nail of {shown(longest, units)} comes through: it all is {shown(into or thick, units)}"
    )
    return Reckoning(
        (f"{shown(wanted, units)} by the rule{size}",),
        (f"{_TIMES} x {shown(thick, units)}",),
        (RULE, PENNIES),
        ("nailed through the thinner piece into the thicker",),
        (
            *((said,) if through else ()),
            "where hammering would harm weak framing, screws: a departure, to be recorded",
            "what the old holes could have held is evidence of the old length",
        ),
        figures={"length_mm": wanted, "penny": penny, "comes_through": through},
    )


KIND = KindOfReckoning(
    "nails",
    "Length of a nail",
    (
        Ask("thickness", "thickness of the board nailed on", "length", fills="thickness"),
        Ask("behind", "thickness of what it is nailed to", "length", needed=False),
    ),
    _answer,
)
