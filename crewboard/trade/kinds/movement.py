"""How far a board shrinks or swells across its width, and the gap to leave."""

from fractions import Fraction
from typing import NamedTuple

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import INCH, shown
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.measures import number_shown
from crewboard.trade.reckoning import Reckoning, Source
from crewboard.trade.wood import (
    CHANGE,
    CHANGE_OUTSIDE,
    LINEAR,
    SATURATED,
    SPECIES,
    change,
    change_outside,
    coefficient,
)

OWN = Source("shrinkage of the wood", "as given", "crew's rule")
FROM_SHRINKAGE = Source(
    "coefficient = S / (3000 - 20 S)", "worked out from equation 13-3", "second-hand"
)
WET = f"wood does not move above {SATURATED} % moisture: it is reckoned from there"
_MOST_SHRINKAGE = 40  # %
_MOST_MOISTURE = 300  # %: green wood holds more water than wood
_FINE = 32  # of an inch: a board moves by less than a sixteenth


class _Wood(NamedTuple):
    """Shrinkage in % and the coefficient, one of them None where it was not read."""

    shrinkage: Fraction | None
    rate: Fraction | None
    sources: tuple[Source, ...]


def _answer(given: Given) -> Reckoning:
    width, units = given.length("width"), given.units
    start, end = (given.percent(name, _MOST_MOISTURE) for name in ("from", "to"))
    wood = _wood(given)
    moved, rule = _moved(wood, width, start, end)
    wide = width + moved
    count = given.whole("boards")
    way = "wider" if moved > 0 else "narrower"
    first = "it keeps its width" if not moved else f"{shown(abs(moved), units, _FINE)} {way}"
    gap = f"gap to leave at each board: at least {_no_less(moved, units)}" if moved > 0 else ""
    together = shown(abs(moved) * count, units, _FINE)
    total = f"{count} boards together: {together}" if count > 1 and moved else ""
    return Reckoning(
        tuple(filter(None, (f"{first}: {shown(wide, units, _FINE)}", gap, total))),
        (f"{shown(width, units)} from {number_shown(start)} to {number_shown(end)} % moisture",),
        (rule, *wood.sources),
        (
            "flat-sawn through and through: mixed grain moves less across, more in thickness"
            if given.one_of("sawn") == "flat"
            else "quarter-sawn through and through: mixed grain moves more across",
            *((WET,) if max(start, end) > SATURATED else ()),
        ),
        ("what the board comes to the meter says: measure before it is fitted",),
        figures={
            "change_mm": moved,
            "width_mm": wide,
            "gap_mm": max(moved, Fraction(0)),
            "all_boards_mm": moved * count,
        },
    )


def _no_less(mm: Fraction, units: str) -> str:
    """Rounded up to what is shown: a gap that is too narrow lifts the boards."""
    one = INCH / _FINE if units == "imperial" else Fraction(1, 10)
    return shown(-(-mm // one) * one, units)


def _moved(wood: _Wood, width: Fraction, start: Fraction, end: Fraction) -> tuple[Fraction, Source]:
    most = Fraction(SATURATED)
    start, end = min(start, most), min(end, most)
    low, high = LINEAR
    if wood.rate is not None and low <= min(start, end) and max(start, end) <= high:
        return change(width, wood.rate, start, end), CHANGE
    if wood.shrinkage is None:
        raise Unread(
            f"of this wood only what holds from {low} to {high} % moisture was read",
            "give its shrinkage from green to oven-dry in %, or moistures in between",
        )
    return change_outside(width, wood.shrinkage, start, end), CHANGE_OUTSIDE


def _wood(given: Given) -> _Wood:
    if given.has("shrinkage"):
        own = given.percent("shrinkage")
        if not 0 < own <= _MOST_SHRINKAGE:
            raise Unread("no wood shrinks so", "write the shrinkage in %, such as 7.8")
        return _Wood(own, coefficient(own), (OWN, FROM_SHRINKAGE))
    name = " ".join(given.text("species").casefold().split())
    known = SPECIES.get(name)
    if known is None:
        sentence = f'of "{given.text("species")}" no shrinkage was read'
        raise Unread(sentence, f'write "shrinkage=..." in %, or one of {"; ".join(SPECIES)}')
    if given.one_of("sawn") == "flat":
        shrinkage, rate = known.tangential, known.coefficient_tangential
    else:
        shrinkage, rate = known.radial, known.coefficient_radial
    if rate is None and shrinkage is not None:
        return _Wood(shrinkage, coefficient(shrinkage), (known.source, FROM_SHRINKAGE))
    if rate is None:
        raise Unread(f"of {name} sawn so nothing was read", 'write "shrinkage=..." in %')
    return _Wood(shrinkage, rate, (known.source,))


KIND = KindOfReckoning(
    "movement",
    "Movement of a board",
    (
        Ask("width", "width of a board", "length", fills="width"),
        Ask("from", "its moisture now, in %", "percent"),
        Ask("to", "the moisture that it comes to, in %", "percent"),
        Ask("species", "which wood", "text", needed=False, fills="species"),
        Ask("shrinkage", "or its shrinkage from green to oven-dry, in %", "percent", False),
        Ask("sawn", "flat-sawn or quarter-sawn", "one of", False, "flat", ("flat", "quarter")),
        Ask("boards", "how many boards side by side", "count", False, "1"),
    ),
    _answer,
)
