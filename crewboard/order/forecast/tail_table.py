"""Draws from Student's t by table, as in `pert_table`."""

from __future__ import annotations

from functools import lru_cache
from itertools import accumulate
from math import cos, pi, sqrt, tan

from crewboard.order.forecast.pert_table import SLICES

_STEPS = 16384


@lru_cache(maxsize=8)
def tail_table(freedom: int) -> tuple[float, ...]:
    """The quantiles at the middles of equal slices.

    With t = sqrt(freedom) tan(x) the density is that of cos(x) ** (freedom - 1), between two
    right angles (any table of integrals).
    """
    width = pi / _STEPS
    sums = list(
        accumulate(cos(-pi / 2 + (n + 0.5) * width) ** (freedom - 1) for n in range(_STEPS))
    )
    table: list[float] = []
    step = 0
    for slice_ in range(SLICES):
        wanted = (slice_ + 0.5) / SLICES * sums[-1]
        while sums[step] < wanted:
            step += 1
        before = sums[step - 1] if step else 0.0
        part = (wanted - before) / (sums[step] - before)
        table.append(sqrt(freedom) * tan(-pi / 2 + (step + part) * width))
    return tuple(table)
