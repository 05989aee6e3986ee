"""The Gamma distribution of a rate: its mean, quantiles and intervals, cut off at a most.

P(a, x), the regularised incomplete gamma function, by its series and its continued fraction:
Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 6.5.29 and 6.5.31. Its inverse
begins at the Wilson-Hilferty approximation (the same, 26.4.17) and is bisected.
"""

from __future__ import annotations

from math import exp, lgamma, log, sqrt
from random import Random
from statistics import NormalDist
from typing import NamedTuple

_TRIES = 50


class Gamma(NamedTuple):
    """A rate: of shape `shape`, with `per` in the place of the exposure, never above `most`."""

    shape: float
    per: float
    most: float = float("inf")

    @property
    def mean(self) -> float:
        if self.most == float("inf"):
            return self.shape / self.per
        end = self.most * self.per
        return self.shape / self.per * below(self.shape + 1, end) / below(self.shape, end)

    def quantile(self, share: float) -> float:
        """The rate below which so much of the belief lies."""
        if self.most != float("inf"):
            share *= below(self.shape, self.most * self.per)
        return min(self.most, _inverse(self.shape, share) / self.per)

    def interval(self, share: float) -> tuple[float, float]:
        """The interval that holds so much of the belief, with as much below it as above; from 0,
        where 0 is likeliest."""
        if self.shape <= 1:
            return 0.0, self.quantile(share)
        return self.quantile((1 - share) / 2), self.quantile((1 + share) / 2)

    def draw(self, chance: Random) -> float:
        for _ in range(_TRIES):
            rate = chance.gammavariate(self.shape, 1 / self.per)
            if rate <= self.most:
                return rate
        return self.most


def below(shape: float, x: float) -> float:
    """P(shape, x): how much of a Gamma distribution of that shape lies below x."""
    if x <= 0:
        return 0.0
    front = exp(shape * log(x) - x - lgamma(shape))
    if x < shape + 1:
        term = total = 1 / shape
        step = shape
        while term > total * 1e-14:
            step += 1
            term *= x / step
            total += term
        return front * total
    tiny = 1e-300
    b = x + 1 - shape
    c, d = 1 / tiny, 1 / b
    fraction = d
    for i in range(1, 500):
        an = -i * (i - shape)
        b += 2
        d = 1 / (an * d + b or tiny)
        c = b + an / c or tiny
        fraction *= d * c
        if abs(d * c - 1) < 1e-14:
            break
    return 1 - front * fraction


def _inverse(shape: float, share: float) -> float:
    """x with P(shape, x) = share."""
    if share <= 0:
        return 0.0
    if share >= 1:
        return float("inf")
    ninth = 1 / (9 * shape)
    guess = shape * max(0.01, 1 - ninth + NormalDist().inv_cdf(share) * sqrt(ninth)) ** 3
    low, high = guess, guess
    while below(shape, low) > share:
        low /= 2
    while below(shape, high) < share:
        high *= 2
    for _ in range(45):
        middle = (low + high) / 2
        if below(shape, middle) < share:
            low = middle
        else:
            high = middle
    return (low + high) / 2
