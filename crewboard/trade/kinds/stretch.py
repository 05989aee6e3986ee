"""How far the outside of a bend stretches, and what sharper bends want."""

from fractions import Fraction

from crewboard.plan.length import shown
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.measures import number_shown
from crewboard.trade.reckoning import Reckoning, Source

STRETCH = Source(
    "unsteamed and without a strap wood stretches 2 to 3 % at most: about 20 to 30 times the "
    "thickness; a strap with end stops takes the stretch, so that the inside is pressed together",
    "summary of a wood scientist's trade column",
    "second-hand",
)
SHARPEST = Source(
    "steamed, with a strap, southern pine bent well to 12 times its thickness; about 16 times "
    "where three in four have to be nearly perfect",
    "Lemoine and Koch, 1971, abstract",
    "verified",
)
NO_TABLE = "no table of the sharpest bend of each wood could be read: a test piece decides"
_WITHOUT_STRAP = Fraction(2)  # %: the low end of STRETCH
_WELL, _SAFE = 12, 16


def stretch(thickness: Fraction, radius: Fraction) -> Fraction:
    """In %, of the outside against the middle: t / 2R."""
    return thickness / (2 * radius) * 100


def bend_cautions(thickness: Fraction, radius: Fraction, units: str) -> tuple[str, ...]:
    """What so sharp a bend asks for; nothing where it is flat."""
    outside = stretch(thickness, radius)
    said = []
    if outside > _WITHOUT_STRAP:
        shortest = shown(thickness / (2 * _WITHOUT_STRAP) * 100, units)
        said.append(
            f"the outside stretches {number_shown(outside)} %: without a strap with end stops not "
            f"sharper than {shortest}"
        )
    if radius < _WELL * thickness:
        said.append(f"sharper than {_WELL} times the thickness: expect to break most of them")
    elif radius < _SAFE * thickness:
        said.append(f"sharper than {_SAFE} times the thickness: expect to break some, bend spares")
    return tuple(said)


def _answer(given: Given) -> Reckoning:
    thick, radius = given.length("thickness"), given.length("radius")
    units, outside = given.units, stretch(thick, radius)
    times = number_shown(radius / thick, 1)
    dangers = bend_cautions(thick, radius, units)
    return Reckoning(
        (f"the outside stretches {number_shown(outside)} %, the radius is {times} thicknesses",),
        (f"{shown(thick, units)} / (2 x {shown(radius, units)})",),
        (STRETCH, SHARPEST),
        ("bent about its middle, without a strap",),
        (*dangers, NO_TABLE),
        dangers=dangers,
        figures={"stretch_percent": outside, "thicknesses": radius / thick},
    )


KIND = KindOfReckoning(
    "stretch",
    "Stretch of a bend",
    (
        Ask("thickness", "thickness across the bend", "length", fills="thickness"),
        Ask("radius", "radius of the bend", "length"),
    ),
    _answer,
)
