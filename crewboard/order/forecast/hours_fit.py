"""What the finished tasks tell of the hours of others: mean, practice, scatter, and its tail.

The logarithms of hours against estimates are taken to scatter by Student's t about a line that
falls with practice, the logarithm of the number of tasks done (Wright 1936, "Factors affecting the
cost of airplanes"). Of a few degrees of freedom each is fitted by weighing what lies far off less
(Lange, Little and Taylor 1989, "Robust statistical modeling using the t distribution"), with a
normal belief of mean and practice and a scaled inverse chi-square belief of the scatter (Gelman et
al., Bayesian Data Analysis, ch. 3 and 14); how well it then tells the log is its chance. The line
may rise too: a crew may leave the hard work for the end.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, lgamma, log, pi, sqrt
from typing import NamedTuple

from crewboard.order.forecast.model import Tail

# What is believed before the log says anything, as logarithms (common sense, no source): crews are
# somewhat slower than they think, by half or double at the outside, and tasks differ.
BEFORE_MEAN, BEFORE_DOUBT = 0.1, 0.4
BEFORE_SCATTER, BEFORE_TASKS = 0.35, 4.0
# Practice before the log shows any: hours that halve with ten times the tasks would be 0.3, and so
# Wright's 0.32 (80 % for each doubling) where the same is made again and again. A crew's tasks are
# alike in part only: from none to about as much as that (common sense, no source).
BEFORE_PRACTICE, PRACTICE_DOUBT = 0.2, 0.2
# The degrees of freedom, from the heaviest tail to hardly any, and what is believed of each.
TAILS = ((3, 0.15), (6, 0.3), (30, 0.55))
# The first tasks teach most: practice counts from so many tasks on.
FIRST_TASKS = 5.0
# After so many it levels off (De Jong 1957, "The effects of increasing skill on cycle time", has a
# part that practice never makes less; from memory, and the number is common sense).
ALL_LEARNED = 100
_ROUNDS = 12


class HoursFit(NamedTuple):
    """Logarithms; see `Pace`. `middle` is the mean practice of the tasks told of."""

    mean: float
    doubt: float
    practice: float
    practice_doubt: float
    middle: float
    known: float
    tails: tuple[Tail, ...]


def practised(done: float) -> float:
    """The practice of a crew that has done so many tasks."""
    return log(1 + min(done, ALL_LEARNED) / FIRST_TASKS)


def fitted(ratios: Sequence[float]) -> HoursFit:
    """What is believed after these, in the order in which they were finished."""
    count = len(ratios)
    practice = [practised(number) for number in range(count)]
    middle = sum(practice) / count if count else 0.0
    steps = [each - middle for each in practice]
    lines = [_line(ratios, steps, freedom) for freedom, _ in TAILS]
    logs = [log(before) + line.says for (_, before), line in zip(TAILS, lines, strict=True)]
    weights = [exp(each - max(logs)) for each in logs]
    chances = [weight / sum(weights) for weight in weights]

    def mean(values: Sequence[float]) -> float:
        return sum(c * v for c, v in zip(chances, values, strict=True))

    return HoursFit(
        mean([line.mean for line in lines]),
        mean([line.doubt for line in lines]),
        mean([line.slope for line in lines]),
        mean([line.slope_doubt for line in lines]),
        middle,
        BEFORE_TASKS + max(0, count - 1),
        tuple(
            Tail(chance, freedom, line.scatter)
            for chance, (freedom, _), line in zip(chances, TAILS, lines, strict=True)
        ),
    )


class _FitOfTail(NamedTuple):
    mean: float
    doubt: float
    slope: float
    slope_doubt: float
    scatter: float
    says: float  # the logarithm of how likely it makes what was seen, and itself is


def _line(ratios: Sequence[float], steps: Sequence[float], freedom: int) -> _FitOfTail:
    """The line of one tail, by so many rounds of weighing."""
    count = len(ratios)
    mean, slope, square = BEFORE_MEAN, BEFORE_PRACTICE, BEFORE_SCATTER**2
    sure_mean, sure_slope = 1 / BEFORE_DOUBT**2, 1 / PRACTICE_DOUBT**2
    for _ in range(_ROUNDS):
        off = [r - mean + slope * s for r, s in zip(ratios, steps, strict=True)]
        weights = [(freedom + 1) / (freedom + o * o / square) for o in off]
        a = sure_mean + sum(weights) / square
        b = -sum(w * s for w, s in zip(weights, steps, strict=True)) / square
        d = sure_slope + sum(w * s * s for w, s in zip(weights, steps, strict=True)) / square
        p = BEFORE_MEAN * sure_mean + _sum(weights, ratios) / square
        q = BEFORE_PRACTICE * sure_slope
        q -= sum(w * r * s for w, r, s in zip(weights, ratios, steps, strict=True)) / square
        whole = a * d - b * b
        mean, slope = (d * p - b * q) / whole, (a * q - b * p) / whole
        off = [r - mean + slope * s for r, s in zip(ratios, steps, strict=True)]
        squares = sum(w * o * o for w, o in zip(weights, off, strict=True))
        square = (BEFORE_TASKS * BEFORE_SCATTER**2 + squares) / (BEFORE_TASKS + max(0, count - 1))
    constant = lgamma((freedom + 1) / 2) - lgamma(freedom / 2) - 0.5 * log(freedom * pi * square)
    says = count * constant - (freedom + 1) / 2 * sum(
        log(1 + o * o / (freedom * square)) for o in off
    )
    says -= 0.5 * BEFORE_TASKS * (BEFORE_SCATTER**2 / square + log(square))
    return _FitOfTail(mean, sqrt(d / whole), slope, sqrt(a / whole), sqrt(square), says)


def _sum(weights: Sequence[float], values: Sequence[float]) -> float:
    return sum(w * v for w, v in zip(weights, values, strict=True))
