"""What wood does in air: the moisture that it comes to, and how far it shrinks and swells."""

from fractions import Fraction
from typing import NamedTuple

from crewboard.plan.hazard import Mark
from crewboard.trade.reckoning import Source

EMC = Source(
    "moisture at rest by equation 4-5; on average less than 0.13 % off the table, never above 0.9",
    "Wood Handbook, FPL-GTR-190, 2010, chapter 4, as set in several public codes",
    "second-hand",
)
CHANGE = Source(
    "change = width x coefficient x change of moisture (equation 13-2, from 6 to 14 % only)",
    "Wood Handbook, FPL-GTR-190, 2010, chapter 13",
    "verified",
)
CHANGE_OUTSIDE = Source(
    "outside of 6 to 14 %: change = width x (M2 - M1) / (30 x 100 / S - 30 + M1) (equation 13-3)",
    "Wood Handbook, FPL-GTR-190, 2010, chapter 13: its text read, the formula",
    "from memory",
)
SATURATED = 30  # % moisture: above it wood does not move (same chapter)
LINEAR = (6, 14)  # % moisture, between which the coefficients hold


class Species(NamedTuple):
    """Shrinkage from green to oven-dry in %, and the coefficients of equation 13-2: across the
    rings (R) and along them (T), each None where it was not read."""

    radial: Fraction | None
    tangential: Fraction | None
    coefficient_radial: Fraction | None
    coefficient_tangential: Fraction | None
    mark: Mark

    @property
    def source(self) -> Source:
        """On whose word."""
        return Source("shrinkage of the wood", "Wood Handbook, tables 4-3 and 13-5", self.mark)


def _species(radial: str, tangential: str, cr: str, ct: str, mark: Mark) -> Species:
    r, t, c_r, c_t = (Fraction(f) if f else None for f in (radial, tangential, cr, ct))
    return Species(r, t, c_r, c_t, mark)


# Tables 4-3 and 13-5. Groups of the timber trade ("commercial") are not the species: kept apart.
SPECIES: dict[str, Species] = {
    "white ash": _species("4.9", "7.8", "0.00169", "0.00274", "verified"),
    "white oak": _species("5.6", "10.5", "", "", "verified"),
    "white oak, commercial": _species("", "", "0.00180", "0.00365", "verified"),
    "northern red oak": _species("4.0", "8.6", "", "", "from memory"),
    "red oak, commercial": _species("", "", "0.00158", "0.00369", "verified"),
    "american elm": _species("4.2", "9.5", "0.00144", "0.00338", "verified"),
    "rock elm": _species("4.8", "8.1", "0.00165", "0.00285", "verified"),
    "slippery elm": _species("4.9", "8.9", "0.00169", "0.00315", "verified"),
    "white fir": _species("", "", "", "0.00245", "second-hand"),
    "yellow-poplar": _species("4.6", "8.2", "0.00158", "0.00289", "from memory"),
    "eastern white pine": _species("2.1", "6.1", "0.00071", "0.00212", "from memory"),
}


def at_rest(celsius: float, humidity: float) -> float:
    """The moisture in % that wood comes to in air of that temperature and relative humidity in %,
    by `EMC`."""
    t, h = celsius, humidity / 100
    w = 349 + 1.29 * t + 0.0135 * t * t
    k = 0.805 + 0.000736 * t - 0.00000273 * t * t
    k1 = 6.27 - 0.00938 * t - 0.000303 * t * t
    k2 = 1.91 + 0.0407 * t - 0.000293 * t * t
    kh = k * h
    bound = (k1 * kh + 2 * k1 * k2 * kh * kh) / (1 + k1 * kh + k1 * k2 * kh * kh)
    return 1800 / w * (kh / (1 - kh) + bound)


def coefficient(shrinkage: Fraction) -> Fraction:
    """C = S / (3000 - 20 S): the coefficient from shrinkage in %.

    Worked out from equation 13-3 at 10 % moisture; gives back the tables' ash, elms and poplar.
    """
    return shrinkage / (3000 - 20 * shrinkage)


def change(width: Fraction, rate: Fraction, start: Fraction, end: Fraction) -> Fraction:
    """Equation 13-2: what a width gains (or, less than nothing, loses) between two moistures."""
    return width * rate * (end - start)


def change_outside(
    width: Fraction, shrinkage: Fraction, start: Fraction, end: Fraction
) -> Fraction:
    """Equation 13-3: the same for moistures of at most 30 %."""
    return width * (end - start) / (3000 / shrinkage - 30 + start)
