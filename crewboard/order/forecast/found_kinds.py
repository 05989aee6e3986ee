"""Of what kind found work is: who may do it, what has to set behind it, what is ordered for it.

What turns up is like what has turned up so far, in its component before all, and somewhat like the
work that was planned: a rotten sill asks for a joiner and for glue that sets, wherever it is found.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime

from crewboard.order.ahead.work_time import DAY
from crewboard.order.board import Board
from crewboard.order.forecast.came import Came, WhatCame, main_component
from crewboard.order.forecast.model import FoundKind, Model
from crewboard.order.forecast.who_may import Crew
from crewboard.plan.supply import Supply
from crewboard.plan.task import Task

# What turns up in a component is like what turned up in the others as if so many had, and like
# the planned work as if so many tasks of that had turned up (common sense, no source).
ALIKE_OTHERS, ALIKE_PLANNED = 2.0, 2.0
_SLICES = 64


class FoundKinds:
    """The kinds of the tasks that were found or planned, for the people of a model."""

    def __init__(self, board: Board, model: Model, came: WhatCame) -> None:
        self._board, self._crew = board, Crew(board)
        self._people = [person.id for person in model.attendance.people]
        self._came = came
        self._asking: dict[str, int] = {}  # supply -> by how many tasks it is asked for
        for each in (*came.planned, *came.found):
            for supply in each.task.supplies:
                self._asking[supply] = self._asking.get(supply, 0) + 1

    def of_each(self, tasks: Sequence[Task]) -> tuple[tuple[FoundKind, ...], ...]:
        """For each task kinds of what it may turn up, each as likely as the others."""
        tables: dict[str, tuple[FoundKind, ...]] = {}
        known = {each.task.id: self._kind(each.task) for each in self._all()}
        for component in {main_component(task) for task in tasks}:
            tables[component] = _table(
                [(known[each.task.id], weight) for each, weight in self._weighed(component)]
            )
        return tuple(tables[main_component(task)] for task in tasks)

    def _all(self) -> Iterable[Came]:
        return (*self._came.planned, *self._came.found)

    def _weighed(self, component: str) -> list[tuple[Came, float]]:
        planned, found = self._came.planned, self._came.found
        here = [each for each in found if each.component == component]
        others = [each for each in found if each.component != component]
        share = min(1.0, ALIKE_OTHERS / len(others)) if others else 0.0
        alike = ALIKE_PLANNED / len(planned) if planned else 0.0
        return [
            *((each, 1.0) for each in here),
            *((each, share) for each in others),
            *((each, alike) for each in planned),
        ]

    def _kind(self, task: Task) -> FoundKind:
        crew, hold = self._crew, task.hold
        return FoundKind(
            self._bits(crew.allowed(task)),
            crew.least(task),
            tuple(self._bits(cover) for cover in crew.covers(task)),
            hold.lasts if hold is not None else None,
            hold is not None and hold.lasts is None,
            hold is not None and self._board.rules.will_ask(hold),
            max((self._lead(self._board.plan.supplies[s]) for s in self._own(task)), default=0),
        )

    def _bits(self, of_crew: int) -> int:
        """The same people as bits of the model, and whoever is new in it with everybody."""
        order = self._crew.order
        everybody = of_crew == (1 << len(order)) - 1
        some = {who for number, who in enumerate(order) if of_crew >> number & 1}
        return sum(
            1 << number
            for number, who in enumerate(self._people)
            if who in some or (everybody and who not in order)
        )

    def _own(self, task: Task) -> Iterable[str]:
        """What is ordered for it alone: what other work asks for too is in the shop."""
        supplies = self._board.plan.supplies
        return (s for s in task.supplies if s in supplies and self._asking.get(s, 0) <= 1)

    def _lead(self, supply: Supply) -> int:
        """Minutes from its order to its delivery; 0 where nobody said."""
        if supply.lead_time is not None:
            since = datetime(2001, 1, 1)
            return (self._board.plan.clock.add(since, supply.lead_time) - since).days * DAY
        if supply.ordered is not None and supply.due is not None:
            return max(0, (supply.due - supply.ordered).days) * DAY
        return 0


def _table(weighed: Sequence[tuple[FoundKind, float]]) -> tuple[FoundKind, ...]:
    """As many equal slices of all the weight; none where nothing is known."""
    total = sum(weight for _, weight in weighed)
    table: list[FoundKind] = []
    reached = 0.0
    for kind, weight in weighed:
        reached += weight
        while len(table) < _SLICES and total * (len(table) + 0.5) / _SLICES <= reached:
            table.append(kind)
    return tuple(table)
