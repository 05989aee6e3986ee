"""Board feet and cubic metres."""

from fractions import Fraction

from crewboard.plan.length import INCH, shown
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.measures import number_shown
from crewboard.trade.reckoning import Reckoning, Source

BOARD_FOOT = 144 * INCH**3  # mm³
RULE = Source(
    "a board foot is 144 cubic inches: thickness x width x length in inches / 144",
    "rule of the timber trade, several trade texts",
    "second-hand",
)


def _answer(given: Given) -> Reckoning:
    thick, wide = given.length("thickness"), given.length("width")
    long = sum((mm * count for mm, count in given.lengths("length")), Fraction(0))
    waste = given.percent("waste")
    volume = thick * wide * long
    bought = volume * (1 + waste / 100)
    result = f"{_feet(bought)} board feet = {number_shown(bought / 10**9, 4)} m³"
    lengths = f"{shown(long, given.units)} in all"
    how = [f"{shown(thick, given.units)} x {shown(wide, given.units)} x {lengths}"]
    if waste:
        how.append(f"{_feet(volume)} board feet, and {number_shown(waste)} % more for waste")
    sizes = given.one_of("sizes")
    return Reckoning(
        (result,),
        tuple(how),
        (RULE,),
        (f"the sizes are {sizes}: the yard may count nominal ones, sawn rough",),
        figures={"board_feet": bought / BOARD_FOOT, "volume_m3": bought / 10**9},
    )


def _feet(volume: Fraction) -> str:
    return number_shown(volume / BOARD_FOOT)


KIND = KindOfReckoning(
    "timber",
    "Timber",
    (
        Ask("thickness", "thickness", "length", fills="thickness"),
        Ask("width", "width", "length"),
        Ask("length", 'length, or several: "6 x 10 ft, 2 x 8 ft"', "lengths", fills="length"),
        Ask(
            "sizes",
            "nominal or actual sizes",
            "one of",
            needed=False,
            otherwise="actual",
            words=("actual", "nominal"),
        ),
        Ask("waste", "more for waste, in %", "percent", needed=False, otherwise="0"),
    ),
    _answer,
)
