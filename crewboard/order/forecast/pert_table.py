"""Draws from the beta-PERT distribution by table: one look-up for each.

Between the low and the high estimate lies a beta distribution with its mode at the likely one and
the mean (low + 4 likely + high) / 6 (Malcolm et al. 1959). A table holds its quantiles at the
middles of equal slices, so that a draw is a uniformly chosen slice.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import accumulate

SLICES = 1024
# The mode is placed on this grid within the range, so that a few tables serve every estimate.
MODES = 64
_STEPS = 2048


def table_number(low: float, likely: float, high: float) -> int:
    """Which table belongs to an estimate; the middle one where there is no range."""
    if high <= low:
        return MODES // 2
    return round(MODES * min(1.0, max(0.0, (likely - low) / (high - low))))


@lru_cache(maxsize=MODES + 1)
def pert_table(number: int) -> tuple[float, ...]:
    """The quantiles, 0 to 1, for the mode at `number` / MODES of the range."""
    mode = number / MODES
    alpha, beta = 4 * mode, 4 * (1 - mode)
    middles = [(step + 0.5) / _STEPS for step in range(_STEPS)]
    sums = list(accumulate(x**alpha * (1 - x) ** beta for x in middles))
    whole = sums[-1]
    table: list[float] = []
    step = 0
    for slice_ in range(SLICES):
        wanted = (slice_ + 0.5) / SLICES * whole
        while sums[step] < wanted:
            step += 1
        before = sums[step - 1] if step else 0.0
        table.append((step + (wanted - before) / (sums[step] - before)) / _STEPS)
    return tuple(table)
