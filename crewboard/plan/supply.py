"""What tasks need that has to be bought, milled or lent."""

import re
from datetime import date
from typing import NamedTuple

from crewboard.plan.duration import Duration

# "8", "6.5 m", "10 planks of 2.6 m"; but not "10-12 boards", "2 x 4 boards", "1 1/2 l", "1,200".
_COUNTED = re.compile(
    r"\s*(\d+(?:\.\d+|,\d{1,2}(?!\d))?)(?![\d.,/½¼¾])(?!\s*(?:[-–/x×*+]\s*)?\d)(.*)", re.S
)

# What is bought by the piece, as one and as several of it.
_ONE_OF = {
    "tins": "tin",
    "cans": "can",
    "tubes": "tube",
    "boards": "board",
    "planks": "plank",
    "sheets": "sheet",
    "rolls": "roll",
    "boxes": "box",
    "nails": "nail",
    "screws": "screw",
    "tacks": "tack",
    "litres": "litre",
    "liters": "liter",
    "metres": "metre",
    "meters": "meter",
    "yards": "yard",
    "feet": "foot",
}
_SEVERAL = {one: several for several, one in _ONE_OF.items()}


def amount_in_words(amount: float, unit: str) -> str:
    """ "2 tins of 1 l", "1 tin of 1 l" of the unit "tins of 1 l"; what it has no word for stays."""
    counted, of, size = unit.partition(" of ")
    *before, noun = counted.split(" ")
    noun = (_ONE_OF if amount == 1 else _SEVERAL).get(noun, noun)
    return f"{amount:g} {' '.join((*before, noun))}{of}{size}".rstrip()


class Supply(NamedTuple):
    """One thing to have before a task can begin. What became of it may also stand in the logbook.

    `quantity` is all that is needed of it, with its unit: "14 square metres". Where it begins with
    a number, that many are counted.
    """

    id: str
    name: str
    in_stock: bool = False
    lead_time: Duration | None = None
    ordered: date | None = None
    due: date | None = None
    arrived: date | None = None
    quantity: str = ""
    price: float | None = None  # in the currency of vehicle.toml
    source: str = ""
    note: str = ""

    @property
    def needed(self) -> float | None:
        """How many are needed in all; None where that is not said in figures."""
        counted = _COUNTED.fullmatch(self.quantity)
        return float(counted[1].replace(",", ".")) if counted else None

    @property
    def unit(self) -> str:
        """What is counted: "m", "square metres"; empty for pieces."""
        counted = _COUNTED.fullmatch(self.quantity)
        return counted[2].strip() if counted else ""
