"""Work that turns up in one course: how much comes with each task's finish, and of what kind.

What a task turns up is done in its place, before anything that waits for the task: what is found
must be mended before it is covered. It may turn up more. Whoever may do the largest of it does it
all, when what was ordered for any of it has come; what sets behind it sets at a time.
"""

from __future__ import annotations

from math import exp, sqrt
from random import Random
from typing import NamedTuple

from crewboard.order.ahead.effort import usual_hours
from crewboard.order.board import Board
from crewboard.order.forecast.came import main_component, mean_hours, what_came
from crewboard.order.forecast.found_kinds import FoundKinds
from crewboard.order.forecast.growth import MOST, learned
from crewboard.order.forecast.model import Finds, FoundKind, Model

# Above this mean a Poisson count is drawn as a normal one.
_MANY = 60.0


def with_finds(board: Board, model: Model) -> Model:
    """The model with what is believed to turn up on the way."""
    came = what_came(board)
    known, usual = learned(came), usual_hours(board.plan)
    plans = [board.plan.tasks[name] for name in model.tasks]
    return model._replace(
        finds=Finds(
            known.rate,
            tuple(known.by_component.get(main_component(task), 1.0) for task in plans),
            tuple(60 * mean_hours(task, usual) for task in plans),
            tuple(60 * hours for hours in known.sizes),
            FoundKinds(board, model, came).of_each(plans),
        )
    )


class TurnedUp(NamedTuple):
    """What a task turns up: minutes of estimated work, with what that turns up in its turn. `kinds`
    the largest first; `ordered`: minutes till what has to be ordered for it is here."""

    minutes: float
    kinds: tuple[FoundKind, ...] = ()
    ordered: float = 0.0


def turn_up(model: Model, chance: Random) -> dict[int, TurnedUp]:
    """Task -> what turns up when it is finished; only tasks that turn up any."""
    finds = model.finds
    if finds is None or not (rate := finds.rate.draw(chance)):
        return {}
    sizes, rnd = finds.sizes, chance.random
    count = len(sizes)
    mean = sum(sizes) / count
    found: dict[int, list[float]] = {}
    for task in model.draws:
        own = min(MOST, rate * finds.factors[task]) / mean if mean else 0.0
        waiting = _count(own * finds.minutes[task], chance)
        if not waiting:
            continue
        its: list[float] = []
        while waiting:
            size = sizes[int(rnd() * count)]
            its.append(size)
            waiting += _count(own * size, chance) - 1
        found[task] = its
    return {task: _of_kinds(model, task, its, chance) for task, its in found.items()}


def _of_kinds(model: Model, task: int, sizes: list[float], chance: Random) -> TurnedUp:
    """The finds of these sizes with their kinds; of what is ordered the last to come counts."""
    of_each = model.finds.kinds if model.finds is not None else ()
    if not of_each or not of_each[task]:
        return TurnedUp(sum(sizes))
    kinds, delays = of_each[task], model.delays
    drawn = [(size, int(chance.random() * len(kinds))) for size in sizes]
    drawn.sort(key=lambda one: -one[0])
    its = tuple(kinds[number] for _, number in drawn)
    lead = max(kind.lead for kind in its)
    late = 1.0
    if lead and not delays.sure:
        late = max(0.7, exp(chance.gauss(delays.late_mean, delays.late_scatter)))
    return TurnedUp(sum(sizes), tuple(dict.fromkeys(its)), lead * late)


def _count(mean: float, chance: Random) -> int:
    """A Poisson count (Knuth, The Art of Computer Programming 2, 3.4.1)."""
    if mean > _MANY:
        return max(0, round(chance.gauss(mean, sqrt(mean))))
    least, product, count = exp(-mean), chance.random(), 0
    while product > least:
        product *= chance.random()
        count += 1
    return count
