"""Work that nobody had planned, found while other work is finished."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date
from math import exp
from random import Random

from crewboard.plan.task import Estimate, Task

# Hours of a task found, the likely ones; half of the finds bring two at once.
_HOURS = (1, 2, 3, 4, 6, 8, 12, 20)
_MEAN = sum(_HOURS) / len(_HOURS)
_TOGETHER = 1.5


def mean_hours(task: Task) -> float:
    """The mean of its three-point estimate (beta-PERT: Malcolm et al. 1959)."""
    low, likely, high = task.estimate or (2.0, 4.0, 12.0)
    return (low + 4 * likely + high) / 6


def found_after(task: Task, rate: float, day: date, number: int, chance: Random) -> list[Task]:
    """The tasks that finishing this one brings to light: `rate` hours for each of its own, on the
    average; `number` is that of the first."""
    # The mean of the three points below is 1.13 times the likely hours.
    times = _poisson(rate * mean_hours(task) / (1.13 * _MEAN * _TOGETHER), chance)
    found: list[Task] = []
    for _ in range(times):
        for _ in range(chance.choice((1, 1, 2, 2))):
            likely = chance.choice(_HOURS)
            estimate = Estimate(
                likely * chance.uniform(0.5, 0.9), likely, likely * chance.uniform(1.2, 3)
            )
            name = f"c/f{number + len(found)}"
            found.append(
                Task(
                    name,
                    f"Found {name}",
                    task.component,
                    after=(task.id,),
                    estimate=estimate,
                    added=day,
                )
            )
    return found


def before_one_of(
    found: Task, tasks: dict[str, Task], begun: Collection[str], chance: Random
) -> str:
    """The task that now has to wait for what was found too; empty for none."""
    source = found.after[0]
    behind = [t.id for t in tasks.values() if source in t.after and t.id not in begun]
    later = behind or [t for t in tasks if t not in begun and t != found.id]
    return chance.choice(later) if later and chance.random() < 0.7 else ""


def _poisson(mean: float, chance: Random) -> int:
    """Knuth's multiplication of uniform numbers (The Art of Computer Programming 2, 3.4.1)."""
    limit, product, count = exp(-mean), chance.random(), 0
    while product > limit:
        product *= chance.random()
        count += 1
    return count
