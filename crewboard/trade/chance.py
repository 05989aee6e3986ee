"""Student's t, by which a few measured values say how far the next may lie off; and chi-squared, by
which several say whether they agree."""

from collections.abc import Callable
from math import atan, cos, erfc, exp, gamma, pi, sin, sqrt


def inside(t: float, degrees: int) -> float:
    """The chance that |T| is less than `t`, with so many degrees of freedom.

    Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4 (from
    memory; the tests hold it against the printed table of t).
    """
    angle = atan(t / sqrt(degrees))
    odd = degrees % 2
    power = cos(angle) if odd else 1.0
    total = 0.0
    for number in range(1 + odd, degrees, 2):
        total += power
        power *= cos(angle) ** 2 * number / (number + 1)
    total *= sin(angle)
    return (angle + total) * 2 / pi if odd else total


def within(share: float, degrees: int) -> float:
    """The t within which that share of all T lies, to nine decimals."""
    return _where(lambda t: inside(t, degrees), share)


def below(square: float, degrees: int) -> float:
    """The chance that chi-squared is less than `square`, with so many degrees of freedom.

    Source: Abramowitz and Stegun, 26.4.4 and 26.4.5 (from memory; held against the printed table).
    """
    half, odd = square / 2, degrees % 2
    first = 0.5 if odd else 0.0
    powers = [float(half ** (n + first)) for n in range((degrees - odd) // 2)]
    total = sum(power / gamma(n + first + 1) for n, power in enumerate(powers))
    return 1 - (erfc(sqrt(half)) if odd else 0.0) - exp(-half) * total


def limit(share: float, degrees: int) -> float:
    """The chi-squared below which that share of all lies."""
    return _where(lambda square: below(square, degrees), share)


def _where(chance: Callable[[float], float], share: float) -> float:
    """Where a rising chance reaches a share, by halving."""
    low, high = 0.0, 1.0
    while chance(high) < share:
        high *= 2
    while high - low > 1e-9 * high:
        middle = (low + high) / 2
        low, high = (middle, high) if chance(middle) < share else (low, middle)
    return high
