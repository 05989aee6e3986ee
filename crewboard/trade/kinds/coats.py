"""Paint, varnish or stripper for an area."""

from fractions import Fraction

from crewboard.plan.as_typed import Unread
from crewboard.plan.extent import Extent
from crewboard.plan.extent import shown as extent_shown
from crewboard.plan.units import how_many
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.measures import litres_shown, number_shown, spreading_shown
from crewboard.trade.old_coats import CAUTION, OLD_COATS
from crewboard.trade.reckoning import Reckoning, Source, geometry

QUANTITY = geometry("amount = area x coats / (spreading rate x (1 - loss)), rounded up to tins")
RATE = Source("the spreading rate", "the product's label, as given", "crew's rule")
ONLY_LABEL = "when the next coat may go on, and when it is cured, only the label says"


def _answer(given: Given) -> Reckoning:
    area, coats, rate = given.area("area"), given.whole("coats"), given.spreading("rate")
    loss, units = given.percent("loss"), given.units
    if loss == 100:
        raise Unread("all of it is lost", "write a loss of less than 100 %")
    amount = area * coats / (rate * (1 - loss / 100))
    tins, bought = _tins(given, amount)
    each = f", {litres_shown(amount / coats, units)} a coat" if coats > 1 else ""
    lost = f", {number_shown(loss)} % lost" if loss else ""
    return Reckoning(
        (f"{litres_shown(amount, units)}{bought}{each}", *_label(given)),
        (
            f"{extent_shown(Extent('area', area), units)}, {how_many(coats, 'coat')} at "
            f"{spreading_shown(rate, units)}{lost}",
        ),
        (QUANTITY, RATE, *(OLD_COATS if given.yes("history") else ())),
        ("the rate of a label is for smooth stuff: bare and open grain takes more",),
        _cautions(given),
        ("oily-rags",),
        {"litres": amount, "litres_a_coat": amount / coats, "tins": tins},
    )


def _tins(given: Given, amount: Fraction) -> tuple[int | None, str]:
    if not given.has("tin"):
        return None, ""
    tin = given.liquid("tin")
    count = -(-amount // tin)
    left = litres_shown(count * tin - amount, given.units)
    tins = how_many(int(count), "tin")
    return int(count), f": {tins} of {litres_shown(tin, given.units)}, {left} left over"


def _label(given: Given) -> list[str]:
    """What the label says of waiting; never a value of our own."""
    names = (("recoat", "next coat after"), ("cure", "cured after"))
    spans = [f"{words} {_as_said(given, name)}" for name, words in names if given.has(name)]
    batch = f"batch {given.text('batch')}" if given.has("batch") else ""
    said = ", ".join(filter(None, (*spans, batch)))
    return [f"the label: {said}"] if said else []


def _as_said(given: Given, name: str) -> str:
    """A time as the label words it; what is no time is refused."""
    given.span(name)
    return given.text(name)


def _cautions(given: Given) -> tuple[str, ...]:
    missing = [n for n in ("recoat", "cure") if not given.has(n)]
    label = (ONLY_LABEL,) if missing else ()
    old = (CAUTION,) if given.yes("history") else ()
    return (*label, *old, "paint what will be hidden before what shows")


KIND = KindOfReckoning(
    "coats",
    "Coats",
    (
        Ask("area", "area, 12.5 m2 or 140 sq ft", "area", fills="area"),
        Ask("coats", "how many coats", "count"),
        Ask("rate", "spreading rate on the label, 8 m2/l or 350 sq ft/gal", "spreading"),
        Ask("loss", "lost in tray, brush and gun, in %", "percent", False, "10"),
        Ask("tin", "size of a tin", "liquid", needed=False),
        Ask("recoat", "next coat after, as the label says", "span", False, fills="recoat"),
        Ask("cure", "cured after, as the label says", "span", False, fills="cure"),
        Ask("batch", "the batch on the tin", "text", needed=False),
        Ask("history", "the waits of old books too: yes or no", "yes", False, "no"),
    ),
    _answer,
)
