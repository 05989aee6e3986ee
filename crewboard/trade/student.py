"""Student's t, by which a few measured values say how far the next may lie off."""

from math import atan, cos, pi, sin, sqrt


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
    low, high = 0.0, 1.0
    while inside(high, degrees) < share:
        high *= 2
    while high - low > 1e-9 * high:
        middle = (low + high) / 2
        low, high = (middle, high) if inside(middle, degrees) < share else (low, middle)
    return high
