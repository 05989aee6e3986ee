"""Has it moved? The same length before and after."""

from fractions import Fraction

from crewboard.plan.length import shown
from crewboard.trade.adjust import value
from crewboard.trade.arc import root
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.reckoning import Reckoning, geometry

RULE = geometry("moved where the difference is at least 2 x √(σ1² + σ2²)")


def _answer(given: Given) -> Reckoning:
    units = given.units
    before, after = (
        given.read(name, lambda typed: value(typed, units)) for name in ("before", "after")
    )
    apart = after.mm - before.mm
    limit = 2 * root(before.sigma**2 + after.sigma**2)
    moved = apart**2 >= 4 * (before.sigma**2 + after.sigma**2)
    way = "longer" if apart > 0 else "shorter"
    told = f"it has moved: {shown(abs(apart), units)} {way}"
    return Reckoning(
        (told if moved else "not shown to have moved",),
        (f"difference {shown(abs(apart), units)}, limit {shown(Fraction(limit), units)}",),
        (RULE,),
        ("both from the same marks; each tolerance one standard deviation",),
        () if moved else ("that does not show that it has stayed",),
        figures={"moved": moved, "difference_mm": apart, "limit_mm": limit},
    )


KIND = KindOfReckoning(
    "moved",
    "Has it moved",
    (
        Ask("before", 'before, "1750 mm ± 3 mm"', "measures"),
        Ask("after", 'after, "1758 mm ± 3 mm"', "measures"),
    ),
    _answer,
)
