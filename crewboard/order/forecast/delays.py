"""How often holds are made longer and deliveries come late, as the logbook tells it.

How late is a normal belief of logarithms with an inverse chi-square one of their scatter, so that a
delivery has the tail of Student's t (Gelman et al., Bayesian Data Analysis, ch. 3).
"""

from __future__ import annotations

from datetime import date
from math import log, sqrt

from crewboard.logbook.acts import Arrived, Ordered
from crewboard.order.board import Board
from crewboard.order.forecast.aside import aside
from crewboard.order.forecast.model import Delays

# What is believed before the log says anything (common sense, no source): one hold in ten is made
# longer; deliveries take a tenth longer than promised, give or take a third.
BEFORE_EXTENDED, BEFORE_HOLDS = 0.1, 10.0
BEFORE_LATE, BEFORE_SCATTER, BEFORE_DELIVERIES = 0.1, 0.3, 4.0
# A delivery that takes four times as long, or a quarter, says as much as one still further off: a
# year mistyped in one entry must not set the dates of all the others.
FURTHEST = log(4)


def delays(board: Board) -> Delays:
    """The belief after what the logbook holds."""
    holds = [h for h in board.holds.values() if h.stage != "running" or h.extended]
    extended = sum(bool(h.extended) for h in holds)
    late = lateness(board)
    middle = sum(late) / len(late) if late else 0.0
    squares = sum((days - middle) ** 2 for days in late)
    count = BEFORE_DELIVERIES + len(late)
    return Delays(
        False,
        (BEFORE_EXTENDED * BEFORE_HOLDS + extended) / (BEFORE_HOLDS + len(holds)),
        (BEFORE_LATE * BEFORE_DELIVERIES + sum(late)) / count,
        sqrt((BEFORE_SCATTER**2 * BEFORE_DELIVERIES + squares) / count),
        count,
        aside(board),
    )


def lateness(board: Board) -> list[float]:
    """log(days it took / days promised) of each supply that came."""
    ordered: dict[str, tuple[date, date]] = {}
    for supply_id, of_supply in board.history.supplies.items():
        for entry in of_supply:
            if isinstance(entry.act, Ordered) and entry.act.due is not None:
                ordered.setdefault(supply_id, (entry.at.date(), entry.act.due))
    for supply in board.plan.supplies.values():
        if supply.ordered is not None and supply.due is not None:
            ordered.setdefault(supply.id, (supply.ordered, supply.due))
    ratios = []
    for supply_id, (since, due) in ordered.items():
        known = board.plan.supplies.get(supply_id)
        of_supply = board.history.supplies.get(supply_id, [])
        arrived = (entry.at.date() for entry in of_supply if isinstance(entry.act, Arrived))
        came = next(arrived, known.arrived if known else None)
        if came is not None and due > since and came >= since:
            ratio = log(max(1, (came - since).days) / (due - since).days)
            ratios.append(min(FURTHEST, max(-FURTHEST, ratio)))
    return ratios
