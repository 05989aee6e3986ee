"""Work that turns up in one course: how much comes with each task's finish.

What a task turns up is done in its place by whoever may be on it, before anything that waits for
the task: what is found must be mended before it is covered. It may turn up more.
"""

from __future__ import annotations

from math import exp, sqrt
from random import Random

from crewboard.order.ahead.effort import usual_hours
from crewboard.order.board import Board
from crewboard.order.forecast.came import main_component, mean_hours, what_came
from crewboard.order.forecast.growth import MOST, learned
from crewboard.order.forecast.model import Finds, Model

# Above this mean a Poisson count is drawn as a normal one.
_MANY = 60.0


def with_finds(board: Board, model: Model) -> Model:
    """The model with what is believed to turn up on the way."""
    known, usual = learned(what_came(board)), usual_hours(board.plan)
    plans = [board.plan.tasks[name] for name in model.tasks]
    return model._replace(
        finds=Finds(
            known.rate,
            tuple(known.by_component.get(main_component(task), 1.0) for task in plans),
            tuple(60 * mean_hours(task, usual) for task in plans),
            tuple(60 * hours for hours in known.sizes),
        )
    )


def turn_up(model: Model, chance: Random) -> dict[int, float]:
    """Task -> minutes of estimated work that turn up when it is finished, with what that turns up
    in its turn; only tasks that turn up any."""
    finds = model.finds
    if finds is None or not (rate := finds.rate.draw(chance)):
        return {}
    sizes, rnd = finds.sizes, chance.random
    count = len(sizes)
    mean = sum(sizes) / count
    found: dict[int, float] = {}
    for task in model.draws:
        own = min(MOST, rate * finds.factors[task]) / mean if mean else 0.0
        waiting = _count(own * finds.minutes[task], chance)
        if not waiting:
            continue
        total = 0.0
        while waiting:
            size = sizes[int(rnd() * count)]
            total += size
            waiting += _count(own * size, chance) - 1
        found[task] = total
    return found


def _count(mean: float, chance: Random) -> int:
    """A Poisson count (Knuth, The Art of Computer Programming 2, 3.4.1)."""
    if mean > _MANY:
        return max(0, round(chance.gauss(mean, sqrt(mean))))
    least, product, count = exp(-mean), chance.random(), 0
    while product > least:
        product *= chance.random()
        count += 1
    return count
