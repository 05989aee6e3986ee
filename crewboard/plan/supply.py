"""What tasks need that has to be bought, milled or lent."""

from datetime import date
from typing import NamedTuple

from crewboard.plan.duration import Duration


class Supply(NamedTuple):
    """One thing to have before a task can begin. Arrivals may also stand in the logbook."""

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
