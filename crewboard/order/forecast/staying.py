"""Who has perhaps left, how often people leave for good, and whether others come for them.

Whoever has not come for long has perhaps gone. How surely is the share of two stories: that they
are still with us and stayed away each time by chance, and that they left after their last coming,
or after any day since (the beta-geometric/beta-binomial model of Fader, Hardie and Shang 2010,
"Customer-base analysis in a discrete-time noncontractual setting"; here with a rate by the year,
since crews meet at unequal intervals).
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from math import exp
from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.order.forecast.model import Person
from crewboard.order.presence import LATELY

# What is believed before the log says anything (common sense, no source): of ten people one or two
# leave in a year, as two people-years of fifteen would say, and nine in ten are replaced.
BEFORE_LEFT, BEFORE_YEARS = 1.5, 10.0
BEFORE_REPLACED, BEFORE_NOT = 4.5, 0.5
# How often people come, before anything is known of one: as two days come and two not.
_COME, _NOT = 2.0, 2.0
# Who first came this long after the others has joined the crew since.
_JOINED_AFTER = 90
_YEAR = 365.25


class Stay(NamedTuple):
    """One person, and on each day held since they joined whether they came."""

    who: str
    days: tuple[tuple[date, bool], ...]

    @property
    def came(self) -> int:
        return sum(came for _, came in self.days)

    @property
    def silent(self) -> int:
        """The days held since they last came."""
        return next((n for n, (_, came) in enumerate(reversed(self.days)) if came), len(self.days))


def staying(
    board: Board, stays: Sequence[Stay], held: Sequence[date]
) -> tuple[tuple[Person, ...], tuple[float, float], tuple[float, float]]:
    """The people, the Gamma belief of how often each leaves (shape, years), and how many of those
    who left were replaced and were not."""
    gap = (board.at.date() - held[0]).days / len(held) / _YEAR if held else 0.0
    rate = BEFORE_LEFT / BEFORE_YEARS
    for _ in range(2):  # who has gone and how many go hang on each other
        gone = [_gone(stay, rate * gap) for stay in stays]
        left = sum(gone) + len(_struck_off(board, held))
        years = sum((len(s.days) - g * s.silent) * gap for s, g in zip(stays, gone, strict=True))
        rate = (BEFORE_LEFT + left) / (BEFORE_YEARS + years)
    people = tuple(
        Person(stay.who, stay.came, len(stay.days) - stay.came, stay.silent, chance)
        for stay, chance in zip(stays, gone, strict=True)
    )
    joined = _joined(board, stays, held)
    replaced = (BEFORE_REPLACED + min(joined, left), BEFORE_NOT + max(0.0, left - joined))
    return people, (BEFORE_LEFT + left, BEFORE_YEARS + years), replaced


def _gone(stay: Stay, leaves: float) -> float:
    """The chance that somebody has left, `leaves` being that of leaving after any one day."""
    silent, came = stay.silent, stay.came
    if not came or not silent:
        return 0.0
    a, b = _COME + came, _NOT + len(stay.days) - silent - came
    away, stayed, left = 1.0, 1.0, 0.0
    for days in range(silent):
        left += away * stayed * (1 - exp(-leaves))
        away *= (b + days) / (a + b + days)
        stayed *= exp(-leaves)
    return left / (left + away * stayed)


def _struck_off(board: Board, held: Sequence[date]) -> list[str]:
    """Who left lately, by the crew list."""
    today = board.at.date()
    people = board.plan.crew.values()
    return [
        v.id
        for v in people
        if v.left is not None and not v.with_us_on(today) and held and held[0] <= v.left
    ]


def _joined(board: Board, stays: Sequence[Stay], held: Sequence[date]) -> int:
    """How many joined since the crew began, by the crew list, or as their first coming tells."""
    if not held:
        return 0
    joined = 0
    for stay in stays:
        said = board.plan.crew[stay.who].joined
        first = said or next((day for day, came in stay.days if came), None)
        since = (first - held[0]).days if first is not None else 0
        joined += (0 if said else _JOINED_AFTER) < since <= LATELY.days
    return joined
