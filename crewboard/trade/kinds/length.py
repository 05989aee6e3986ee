"""A length, or several added up, in the units of both worlds."""

from fractions import Fraction

from crewboard.plan.length import INCH, shown
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.measures import number_shown
from crewboard.trade.reckoning import Reckoning, Source

EXACT_INCH = Source("an inch is 25.4 mm exactly", "international yard and pound, 1959", "verified")


def _answer(given: Given) -> Reckoning:
    lengths = given.lengths("length")
    total = sum((mm * count for mm, count in lengths), Fraction(0))
    ways = (
        shown(total),
        f"{number_shown(total / 1000, 3)} m",
        f"{number_shown(total / INCH, 3)} in",
        shown(total, "imperial"),
    )
    how = [f"{count} x {shown(mm, given.units)}" for mm, count in lengths]
    return Reckoning(
        (" = ".join(dict.fromkeys(ways)),),
        ("added up: " + " + ".join(how),) if len(how) > 1 or lengths[0][1] > 1 else (),
        (EXACT_INCH,),
        figures={"length_mm": total, "length_in": total / INCH},
    )


KIND = KindOfReckoning(
    "length",
    "A length",
    (Ask("length", 'the length, or several: "3 x 7\' 9 1/2 in, 2.4 m"', "lengths"),),
    _answer,
)
