"""How many more or fewer come in each season of the year, as far as the log shows it.

A normal belief on the logarithm of each season's factor, and what was counted, weighted by how
surely each is known (shrinkage of group means: Gelman et al., Bayesian Data Analysis, ch. 5).
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, log, sqrt
from typing import NamedTuple

from crewboard.order.forecast.comers import season_of
from crewboard.order.forecast.staying import Stay
from crewboard.order.forecast.together import usual_chances

# What is believed before the log says anything (common sense, no source): a cold shop is somewhat
# emptier, and any season may be a fifth off.
BEFORE = (0.9, 1.0, 1.0, 1.0)
DOUBT = 0.2
# One number of people hangs on another: the count of a day scatters by so much more (common sense).
_GROUPED = 0.1


class Seasons(NamedTuple):
    """By what each month multiplies the chance of coming, on the average of the days held 1, and
    how unsurely that is known, as a logarithm."""

    factors: tuple[float, ...]
    doubts: tuple[float, ...]


def seasons(stays: Sequence[Stay]) -> Seasons:
    """The belief after the log."""
    came, expected, scatter, days = [0.0] * 4, [0.0] * 4, [0.0] * 4, [0] * 4
    by_day: dict[int, list[tuple[float, bool]]] = {}
    for stay, chance in zip(stays, usual_chances(stays), strict=True):
        for day, here in stay.days[: len(stay.days) - stay.silent]:
            by_day.setdefault(day.toordinal() * 4 + season_of(day.month), []).append((chance, here))
    for key, people in by_day.items():
        season = key % 4
        days[season] += 1
        came[season] += sum(here for _, here in people)
        expected[season] += sum(chance for chance, _ in people)
        spread = [chance * (1 - chance) for chance, _ in people]
        together = sum(map(sqrt, spread)) ** 2 - sum(spread)
        scatter[season] += sum(spread) + _GROUPED * together
    logs, doubts = [], []
    for season in range(4):
        sure, mean = 1 / DOUBT**2, log(BEFORE[season])
        if expected[season]:
            off = log((came[season] + 0.5) / (expected[season] + 0.5))
            error = max(scatter[season], 0.25) / expected[season] ** 2
            mean = (mean * sure + off / error) / (sure + 1 / error)
            sure += 1 / error
        logs.append(mean)
        doubts.append(1 / sqrt(sure))
    return _by_month(logs, doubts, days)


def _by_month(logs: Sequence[float], doubts: Sequence[float], days: Sequence[int]) -> Seasons:
    """The chances that people have are those of the days held: over these the factors are 1."""
    held = sum(days)
    usual = sum(n * mean for n, mean in zip(days, logs, strict=True)) / held if held else 0.0
    months = [season_of(month) for month in range(1, 13)]
    factors = tuple(exp(logs[season] - usual) for season in months)
    return Seasons(factors, tuple(doubts[season] for season in months))
