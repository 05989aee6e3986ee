"""An area: length by width as often as it is there, less what is open in it."""

from fractions import Fraction

from crewboard.plan.as_typed import Unread
from crewboard.plan.extent import Extent
from crewboard.plan.extent import shown as extent_shown
from crewboard.plan.length import shown
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.reckoning import Reckoning, geometry


def _answer(given: Given) -> Reckoning:
    long, wide = given.length("length"), given.length("width")
    count = given.whole("count")
    less = given.area("less") if given.has("less") else Fraction(0)
    whole = long * wide * count / 1_000_000
    if less >= whole:
        raise Unread("more is open than there is", "write the open area smaller")
    area = Extent("area", whole - less)
    both = dict.fromkeys((extent_shown(area, given.units), extent_shown(area, "metric")))
    times = f" x {count}" if count > 1 else ""
    open_there = f" - {extent_shown(Extent('area', less), given.units)}" if less else ""
    return Reckoning(
        (" = ".join((*both, *(extent_shown(area, "imperial") for _ in (1,) if len(both) == 1))),),
        (f"{shown(long, given.units)} x {shown(wide, given.units)}{times}{open_there}",),
        (geometry("area = length x width"),),
        figures={"area_m2": area.amount},
    )


KIND = KindOfReckoning(
    "area",
    "An area",
    (
        Ask("length", "length", "length", fills="length"),
        Ask("width", "width", "length"),
        Ask("count", "how many of them", "count", needed=False, otherwise="1"),
        Ask("less", "what is open in it, windows and doors", "area", needed=False),
    ),
    _answer,
)
