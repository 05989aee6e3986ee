"""An arc from chord and rise, with heights along it for lofting."""

from fractions import Fraction
from math import degrees

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import shown
from crewboard.trade.arc import Arc
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.measures import number_shown
from crewboard.trade.reckoning import Reckoning, geometry

RADIUS = geometry("R = c²/8s + s/2; angle = 2 asin(c/2R); along the arc R x angle (radians)")
MOST_HEIGHTS = 400


def _answer(given: Given) -> Reckoning:
    arc = Arc(given.length("chord"), given.length("rise"))
    units = given.units
    heights = _heights(arc, given) if given.has("every") else []
    result = (
        f"radius {shown(arc.radius, units)}, along the arc {shown(Fraction(arc.length), units)}",
        *(f"{shown(x, units)} from the middle: {shown(y, units)} high" for x, y in heights),
    )
    turned = number_shown(degrees(arc.angle))
    return Reckoning(
        result,
        (f"chord {shown(arc.chord, units)}, rise {shown(arc.rise, units)}: it turns {turned}°",),
        (RADIUS,),
        ("a part of a circle: a parabola or a batten bent by hand runs otherwise in between",),
        figures={
            "radius_mm": arc.radius,
            "arc_mm": arc.length,
            "angle_degrees": degrees(arc.angle),
            "heights": [{"from_middle_mm": x, "height_mm": y} for x, y in heights],
        },
    )


def _heights(arc: Arc, given: Given) -> list[tuple[Fraction, Fraction]]:
    """The heights over the chord from the middle out to the end, at even steps."""
    if arc.rise > arc.radius:
        raise Unread("the arc is more than half a circle", "leave out the heights along it")
    step, half = given.length("every"), arc.chord / 2
    if half / step > MOST_HEIGHTS:
        raise Unread(f"that makes more than {MOST_HEIGHTS} heights", "take a wider step")
    at = [step * number for number in range(int(half / step) + 1)]
    return [(x, arc.height(x)) for x in (*at, *(half for _ in (1,) if at[-1] != half))]


KIND = KindOfReckoning(
    "arc",
    "An arc",
    (
        Ask("chord", "chord, straight across", "length"),
        Ask("rise", "rise in the middle", "length"),
        Ask("every", "heights at every so much along the chord", "length", needed=False),
    ),
    _answer,
)
