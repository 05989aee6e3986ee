"""Arcs of a circle: radius from chord and rise, length along it, heights over the chord.

Lengths in mm. What is rational stays exact (a radius from chord and rise always is); what is not
is as exact as a float.
"""

from fractions import Fraction
from math import asin, cos, isqrt, pi, sin, sqrt
from typing import NamedTuple


class Arc(NamedTuple):
    """An arc over `chord` that rises `rise` in the middle; it may be more than half a circle."""

    chord: Fraction
    rise: Fraction

    @property
    def radius(self) -> Fraction:
        """R = c²/8s + s/2 (the intersecting chords of Euclid III.35)."""
        return self.chord**2 / (8 * self.rise) + self.rise / 2

    @property
    def angle(self) -> float:
        """Radians between the radii to its ends: 2 asin(c/2R), the rest of the circle where it is
        more than half of one."""
        angle = 2 * asin(min(1.0, float(self.chord / (2 * self.radius))))
        return angle if self.rise <= self.radius else 2 * pi - angle

    @property
    def length(self) -> float:
        """Along the arc."""
        return float(self.radius) * self.angle

    def height(self, from_middle: Fraction) -> Fraction:
        """Height over the chord at a distance from its middle, of at most half the chord."""
        return root(self.radius**2 - from_middle**2) - (self.radius - self.rise)

    def along(self, from_end: float) -> tuple[float, float, float]:
        """The point so far along the arc from its left end: distance along the chord from that end,
        height over it, and the slope there in radians (positive rising)."""
        radius, turned = float(self.radius), from_end / float(self.radius) - self.angle / 2
        across = float(self.chord) / 2 + radius * sin(turned)
        return across, radius * cos(turned) - (radius - float(self.rise)), -turned


def arc_of(radius: Fraction, chord: Fraction) -> Arc | None:
    """The flatter arc of that radius over a chord; None where its circle is not so wide."""
    if chord > 2 * radius:
        return None
    return Arc(chord, radius - root(radius**2 - (chord / 2) ** 2))


def root(square: Fraction) -> Fraction:
    """The square root, exact where it is a fraction, else as exact as a float."""
    if square <= 0:
        return Fraction(0)
    over, under = isqrt(square.numerator), isqrt(square.denominator)
    if over**2 == square.numerator and under**2 == square.denominator:
        return Fraction(over, under)
    return Fraction(sqrt(square))
