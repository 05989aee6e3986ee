"""Pilot holes for a wood screw."""

from fractions import Fraction

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import INCH, shown
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.measures import number_shown
from crewboard.trade.reckoning import Reckoning, Source

ROOT = Source("root of a wood screw about 2/3 of its shank", "Wood Handbook, chapter 8", "verified")
PULLED = Source(
    "where it is pulled: 90 % of the root in hardwood, 70 % in softwood",
    "commentary to the national design specification for wood, 11.1.2.1 (history)",
    "verified",
)
LIMITS = Source(
    "hardwood means a specific gravity of 0.6 or more, softwood 0.5 to 0.6, below that no hole is "
    "asked for; loaded sideways: shank and root diameter in hardwood, 7/8 of each below 0.6",
    "digest of the national design specification for wood",
    "second-hand",
)
GAUGES = Source(
    "shank of a screw of gauge n: 0.060 + 0.013 n inches", "rule of the trade", "from memory"
)
_SHARE = {"hardwood": Fraction(9, 10), "softwood": Fraction(7, 10)}
_LOADED_SIDEWAYS = {"hardwood": Fraction(1), "softwood": Fraction(7, 8)}
_MOST_GAUGE = 30


def _answer(given: Given) -> Reckoning:
    if given.has("gauge") == given.has("shank"):
        raise Unread("say the screw", 'write "gauge=10" or "shank=4.8 mm"')
    by_gauge = given.has("gauge")
    shank = _of_gauge(given.whole("gauge")) if by_gauge else given.length("shank")
    wood, units = given.one_of("wood"), given.units
    root = shank * 2 / 3
    hole = root * _SHARE[wood]
    sideways = _LOADED_SIDEWAYS[wood]
    return Reckoning(
        (
            f"hole for the thread {_fine(hole, units)} where the screw is pulled",
            f"loaded sideways: {_fine(shank * sideways, units)} for the shank, "
            f"{_fine(root * sideways, units)} for the thread",
        ),
        (f"shank {_fine(shank, units)}, root {_fine(root, units)}, {wood}",),
        (*((GAUGES,) if by_gauge else ()), ROOT, PULLED, LIMITS),
        ("an ordinary wood screw with a tapered or cut thread",),
        ("try it in waste of the same wood: dry old oak splits before it gives",),
        figures={"hole_mm": hole, "shank_mm": shank, "root_mm": root},
    )


def _of_gauge(gauge: int) -> Fraction:
    if gauge > _MOST_GAUGE:
        raise Unread(f"there is no screw of gauge {gauge}", "write a gauge such as 8")
    return (Fraction(60, 1000) + Fraction(13, 1000) * gauge) * INCH


def _fine(mm: Fraction, units: str) -> str:
    """A diameter: thousandths of an inch beside the drill, tenths of a millimetre."""
    if units == "imperial":
        return f"{number_shown(mm / INCH, 3)} in"
    return shown(mm)


KIND = KindOfReckoning(
    "pilot",
    "Pilot holes",
    (
        Ask("gauge", "gauge of the screw", "count", needed=False),
        Ask("shank", "or the diameter of its shank", "length", needed=False),
        Ask("wood", "hardwood or softwood", "one of", words=tuple(_SHARE)),
    ),
    _answer,
)
