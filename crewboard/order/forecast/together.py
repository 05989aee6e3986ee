"""How much people come and stay away together: on which days few came, and on which many.

The likelihood of what was seen is summed over the day's common luck, for a few degrees of
togetherness, and weighed with what is believed before (Bayes on a grid: Gelman et al., Bayesian
Data Analysis, ch. 3; the model of one day is that of `comers`).
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from math import erfc, exp, log, sqrt
from statistics import NormalDist

from crewboard.order.forecast.staying import Stay

# Degrees, and what is believed of each before the log says anything (common sense, no source).
BEFORE = ((0.0, 0.25), (0.05, 0.25), (0.12, 0.2), (0.22, 0.15), (0.35, 0.1), (0.5, 0.05))
# The day's luck is taken at the middles of so many equal slices.
_LUCK = [NormalDist().inv_cdf((n + 0.5) / 12) for n in range(12)]
# How often people come, before anything is known of one: as so many days come and not come.
_BEFORE_DAYS = 2.0
# The more days, the longer it takes: the last so many tell enough.
_DAYS = 60


def usual_chances(stays: Sequence[Stay]) -> list[float]:
    """How often each came up to when they last did, shrunk to how often all did."""
    told = [(stay.came, len(stay.days) - stay.silent) for stay in stays]
    came, days = sum(c for c, _ in told), sum(d for _, d in told)
    usual = (came + 1) / (days + 2)
    return [(c + _BEFORE_DAYS * usual) / (d + _BEFORE_DAYS) for c, d in told]


def together(stays: Sequence[Stay], seasons: Sequence[float]) -> tuple[tuple[float, float], ...]:
    """Each degree with its chance after what the log holds."""
    days = _days(stays, seasons)
    logs = [log(before) + _likelihood(degree, days) for degree, before in BEFORE]
    most = max(logs)
    weights = [exp(each - most) for each in logs]
    return tuple(
        (degree, weight / sum(weights)) for (degree, _), weight in zip(BEFORE, weights, strict=True)
    )


def _days(stays: Sequence[Stay], seasons: Sequence[float]) -> list[list[tuple[float, bool]]]:
    """For each of the last days: of everybody what a normal number has to stay below for them to
    come, and whether they came."""
    normal = NormalDist()
    by_day: dict[date, list[tuple[float, bool]]] = {}
    for stay, chance in zip(stays, usual_chances(stays), strict=True):
        asks = [normal.inv_cdf(min(0.98, max(0.02, chance * season))) for season in seasons]
        for day, here in stay.days[: len(stay.days) - stay.silent]:
            by_day.setdefault(day, []).append((asks[day.month - 1], here))
    return [by_day[day] for day in sorted(by_day)[-_DAYS:]]


def _likelihood(degree: float, days: Sequence[Sequence[tuple[float, bool]]]) -> float:
    mine = 1 / sqrt(2 * (1 - degree))
    all_ = sqrt(degree)
    lucks = _LUCK if degree else [0.0]
    whole = 0.0
    for people in days:
        of_day = 0.0
        for luck in lucks:
            seen = 1.0
            for asks, here in people:
                below = 0.5 * erfc((all_ * luck - asks) * mine)
                seen *= below if here else 1 - below
            of_day += seen
        whole += log(max(of_day / len(lucks), 1e-300))
    return whole
