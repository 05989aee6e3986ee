"""How much work turns up on the way, learned from the log and shrunk to what is published.

A forecast from the plan alone takes the inside view (Kahneman and Tversky, Intuitive Prediction:
Biases and Corrective Procedures, 1979; from memory). Reference class forecasting asks what came of
comparable undertakings (Flyvbjerg, From Nobel Prize to Project Management, Project Management
Journal 37(3), 2006, pp. 5-15). Here the two meet in one formula: what is published is believed as
if one find of it had been seen, and the logbook outweighs it as soon as it says more.

The reference class: 50 large public works in Britain cost on average 38 % more than planned, half
of them up to 19 % more (Mott MacDonald, Review of Large Public Procurement in the UK, 2002, for HM
Treasury's Green Book guidance on optimism bias; its comparison with the Bath studies: verified).
Roads 20 %, bridges and tunnels 34 %, rail 45 % (Flyvbjerg 2006: second-hand, from its summaries).
They count prices and slow work too, and are no vehicles: no published figure for those was found.

Work that is finished turns up more, in the measure of its hours, and so does what turned up. Of a
rate r the plan grows by r / (1 - r) in the end. A rate that is exponential with the mean REFERENCE
and never above MOST grows the plan by 37 % on average, and in half of the cases by up to 19 %: as
was published.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Sequence
from datetime import date
from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.order.forecast.came import Came, WhatCame, what_came
from crewboard.order.forecast.finish import Growth
from crewboard.order.forecast.gamma import Gamma

# Hours found for each hour finished, before the log says anything: see the module.
REFERENCE = 0.25
# A rate of one or more would never end; at this one a plan grows to four times its size.
MOST = 0.75
# The sizes of finds are like those of the plan's tasks, as if so many had been seen (common sense).
ALIKE_SIZES = 4.0
# A component is like the whole, as if it had turned up so many finds (common sense, no source).
ALIKE_COMPONENTS = 4.0
SHARE = 0.8
_SIZES = 64


class Learned(NamedTuple):
    """What is believed of the work that is still to turn up.

    `rate`: hours found for each hour of estimated work that is finished. `by_component`: main
    component -> by what its own rate differs from the whole's, as a factor. `sizes` of finds in
    person-hours, each as likely as the others, smallest first.
    """

    rate: Gamma
    by_component: dict[str, float]
    sizes: tuple[float, ...]


def growth_of(board: Board) -> Growth:
    """How far the plan has grown up to the board's moment, and what is learned of it."""
    came = what_came(board)
    rate = learned(came).rate
    low, high = rate.interval(SHARE)
    return Growth(
        came.since,
        len(came.planned),
        len(came.found),
        sum(each.hours for each in came.planned),
        sum(each.hours for each in came.found),
        rate.mean,
        low,
        high,
        came.without_date,
    )


def learned(came: WhatCame) -> Learned:
    """The rate as a Gamma posterior, the components' beside it, the sizes of what turns up.

    What came to a component on one day is one find: something was opened up. Finds are counted,
    not their hours, since they come like a Poisson's (a Gamma belief of its rate leaves a Gamma
    belief), and their sizes are learned beside it: that hours come in unlike sizes says nothing of
    how many there are, least of all where none came. What both leave open together is the
    variance of a compound Poisson sum (McCullagh and Nelder, Generalized Linear Models, 1989,
    chapter 6; from memory).
    """
    together = _together(came.found)
    finds = list(together.values())
    sizes = [(hours, 1.0) for hours in finds]
    planned = [each.hours for each in came.planned] or finds or [1.0]
    sizes += [(hours, ALIKE_SIZES / len(planned)) for hours in planned]
    total = sum(weight for _, weight in sizes)
    mean = sum(size * weight for size, weight in sizes) / total or 1.0
    unlike = sum(size * size * weight for size, weight in sizes) / total / mean**2 - 1
    count = len(finds)
    rate = (mean + sum(finds)) / (mean / REFERENCE + sum(came.finished.values()))
    shape = (1 + count) / (1 + max(0.0, unlike) * count / (count + ALIKE_SIZES))
    belief = Gamma(shape, shape / rate, MOST)
    return Learned(belief, _components(came, together, mean, belief.mean), _table(sizes, total))


def _together(found: Sequence[Came]) -> dict[tuple[str, date | None], float]:
    """The hours of each find: of all tasks that came to a component on one day."""
    finds: dict[tuple[str, date | None], float] = {}
    for each in found:
        find = (each.component, each.on)
        finds[find] = finds.get(find, 0.0) + each.hours
    return finds


def found_by_component(found: Sequence[Came]) -> dict[str, float]:
    """Main component -> hours of the tasks found in it."""
    hours: dict[str, float] = {}
    for each in found:
        hours[each.component] = hours.get(each.component, 0.0) + each.hours
    return hours


def _components(
    came: WhatCame, together: Collection[tuple[str, date | None]], mean: float, rate: float
) -> dict[str, float]:
    """Finds of each against what the whole's rate says, shrunk to 1 (the relative risk of Clayton
    and Kaldor, Biometrics 43, 1987; from memory)."""
    finds = Counter(component for component, _ in together)
    return {
        stem: (ALIKE_COMPONENTS + finds[stem])
        / (ALIKE_COMPONENTS + rate * came.finished.get(stem, 0.0) / mean)
        for stem in {*finds, *came.finished}
    }


def _table(sizes: list[tuple[float, float]], total: float) -> tuple[float, ...]:
    """The middle of each of equally likely slices."""
    ordered = sorted(sizes)
    table: list[float] = []
    reached, at = ordered[0][1], 0
    for number in range(_SIZES):
        while at + 1 < len(ordered) and reached < total * (number + 0.5) / _SIZES:
            at += 1
            reached += ordered[at][1]
        table.append(ordered[at][0])
    return tuple(table)
