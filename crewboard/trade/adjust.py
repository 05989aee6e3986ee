"""Measurements that say the same thing several times: what they come to together, and whether they
agree. Least squares with weights 1/σ², exact; a tolerance typed as "± 3 mm" is taken for σ."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import sqrt
from typing import NamedTuple

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import give_or_take, length, signed
from crewboard.trade.chance import limit
from crewboard.trade.reckoning import Source

AGREES = 0.95
"""Measurements agree where chi-squared lies within what that share of good ones would."""
SQUARES = Source(
    "weighted least squares, weights 1/σ²; chi-squared against its limit at 5 %",
    "textbooks of surveying and of adjustment; a published network is given back",
    "verified",
)


class Value(NamedTuple):
    """A measured length and its σ, in mm, σ more than nothing."""

    mm: Fraction
    sigma: Fraction


class Levelled(NamedTuple):
    """The height from one point up to another (down: less than nothing) and its σ, in mm."""

    start: str
    end: str
    up: Fraction
    sigma: Fraction


class Adjusted(NamedTuple):
    """Heights of the points and their σ in mm; the residual of each step in mm, the same in its own
    σ, and chi-squared with its degrees of freedom."""

    heights: Mapping[str, Fraction]
    sigmas: Mapping[str, float]
    residuals: tuple[Fraction, ...]
    normalized: tuple[float, ...]
    chi_squared: Fraction
    degrees: int

    @property
    def agrees(self) -> bool:
        """Whether the steps can be averaged at all."""
        return not self.degrees or float(self.chi_squared) <= limit(AGREES, self.degrees)


def value(typed: str, units: str, otherwise: Fraction | None = None) -> Value:
    """ "2.40 m ± 30 mm", "1.01 m + 1.03 m ± 5 mm" (a chain of several). Raises Unread."""
    *chained, last = typed.split(" + ")
    measured, said = give_or_take(last, "", units)
    signs = {signed(part) for part in (*chained, measured.text)} if chained else set[str]()
    if "" in signs and signs != {"", "in" if units == "imperial" else "mm"}:
        raise Unread(f'"{typed}" may be of several units', "write the unit behind each length")
    mm = sum((length(part, units).mm for part in chained), measured.mm)
    if said is None and otherwise is None:
        raise Unread(f'"{typed}" does not say how exactly', "write 2.40 m ± 30 mm")
    sigma = said.mm if said is not None else otherwise
    if not sigma:
        raise Unread(f'"{typed}": nothing is measured without an error', "write 2.40 m ± 30 mm")
    return Value(mm, sigma)


def adjusted(steps: Sequence[Levelled], fixed: Mapping[str, Fraction]) -> Adjusted:
    """Raises Unread where a point hangs on nothing fixed."""
    points = list(dict.fromkeys(p for s in steps for p in (s.start, s.end) if p not in fixed))
    at = {point: number for number, point in enumerate(points)}
    count = len(points)
    normal = [[Fraction(0)] * (2 * count + 1) for _ in points]
    for row in range(count):  # beside it the unit matrix, which becomes its inverse
        normal[row][count + 1 + row] = Fraction(1)
    for step in steps:
        ends = [(at[p], sign) for p, sign in ((step.start, -1), (step.end, 1)) if p in at]
        known = step.up + fixed.get(step.start, Fraction(0)) - fixed.get(step.end, Fraction(0))
        weight = 1 / step.sigma**2
        for row, sign in ends:
            normal[row][count] += sign * weight * known
            for column, other in ends:
                normal[row][column] += sign * other * weight
    _solve(normal, count)
    heights = {**fixed, **{point: normal[n][count] for point, n in at.items()}}
    cofactors = [row[count + 1 :] for row in normal]
    residuals = tuple(heights[s.end] - heights[s.start] - s.up for s in steps)
    return Adjusted(
        heights,
        {point: sqrt(cofactors[n][n]) for point, n in at.items()},
        residuals,
        tuple(
            _normalized(step, residual, at, cofactors)
            for step, residual in zip(steps, residuals, strict=True)
        ),
        sum(((v / s.sigma) ** 2 for v, s in zip(residuals, steps, strict=True)), Fraction(0)),
        len(steps) - count,
    )


def _solve(rows: list[list[Fraction]], count: int) -> None:
    """Gauss and Jordan, in place."""
    for column in range(count):
        pivot = next((row for row in range(column, count) if rows[row][column]), None)
        if pivot is None:
            raise Unread("a point hangs on nothing fixed", "say the height of one of its points")
        rows[column], rows[pivot] = rows[pivot], rows[column]
        first = rows[column][column]
        rows[column] = [each / first for each in rows[column]]
        for row in range(count):
            if row != column and (times := rows[row][column]):
                rows[row] = [a - times * b for a, b in zip(rows[row], rows[column], strict=True)]


def _normalized(
    step: Levelled, residual: Fraction, at: Mapping[str, int], cofactors: list[list[Fraction]]
) -> float:
    """The residual in its own σ: large ones point to a wrong measurement. Nothing where no other
    measurement checks it."""
    ends = [(at[p], sign) for p, sign in ((step.start, -1), (step.end, 1)) if p in at]
    spread = sum((a * b * cofactors[i][j] for i, a in ends for j, b in ends), Fraction(0))
    free = step.sigma**2 - spread
    return abs(float(residual)) / sqrt(free) if free > 0 else 0.0
