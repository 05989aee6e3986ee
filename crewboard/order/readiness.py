"""What stands before a task's work: one rule, for the board and for what would be."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from typing import NamedTuple

from crewboard.order.holds.running import StandingHold
from crewboard.order.sequence.graph import OrderOfWork
from crewboard.order.sequence.links import closing
from crewboard.order.sequence.passing import (
    Facts,
    Passed,
    facts_if_finished,
    held_before,
    passed_if_finished,
)
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task


class HoldsInTheWay(NamedTuple):
    """The holds that are not over, by what they keep.

    `behind`: task or closing gate -> the holds on it, which whatever comes after waits for (a hold
    put on a component is on its closing gate). `around`: component -> the holds for which it is
    left alone.
    """

    behind: Mapping[str, Sequence[StandingHold]]
    around: Mapping[str, Sequence[StandingHold]]

    def with_one_more(self, plan: Plan, hold: StandingHold) -> "HoldsInTheWay":
        """These, and what one more keeps."""
        behind, around = holds_in_the_way(plan, [hold])
        return HoldsInTheWay(
            {**self.behind, **{on: [*self.behind.get(on, ()), hold] for on in behind}},
            {**self.around, **{part: [*self.around.get(part, ()), hold] for part in around}},
        )


def holds_in_the_way(plan: Plan, holds: Iterable[StandingHold]) -> HoldsInTheWay:
    """What each of the holds keeps that are not over."""
    behind: dict[str, list[StandingHold]] = {}
    around: dict[str, list[StandingHold]] = {}
    for hold in holds:
        if not hold.stops_work:
            continue
        known = hold.component in plan.components
        if on := hold.task or (closing(hold.component) if known else ""):
            behind.setdefault(on, []).append(hold)
        if hold.leave_alone and known:
            for part in plan.with_parts(hold.component):
                around.setdefault(part, []).append(hold)
    return HoldsInTheWay(behind, around)


class Stops(NamedTuple):
    """What keeps a task from being begun.

    `own`: holds on itself. `around`: holds for which its component is left alone. `waits`: work
    before it is unfinished, or open again. `before`: holds of what comes right before it. `early`:
    its fixed date is still to come.
    """

    own: tuple[StandingHold, ...] = ()
    around: tuple[StandingHold, ...] = ()
    waits: bool = False
    before: tuple[StandingHold, ...] = ()
    short_of: tuple[str, ...] = ()
    early: bool = False

    def __bool__(self) -> bool:
        return any(self)


class Readiness(NamedTuple):
    """All that says what stands before a task: the order of work, how far it is passed, the holds
    in the way, the day."""

    order: OrderOfWork
    facts: Facts
    passed: Passed
    holds: HoldsInTheWay
    today: date

    def stops(self, task: Task, short_of: tuple[str, ...]) -> Stops:
        """What stands before this task; `short_of` are its supplies that are not here."""
        return Stops(
            tuple(self.holds.behind.get(task.id, ())),
            self._around(task),
            not all(self.passed.done[node] for node in self.order.before[task.id]),
            self.holds_before(task.id),
            short_of,
            task.not_before is not None and self.today < task.not_before,
        )

    def if_finished(self, plan: Plan, task: str, hold: StandingHold | None) -> "Ahead":
        """What would be so were the task finished and this hold started by it."""
        held = bool(self.holds.behind.get(task)) or hold is not None
        facts = facts_if_finished(self.facts, task, held)
        so_far, touched = passed_if_finished(self.order, facts, self.passed, task)
        holds = self.holds if hold is None else self.holds.with_one_more(plan, hold)
        return Ahead(self._replace(facts=facts, passed=so_far, holds=holds), touched)

    def _around(self, task: Task) -> tuple[StandingHold, ...]:
        allowed = self.order.during.get(task.id, ())
        return tuple(
            hold
            for hold in self.holds.around.get(task.component, ())
            if hold.task != task.id and hold.task not in allowed
        )

    def holds_before(self, task: str) -> tuple[StandingHold, ...]:
        """The holds of what comes right before, but for those during which it may be worked."""
        allowed = self.order.during.get(task, ())
        held = held_before(self.order, self.facts, self.passed, task)
        return tuple(
            hold for node in held if node not in allowed for hold in self.holds.behind[node]
        )


class Ahead(NamedTuple):
    """What would be so, and the nodes right behind what would change."""

    readiness: Readiness
    touched: Sequence[str]
