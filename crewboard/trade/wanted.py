"""The curve that is wanted, by its radius or by chord and rise; and a form told in the same way."""

from fractions import Fraction
from typing import NamedTuple

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import shown
from crewboard.trade.arc import Arc, arc_of
from crewboard.trade.given import Ask, Given

ASKS = (
    Ask("radius", "radius that is wanted", "length", needed=False),
    Ask("chord", "or its chord, straight across", "length", needed=False),
    Ask("rise", "and its rise in the middle", "length", needed=False),
)


class Curve(NamedTuple):
    """Radius in mm; the chord where the curve was given by one."""

    radius: Fraction
    chord: Fraction | None = None

    @property
    def arc(self) -> Arc | None:
        """Over its chord; None where there is none, or it is too wide."""
        return arc_of(self.radius, self.chord) if self.chord else None

    def told(self, units: str) -> str:
        """ "radius 102 in", "radius about 2418.4 mm, rise 320 mm over a chord of 2060 mm"."""
        radius, arc = f"radius {shown(self.radius, units)}", self.arc
        if arc is None:
            return radius
        return f"{radius}, rise {shown(arc.rise, units)} over a chord of {shown(arc.chord, units)}"

    def measure(self, units: str) -> tuple[str, str]:
        """By what it is measured in the shop, and how much that is: ("rise", "320 mm")."""
        arc = self.arc
        if arc is None:
            return "radius", shown(self.radius, units)
        return "rise", shown(arc.rise, units)

    def with_radius(self, radius: Fraction) -> "Curve":
        return self._replace(radius=radius)


def wanted(given: Given) -> Curve:
    """Raises Unread where neither is given, or both."""
    by_chord = given.has("chord") or given.has("rise")
    if given.has("radius") == by_chord:
        raise Unread(
            "say which curve is wanted", 'write "radius=...", or "chord=..." and "rise=..."'
        )
    if not by_chord:
        return Curve(given.length("radius"))
    arc = Arc(given.length("chord"), given.length("rise"))
    if arc.rise > arc.radius:
        raise Unread("the curve is more than half a circle", "write its radius instead")
    return Curve(arc.radius, arc.chord)
