"""How far bent wood springs back: from the shop's own bends, since no constant is published.

A bend is known by the radius of its form and the radius that it came to, or by both rises over one
chord. Curvatures are compared, because they are what the wood gives back a share of.
"""

import re
from collections.abc import Sequence
from fractions import Fraction
from math import sqrt
from typing import NamedTuple

from crewboard.plan.length import Length, length
from crewboard.plan.units import how_many
from crewboard.trade.arc import Arc
from crewboard.trade.chance import within

SHARE = 0.9
"""The next bend is told within what nine in ten would keep."""
ENOUGH = 3
"""So many bends are wanted for a range."""
_SPELLED = (
    r"(.*?)(?:, (\d{1,3}) plies)?, (.+?) thick(?:, over a chord of (.+?))?, form (.+?)"
    r", came to (.+?)(?:, (\d{1,5}) days? after)?(?:, stored (.*))?"
)


class Bend(NamedTuple):
    """A bend that the shop made. Radii, or rises where a chord is said; plies 1 for solid wood."""

    species: str
    thickness: Length
    form: Length
    came_to: Length
    chord: Length | None = None
    plies: int = 1
    days: int | None = None  # after the release, when it was measured
    stored: str = ""

    @property
    def form_radius(self) -> Fraction:
        """mm."""
        return self._radius(self.form)

    @property
    def radius(self) -> Fraction:
        """mm, of what it came to."""
        return self._radius(self.came_to)

    def _radius(self, measured: Length) -> Fraction:
        return Arc(self.chord.mm, measured.mm).radius if self.chord else measured.mm

    @property
    def is_rise_and_radius(self) -> bool:
        """Whether one of the two rises is more than half of the chord and the other is not: then a
        radius was likely written for a rise."""
        if self.chord is None:
            return False
        return len({measured.mm > self.chord.mm / 2 for measured in (self.form, self.came_to)}) > 1

    @property
    def ratio(self) -> Fraction:
        """Radius of the form over the radius that it came to: 50/55 is 0.909."""
        return self.form_radius / self.radius

    @property
    def spelled(self) -> str:
        """In one line, which `bend_of` reads back."""
        plies = f", {self.plies} plies" if self.plies > 1 else ""
        chord = f", over a chord of {self.chord.text}" if self.chord else ""
        days = f", {how_many(self.days, 'day')} after" if self.days is not None else ""
        stored = f", stored {self.stored}" if self.stored else ""
        return (
            f"{self.species}{plies}, {self.thickness.text} thick{chord}, form {self.form.text}, "
            f"came to {self.came_to.text}{days}{stored}"
        )


def bend_of(spelled: str) -> Bend:
    """The bend of a line. Raises Unread where a length in it is none, ValueError for no bend."""
    read = re.fullmatch(_SPELLED, spelled, re.DOTALL)
    if read is None:
        raise ValueError(spelled)
    species, plies, thickness, chord, form, came_to, days, stored = read.groups()
    return Bend(
        species,
        length(thickness),
        length(form),
        length(came_to),
        length(chord) if chord else None,
        int(plies or 1),
        int(days) if days else None,
        stored or "",
    )


def bends_of(bends: Sequence[Bend], species: str, plies: int = 1) -> list[Bend]:
    """Those of one species and one number of plies: what another wood did says nothing here."""
    return [bend for bend in of_species(bends, species) if bend.plies == plies]


def of_species(bends: Sequence[Bend], species: str) -> list[Bend]:
    """Those of one wood, by whatever capitals and blanks it was typed."""
    return [bend for bend in bends if same_wood(bend.species, species)]


def same_wood(species: str, other: str) -> bool:
    """Whether both words mean one wood."""
    return _plain(species) == _plain(other)


def _plain(species: str) -> str:
    return " ".join(species.casefold().split())


class Fit(NamedTuple):
    """Released curvature as a share of the form's: `ratio`, from so many bends.

    `spread` is the standard deviation of the curvature about that line in 1/mm, None for fewer than
    ENOUGH bends; `squares` the sum of the squares of the forms' curvatures.
    """

    ratio: Fraction
    bends: int
    spread: float | None
    squares: float

    def form(self, wanted: Fraction) -> Fraction:
        """The radius of the form for a wanted radius: R_form = ratio x R_wanted."""
        return self.ratio * wanted

    def next_radius(self, form: Fraction) -> tuple[float, float | None] | None:
        """Between which radii the next bend on a form is expected, in mm: nine in ten would be.

        None with too few bends; the flatter one None where it may come out straight. Source: the
        prediction interval of a line through the origin by least squares, s·t·√(1 + x²/Σx²) with
        n - 1 degrees of freedom (textbooks of regression; held against numpy by the tests).
        """
        if self.spread is None:
            return None
        x = 1 / float(form)
        off = within(SHARE, self.bends - 1) * self.spread * sqrt(1 + x * x / self.squares)
        middle = float(self.ratio) * x
        return 1 / (middle + off), 1 / (middle - off) if middle > off else None


def fit(bends: Sequence[Bend]) -> Fit | None:
    """The least-squares line through the origin; None without a bend. One bend gives its ratio."""
    if not bends:
        return None
    curves = [(1 / bend.form_radius, 1 / bend.radius) for bend in bends]
    squares = sum((x * x for x, _ in curves), Fraction(0))
    ratio = sum((x * y for x, y in curves), Fraction(0)) / squares
    left = float(sum(((y - ratio * x) ** 2 for x, y in curves), Fraction(0)))
    spread = sqrt(left / (len(bends) - 1)) if len(bends) >= ENOUGH else None
    return Fit(ratio, len(bends), spread, float(squares))


def laminated_ratio(plies: int) -> Fraction:
    """The share of the form's curvature that equal glued plies keep: 1 - 1/n²."""
    return 1 - Fraction(1, plies**2)
