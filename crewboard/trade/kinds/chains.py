"""One length measured several ways: do they agree, and what do they come to together."""

from fractions import Fraction
from math import sqrt

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import shown
from crewboard.trade.adjust import AGREES, SQUARES, Levelled, adjusted, value
from crewboard.trade.chance import limit
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.measures import number_shown
from crewboard.trade.reckoning import Reckoning


def _answer(given: Given) -> Reckoning:
    units = given.units
    usual = given.length("tolerance") if given.has("tolerance") else None
    chains = given.each("chains", lambda part: value(part, units, usual))
    if len(chains) < 2:
        raise Unread("one chain has nothing to agree with", "write two or more, ; between them")
    both = adjusted([Levelled("0", "1", one.mm, one.sigma) for one in chains], {"0": Fraction(0)})
    mean, sigma, degrees = both.heights["1"], both.sigmas["1"], both.degrees
    square = float(both.chi_squared)
    spread = sqrt(square / degrees)
    told = sigma * max(1.0, spread)
    most = limit(AGREES, degrees)
    against = f"chi-squared {number_shown(square)} with {degrees}, limit {number_shown(most)}"
    rest: tuple[str, ...]
    if not both.agrees:
        off = max(range(len(chains)), key=both.normalized.__getitem__)
        first = "the chains disagree: do not average them, measure again"
        rest = (f"furthest off: {shown(chains[off].mm, units)}",)
    else:
        first = f"{shown(mean, units)} ± {shown(Fraction(told), units)}"
        widened = "they differ by more than their tolerances say: widened to fit"
        rest = (widened,) if spread > 1 else ()
    return Reckoning(
        (first, *rest),
        (against, *(f"{shown(c.mm, units)} ± {shown(c.sigma, units)}" for c in chains)),
        (SQUARES,),
        ("measured apart from one another, each tolerance one standard deviation",),
        figures={
            "agrees": both.agrees,
            "mean_mm": mean,
            "sigma_mm": sigma,
            "widened_sigma_mm": told,
            "chi_squared": both.chi_squared,
            "degrees": degrees,
        },
    )


KIND = KindOfReckoning(
    "chains",
    "One length, measured several ways",
    (
        Ask(
            "chains", 'each with its tolerance: "2.40 m ± 3 mm; 1.2 m + 1.21 m ± 4 mm"', "measures"
        ),
        Ask("tolerance", "tolerance of those that say none", "length", needed=False),
    ),
    _answer,
)
