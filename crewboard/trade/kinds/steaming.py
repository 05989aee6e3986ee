"""How long in the steam box, as a range with its sources, and by the crew's own rate."""

from fractions import Fraction

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import INCH, length, shown
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.measures import hours
from crewboard.trade.reckoning import Reckoning, Source

# Minutes for each inch of thickness.
_LOW, _HIGH, _RULE, _MOIST, _DRY = 20, 75, 60, 38, 75
SOURCES = (
    Source(
        f"{_LOW} min an inch was enough for southern pine of 17 % moisture",
        "Lemoine and Koch, 1971, abstract",
        "verified",
    ),
    Source(
        "30 min was enough for 1.27 cm, so 60 an inch",
        "Forest Research Institute, Bangladesh, abstract",
        "verified",
    ),
    Source(
        f"{_RULE} min an inch, half of it for green stock", "several trade texts", "second-hand"
    ),
    Source(
        f"{_MOIST} min an inch at 20 to 25 % moisture, {_DRY} where it is drier, steamed or boiled",
        "Wood Handbook, chapter 19",
        "from memory",
    ),
)
STOCK = (
    Source(
        "in stock to bend the grain runs out by at most 1 in 15",
        "Wood Handbook, chapter 19",
        "from memory",
    ),
    Source(
        "white and red oak, ash, elm, hickory and beech bend well, softwoods poorly",
        "several trade texts",
        "second-hand",
    ),
)
OWN = Source("the crew's own rate", "given", "crew's rule")
OUTSIDE = f"the crew's own rate is none of the published {_LOW} to {_HIGH} min an inch: look again"
_DANGERS = ("a steam box is vented and drained, never sealed",)


def _answer(given: Given) -> Reckoning:
    inches = given.length("thickness") / INCH
    low, high, rule = (_minutes(inches * rate) for rate in (_LOW, _HIGH, _RULE))
    rate = _rate(given) if given.has("rate") else None
    own = rate * inches if rate is not None else None
    between = f"{_time(low)} to {_time(high)} by published rates, {_time(rule)} by the shop rule"
    clock = _minutes(own) if own is not None else rule
    thick = shown(given.length("thickness"), given.units)
    first = f"{_time(_minutes(own))} by the crew's own rate" if own is not None else between
    return Reckoning(
        (first, *((between,) if own is not None else ())),
        (
            f"{thick} thick, {_LOW} to {_HIGH} min an inch ({_HIGH} is unverified)",
            f"its clock: {_time(clock)}, by {'the crew' if own is not None else 'the shop rule'}",
        ),
        (*((OWN,) if own is not None else ()), *SOURCES, *STOCK),
        ("counted from when the box is at full steam",),
        (
            *((OUTSIDE,) if rate is not None and not _LOW <= rate <= _HIGH else ()),
            "too long wrinkles the inside of the bend: a test piece decides",
            "grain that runs out of the edge breaks: choose straight stock",
            *_DANGERS,
        ),
        ("steam-box",),
        {
            "low_minutes": inches * _LOW,
            "high_minutes": inches * _HIGH,
            "rule_minutes": inches * _RULE,
            "own_minutes": own,
            "clock_minutes": clock,
        },
        dangers=_DANGERS,
    )


def _minutes(exact_minutes: Fraction) -> int:
    """A whole minute, the longer one."""
    return -(-exact_minutes.numerator // exact_minutes.denominator)


def _time(minutes: int) -> str:
    hours, rest = divmod(minutes, 60)
    return f"{minutes} min" if not hours else f"{hours} h {rest} min" if rest else f"{hours} h"


def _rate(given: Given) -> Fraction:
    """Minutes an inch, of "50 min/in", "1 h per inch" or "25 min/cm"."""
    return given.read("rate", _minutes_an_inch)


def _minutes_an_inch(typed: str) -> Fraction:
    lasts, _, each = typed.casefold().replace(" per ", "/").replace(" an ", "/").partition("/")
    mend = "write 50 min/in or 25 min/cm"
    if not each.strip() or not lasts.strip()[-1:].isalpha():
        raise Unread(f'"{typed}" is no rate of steaming', mend)
    rate = hours(lasts) * 60 * INCH / length(f"1 {each.strip()}").mm
    if rate <= 0:
        raise Unread("a rate of nothing", mend)
    return rate


KIND = KindOfReckoning(
    "steaming",
    "Steaming or boiling time",
    (
        Ask("thickness", "thickness", "length", fills="thickness"),
        Ask(
            "rate",
            'the crew\'s own rate, "50 min/in" or "25 min/cm"',
            "text",
            needed=False,
            fills="steam rate",
        ),
        Ask("by", "by steam or boiling", "one of", False, "steam", ("steam", "boiling")),
    ),
    _answer,
    clock="clock_minutes",
)
