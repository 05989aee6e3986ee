"""The form of a bend glued up of plies."""

from fractions import Fraction

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import shown
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.kinds.stretch import STRETCH, bend_cautions
from crewboard.trade.measures import number_shown
from crewboard.trade.reckoning import Reckoning, Source, geometry
from crewboard.trade.springback import bends_of, fit, laminated_ratio
from crewboard.trade.wanted import ASKS, wanted

PLIES = Source(
    "of n equal plies the released camber is less by x/n², so 1 - 1/n² of the form's curve stays",
    "several boat builders' texts, and beam theory worked out here",
    "second-hand",
)

WARM = Source(
    "glue, its warmth and its time in clamps by its label; resorcinol on white oak at 70 °F "
    "(21 °C) or more, on mahogany and spruce from 40 °F",
    "Forest Products Laboratory, Selbo, 1948, reaffirmed 1956",
    "verified",
)
OUTDOORS = Source(
    "urea glue is not adequate outdoors",
    "Forest Products Laboratory, Selbo, 1947, reaffirmed 1962",
    "verified",
)
NOT_WET = Source(
    "animal glue stands little water, casein glue is not for outdoors",
    "Wood Handbook, table 10-3",
    "verified",
)
WARMER = Source(
    "on red oak resorcinols lasted when cured 8 h at 120 °F (49 °C), four of nine fairly at 16 h "
    "and 80 °F (27 °C)",
    "Forest Products Laboratory, Selbo, 1947, reaffirmed 1962",
    "verified",
)
PRESSURE = Source(
    "resorcinol wants 125 to 150 psi (0.86 to 1.03 MPa) on softwood, 150 to 200 psi (1.03 to 1.38 "
    "MPa) on hardwood; some epoxies want much less",
    "Federal Aviation Administration, AC 43.13-1B, paragraph 1-10",
    "verified",
)
RATIO_OF_GLUE = Source(
    "never vary the ratio of resin and hardener to change the time of cure",
    "Federal Aviation Administration, AC 43.13-1B, page 1-5",
    "verified",
)
GLUES = (WARM, WARMER, OUTDOORS, NOT_WET, PRESSURE, RATIO_OF_GLUE)
CLAMPED = "no time in clamps holds for all glues: only the label says"


def _answer(given: Given) -> Reckoning:
    curve, plies, thick = wanted(given), given.whole("plies"), given.length("thickness")
    units = given.units
    if plies < 2:
        raise Unread("one ply is no laminated bend", 'reckon "form" for solid wood')
    kept = laminated_ratio(plies)
    form = curve.with_radius(kept * curve.radius)
    own = fit(bends_of(given.bends, given.text("species"), plies))
    ours = () if own is None else (_own(own.bends, own.form(curve.radius), units),)
    camber = _camber(given, plies, form.told(units))
    dangers = bend_cautions(thick / plies, form.radius, units)
    return Reckoning(
        (form.told(units), *camber[0], *ours),
        (
            f"wanted: {curve.told(units)}",
            f"{plies} plies keep {number_shown(kept * 100)} % of the form's curve",
        ),
        (PLIES, STRETCH, *GLUES, geometry("curve = 1 / radius")),
        ("plies of one thickness and wood, glue that does not creep",),
        (*dangers, CLAMPED, *_to_write_down(own is None)),
        ("epoxy",),
        {"form_radius_mm": form.radius, "kept": kept, **camber[1]},
        dangers=dangers,
    )


def _camber(given: Given, plies: int, form: str) -> tuple[tuple[str, ...], dict[str, Fraction]]:
    """For a flat curve the rise alone: x n² / (n² - 1); said where it is another than `form`'s."""
    if not given.has("rise"):
        return (), {}
    rise = given.length("rise") / laminated_ratio(plies)
    told = shown(rise, given.units)
    said = () if told in form else (f"of a flat curve by the rise alone: {told}",)
    return said, {"form_rise_mm": rise}


def _own(count: int, form: Fraction, units: str) -> str:
    bends = "one bend" if count == 1 else f"{count} bends"
    return f"by the shop's own {bends} of so many plies: form radius {shown(form, units)}"


def _to_write_down(none: bool) -> tuple[str, ...]:
    return (
        ("no bend of so many plies is kept yet: write down what this one comes to",) if none else ()
    )


KIND = KindOfReckoning(
    "laminated",
    "Form of a glued-up bend",
    (
        Ask("plies", "how many plies", "count"),
        Ask("thickness", "thickness of all together", "length", fills="thickness"),
        *ASKS,
        Ask("species", "which wood, for the shop's own bends", "text", False, fills="species"),
    ),
    _answer,
    from_bends="species",
)
