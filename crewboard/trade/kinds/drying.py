"""How long a board dries in air: a question for the meter, never a promise."""

from crewboard.plan.length import INCH, shown
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.reckoning import Reckoning, Source

# Days for boards an inch thick to 20 % moisture, shortest and longest.
DAYS: dict[str, tuple[int, int]] = {
    "white ash": (60, 200),
    "northern red oak": (70, 200),
    "white oak": (80, 250),
    "yellow-poplar": (40, 150),
    "american elm": (50, 150),
    "eastern white pine": (60, 200),
}
NOTE = Source(
    "days for boards an inch thick to 20 % moisture, by the season in which they are piled",
    "Forest Products Laboratory, technical note 233, 1960: that it exists was seen, its days are",
    "from memory",
)
SEASONED = Source("a year for each inch: disputed", "several trade texts", "second-hand")
_OF_AN_INCH = (0.9, 1.15)  # the table's boards


def _answer(given: Given) -> Reckoning:
    inches = given.length("thickness") / INCH
    wood = " ".join(given.text("species").casefold().split())
    low, high = DAYS.get(wood, (None, None))
    fits = low is not None and _OF_AN_INCH[0] <= inches <= _OF_AN_INCH[1]
    unread = ": of this wood no days were read"
    beside = "" if fits else unread if low is None else ": the table has boards an inch thick only"
    thick = shown(given.length("thickness"), given.units)
    years = f"{float(inches):.1f} years by the rule of a year an inch, which is disputed"
    first = f"{low} to {high} days to 20 %, unverified" if fits else years
    return Reckoning(
        ("ask the moisture meter", first, *((years,) if fits else ())),
        (f"{wood}, {thick} thick{beside}",),
        (*((NOTE,) if fits else ()), SEASONED),
        ("piled on stickers, under a roof, with air through the pile",),
        ("no day of this is a promise: what the meter says decides",),
        figures={"low_days": low if fits else None, "high_days": high if fits else None},
    )


KIND = KindOfReckoning(
    "drying",
    "Drying in air",
    (
        Ask("thickness", "thickness", "length", fills="thickness"),
        Ask("species", "which wood", "text", fills="species"),
    ),
    _answer,
)
