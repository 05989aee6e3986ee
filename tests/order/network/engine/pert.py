"""Three-point estimates: the beta-PERT mean, variance, chance of a date, and draws.

Malcolm, Roseboom, Clark and Fazar, "Application of a technique for research and development
program evaluation", Operations Research 7 (1959). The chance treats the length of one path as
normal and its activities as independent, as the textbooks do: where several paths are nearly as
long it is too hopeful, and only draws of the whole network tell.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from random import Random


class ThreePoint(NamedTuple):
    """Optimistic, most likely and pessimistic duration, in any one unit."""

    optimistic: float
    likely: float
    pessimistic: float

    @property
    def mean(self) -> float:
        """(a + 4m + b) / 6."""
        return (self.optimistic + 4 * self.likely + self.pessimistic) / 6

    @property
    def variance(self) -> float:
        """((b - a) / 6) squared."""
        return ((self.pessimistic - self.optimistic) / 6) ** 2

    def draw(self, chance: Random) -> float:
        """A duration drawn from the beta distribution with this range, mode and PERT mean.

        Raises ValueError when the three are not in order.
        """
        low, mode, high = self
        if not low <= mode <= high:
            raise ValueError(f"not in order: {low}, {mode}, {high}")
        span = high - low
        if not span:
            return low
        alpha = 1 + 4 * (mode - low) / span
        beta = 1 + 4 * (high - mode) / span
        return low + span * chance.betavariate(alpha, beta)


def path_length(estimates: Iterable[ThreePoint]) -> tuple[float, float]:
    """Mean and variance of activities done one after the other, independent of each other."""
    mean = variance = 0.0
    for estimate in estimates:
        mean += estimate.mean
        variance += estimate.variance
    return mean, variance


def chance_by(time: float, mean: float, variance: float) -> float:
    """Chance (0 to 1) that a path of this mean and variance is finished by `time`."""
    if not variance:
        return float(time >= mean)
    from statistics import NormalDist  # slow to import, and rarely wanted

    return NormalDist(mean, variance**0.5).cdf(time)
