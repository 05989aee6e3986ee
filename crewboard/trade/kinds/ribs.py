"""Ribs set out evenly along a curve, with where each stands over the chord."""

from fractions import Fraction
from math import degrees

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import shown
from crewboard.trade.arc import Arc
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.measures import number_shown
from crewboard.trade.reckoning import Reckoning, geometry

RULE = geometry("equal steps along the arc; each stands square to it")
_MOST = 200


def _answer(given: Given) -> Reckoning:
    arc, count, units = (
        Arc(given.length("chord"), given.length("rise")),
        given.whole("count"),
        given.units,
    )
    if not 2 <= count <= _MOST:
        raise Unread(f"{count} ribs cannot be set out so", f"write a count from 2 to {_MOST}")
    step = arc.length / (count - 1)
    ribs = [arc.along(step * number) for number in range(count)]
    return Reckoning(
        (
            f"{count} ribs, {shown(Fraction(step), units)} along the arc from one to the next",
            *(
                f"{number}: {_from_end(across, units)} along the chord, "
                f"{_from_end(height, units)} high, leans {_leans(slope)}"
                for number, (across, height, slope) in enumerate(ribs, 1)
            ),
        ),
        (
            f"chord {shown(arc.chord, units)}, rise {shown(arc.rise, units)}: radius "
            f"{shown(arc.radius, units)}, along the arc {shown(Fraction(arc.length), units)}",
        ),
        (RULE,),
        ("middles of the ribs, one at each end; a part of a circle",),
        figures={
            "step_mm": step,
            "ribs": [
                {"across_mm": across, "height_mm": height, "lean_degrees": degrees(slope)}
                for across, height, slope in ribs
            ],
        },
    )


def _from_end(mm: float, units: str) -> str:
    """A hair below nothing is nothing: sines are not exact."""
    return shown(Fraction(round(max(0.0, mm), 6)).limit_denominator(10**6), units)


def _leans(slope: float) -> str:
    turned = round(degrees(slope), 1)
    if not turned:
        return "not"
    return (
        f"{number_shown(Fraction(str(abs(turned))), 1)}° to the {'left' if turned > 0 else 'right'}"
    )


KIND = KindOfReckoning(
    "ribs",
    "Ribs on a curve",
    (
        Ask("chord", "chord, straight across", "length"),
        Ask("rise", "rise in the middle", "length"),
        Ask("count", "how many ribs, the two ends included", "count"),
    ),
    _answer,
)
