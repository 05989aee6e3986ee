"""What tasks need that has to be bought, milled or lent."""

import re
from datetime import date
from typing import NamedTuple

from crewboard.plan.duration import Duration

# "8", "6.5 m", "10 planks of 2.6 m"; but not "10-12 boards", "2 x 4 boards", "1 1/2 l", "1,200".
_COUNTED = re.compile(
    r"\s*(\d+(?:\.\d+|,\d{1,2}(?!\d))?)(?![\d.,/½¼¾])(?!\s*(?:[-–/x×*+]\s*)?\d)(.*)", re.S
)


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
