"""The form of a steamed bend: sharper than the curve that is wanted, by the shop's own bends."""

from collections.abc import Sequence
from fractions import Fraction

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import Length, length, shown
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.kinds.stretch import NO_TABLE, SHARPEST, STRETCH, bend_cautions
from crewboard.trade.measures import number_shown
from crewboard.trade.reckoning import Reckoning, Source
from crewboard.trade.springback import ENOUGH, Bend, Fit, bends_of, fit
from crewboard.trade.wanted import ASKS, Curve, wanted

RATIO = Source(
    "a test piece of the same stock decides: k = form / what it came to, form = k x wanted",
    "wood scientist's trade column, several trade texts",
    "second-hand",
)
NO_CONSTANT = "no published springback: bend a test piece of the same stock"
DAMP = Source(
    "after the release a bend opens at once, and much further in damp storage",
    "Lemoine and Koch, 1971, abstract",
    "verified",
)
STAYS = Source(
    "it stays on its form for weeks, commonly about a month, and dries there",
    "",
    "common practice",
)

_EACH = 5  # bends of which each is told by itself
SHARPER = (
    "a bend that came out sharper than its form: look whether the two are written the right way"
)
_NEAR = Fraction(5, 100)  # so far beyond what was tried counts as tried (rule of this program)


def _answer(given: Given) -> Reckoning:
    curve, thick = wanted(given), given.length("thickness")
    species, units = given.text("species"), given.units
    bends = [*bends_of(given.bends, species), *_test_piece(given)]
    found = fit(bends)
    if found is None:
        dangers = bend_cautions(thick, curve.radius, units)
        return Reckoning(
            (NO_CONSTANT,),
            (f"no bend of {species} is kept yet; wanted: {curve.told(units)}",),
            (RATIO, DAMP, STAYS, STRETCH),
            cautions=(*dangers, NO_TABLE),
            dangers=dangers,
            hazards=("steam-box",),
            figures={"wanted_radius_mm": curve.radius, "form_radius_mm": None, "bends": 0},
        )
    form = curve.with_radius(found.form(curve.radius))
    dangers = bend_cautions(thick, form.radius, units)
    return Reckoning(
        (form.told(units), *_next(found, form, units)),
        (f"wanted: {curve.told(units)}", _came(bends, found)),
        (RATIO, DAMP, STAYS, STRETCH, SHARPEST),
        _same_stock(bends),
        (*_beyond(bends, thick, form.radius, units), *dangers, NO_TABLE),
        ("steam-box",),
        _figures(curve, form, found),
        dangers=dangers,
    )


def _test_piece(given: Given) -> list[Bend]:
    """A test piece that was typed beside the shop's own bends."""
    if given.has("test_form") != given.has("test_came_to"):
        raise Unread("a test piece has a form and what it came to", "write both of them")
    if not given.has("test_form"):
        return []
    form, came_to = given.length("test_form"), given.length("test_came_to")
    typed = length(given.text("thickness"), given.units)
    return [Bend(given.text("species"), typed, Length(form, ""), Length(came_to, ""))]


def _came(bends: Sequence[Bend], found: Fit) -> str:
    ratio = number_shown(found.ratio, 3)
    if len(bends) == 1:
        return f"one bend: k = {ratio}"
    ratios = sorted(bend.ratio for bend in bends) if len(bends) > _EACH else ()
    each = ", ".join(number_shown(bend.ratio, 3) for bend in bends)
    if ratios:
        each = f"from {number_shown(ratios[0], 3)} to {number_shown(ratios[-1], 3)}"
    few = f"; from {ENOUGH} on a range is said" if found.spread is None else ""
    return f"{len(bends)} bends (k {each}), curvatures by least squares: k = {ratio}{few}"


def _next(found: Fit, form: Curve, units: str) -> tuple[str, ...]:
    """Between which curves the next one is expected."""
    reach = found.next_radius(form.radius)
    if reach is None:
        return ()
    sharp, flat = reach
    what, low = form.with_radius(Fraction(sharp)).measure(units)
    high = "nearly straight" if flat is None else form.with_radius(Fraction(flat)).measure(units)[1]
    if what == "rise":  # the sharper, the higher
        low, high = high, low
    return (f"nine in ten of the next ones come to a {what} between {low} and {high}",)


def _same_stock(bends: Sequence[Bend]) -> tuple[str, ...]:
    days = sorted(bend.days for bend in bends if bend.days is not None)
    stored = dict.fromkeys(bend.stored for bend in bends if bend.stored)
    said = ["the same stock, steamed, strapped and left on the form as those were"]
    if days:
        span = f"{days[0]}" if days[0] == days[-1] else f"{days[0]} to {days[-1]}"
        said.append(f"as measured {span} {'day' if span == '1' else 'days'} after the release")
    if stored:
        said.append(f"stored as those were: {'; '.join(stored)}")
    return tuple(said)


def _beyond(bends: Sequence[Bend], thick: Fraction, form: Fraction, units: str) -> list[str]:
    """Where this one lies outside of what was tried, and where a bend cannot be believed."""
    said = [SHARPER] if any(bend.ratio > 1 for bend in bends) else []
    tried = {
        "thickness": (thick, [bend.thickness.mm for bend in bends]),
        "radius of the form": (form, [bend.form_radius for bend in bends]),
    }
    for what, (value, values) in tried.items():
        low, high = min(values), max(values)
        if not low * (1 - _NEAR) <= value <= high * (1 + _NEAR):
            span = (
                shown(low, units) if low == high else f"{shown(low, units)} to {shown(high, units)}"
            )
            said.append(f"{what} {shown(value, units)}: tried was {span} only, bend a test piece")
    return said


def _figures(curve: Curve, form: Curve, found: Fit) -> dict[str, object]:
    reach = found.next_radius(form.radius)
    return {
        "wanted_radius_mm": curve.radius,
        "form_radius_mm": form.radius,
        **({"form_rise_mm": form.arc.rise} if form.arc else {}),
        "ratio": found.ratio,
        "bends": found.bends,
        "next_from_mm": reach[0] if reach else None,
        "next_to_mm": reach[1] if reach else None,
    }


KIND = KindOfReckoning(
    "form",
    "Form of a steamed bend",
    (
        Ask("species", "which wood", "text", fills="species"),
        Ask("thickness", "thickness across the bend", "length", fills="thickness"),
        *ASKS,
        Ask("test_form", "a test piece: radius of its form", "length", needed=False),
        Ask("test_came_to", "and the radius that it came to", "length", needed=False),
    ),
    _answer,
    from_bends="species",
)
