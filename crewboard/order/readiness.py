"""What stands before a task's work: one rule, for the board and for what would be."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime
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
from crewboard.plan.vehicle import Jig


class HoldsInTheWay(NamedTuple):
    """The holds that are not over, by what they keep.

    `behind`: task or closing gate -> the holds on it, which whatever comes after waits for (a hold
    put on a component is on its closing gate, one put on a piece on every task done to the piece).
    `around`: component -> the holds for which it is left alone; `on_piece`: piece -> the same.
    """

    behind: Mapping[str, Sequence[StandingHold]]
    around: Mapping[str, Sequence[StandingHold]]
    on_piece: Mapping[str, Sequence[StandingHold]]

    def with_one_more(self, plan: Plan, hold: StandingHold) -> "HoldsInTheWay":
        """These, and what one more keeps."""
        more = holds_in_the_way(plan, [hold])
        return HoldsInTheWay(
            *(
                {**old, **{key: [*old.get(key, ()), hold] for key in new}}
                for old, new in zip(self, more, strict=True)
            )
        )


def holds_in_the_way(plan: Plan, holds: Iterable[StandingHold]) -> HoldsInTheWay:
    """What each of the holds keeps that are not over."""
    behind: dict[str, list[StandingHold]] = {}
    around: dict[str, list[StandingHold]] = {}
    on_piece: dict[str, list[StandingHold]] = {}
    for hold in holds:
        if not hold.stops_work:
            continue
        known = hold.component in plan.components
        for piece in hold.pieces if hold.keeps_pieces else ():
            on_piece.setdefault(piece, []).append(hold)
        for node in _kept_by(plan, hold, known):
            behind.setdefault(node, []).append(hold)
        if hold.leave_alone and known:
            for part in plan.with_parts(hold.component):
                around.setdefault(part, []).append(hold)
    return HoldsInTheWay(behind, around, on_piece)


def _kept_by(plan: Plan, hold: StandingHold, known: bool) -> Sequence[str]:
    """The tasks and gates for which whatever comes after them waits; `known`: its component is."""
    if hold.task:
        return [hold.task]
    done_to = [task.id for piece in hold.pieces for task in plan.tasks_of(piece)]
    return done_to or ([closing(hold.component)] if known else [])


class Stops(NamedTuple):
    """What keeps a task from being begun.

    `own`: holds on itself. `around`: holds for which its component is left alone. `waits`: work
    before it is unfinished, or open again. `before`: holds of what comes right before it. `early`:
    its fixed date is still to come. `on_piece`: holds for which a piece that it is done to is left
    alone. `jigs`: those that it uses and of which none is free.
    """

    own: tuple[StandingHold, ...] = ()
    around: tuple[StandingHold, ...] = ()
    waits: bool = False
    before: tuple[StandingHold, ...] = ()
    short_of: tuple[str, ...] = ()
    early: bool = False
    on_piece: tuple[StandingHold, ...] = ()
    jigs: tuple[str, ...] = ()

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
    jigs: Mapping[str, Jig] = {}
    taken: Mapping[str, Mapping[str, None]] = {}  # jig -> the tasks that have one of them

    def stops(self, task: Task, short_of: tuple[str, ...]) -> Stops:
        """What stands before this task; `short_of` are its supplies that are not here."""
        return Stops(
            tuple(hold for hold in self.holds.behind.get(task.id, ()) if hold.task),
            self._around(task),
            not all(self.passed.done[node] for node in self.order.before[task.id]),
            self.holds_before(task.id),
            short_of,
            task.not_before is not None and self.today < task.not_before,
            self._on_pieces(task),
            self.jigs_taken(task),
        )

    def if_finished(self, plan: Plan, task: str, hold: StandingHold | None) -> "Ahead":
        """What would be so were the task finished and this hold started by it."""
        held = bool(self.holds.behind.get(task)) or hold is not None
        facts = facts_if_finished(self.facts, task, held)
        so_far, touched = passed_if_finished(self.order, facts, self.passed, task)
        holds = self.holds if hold is None else self.holds.with_one_more(plan, hold)
        taken, freed = self.taken, set[str]()
        if not held and (freed := {jig for jig in self.taken if task in self.taken[jig]}):
            taken = {jig: {t: None for t in by if t != task} for jig, by in taken.items()}
        ahead = self._replace(facts=facts, passed=so_far, holds=holds, taken=taken)
        waits_for_it = (
            [t.id for t in plan.tasks.values() if freed.intersection(t.uses)] if freed else []
        )
        # In the order of the files, however they were met; the gates first.
        place = self.order.place
        return Ahead(ahead, sorted({*touched, *waits_for_it}, key=lambda node: place.get(node, -1)))

    def jigs_taken(self, task: Task) -> tuple[str, ...]:
        """The jigs that the task uses and of which none is free for it."""
        return tuple(
            name
            for name in task.uses
            if len(self.taken.get(name, {}).keys() - {task.id}) >= self.jigs[name].number
        )

    def free_from(self, jig: str) -> datetime | None:
        """When the next one of a jig is free again, None where nobody can say; of as many as there
        are the first."""
        taken = self.taken.get(jig, ())
        ends = [self._ends(task) for task in taken]
        known = sorted(end for end in ends if end is not None)
        too_many = len(ends) - self.jigs[jig].number  # of which none is free for whoever waits
        return known[too_many] if 0 <= too_many < len(known) else None

    def _ends(self, task: str) -> datetime | None:
        ends = [hold.until for hold in self.holds.behind.get(task, ()) if hold.task]
        known = [end for end in ends if end is not None]
        return max(known) if known and len(known) == len(ends) else None

    def _around(self, task: Task) -> tuple[StandingHold, ...]:
        allowed = self.order.during.get(task.id, ())
        return tuple(
            hold
            for hold in self.holds.around.get(task.component, ())
            if hold.task != task.id and hold.task not in allowed
        )

    def _on_pieces(self, task: Task) -> tuple[StandingHold, ...]:
        allowed = self.order.during.get(task.id, ())
        holds = {
            hold.id: hold
            for piece in task.pieces
            for hold in self.holds.on_piece.get(piece, ())
            if hold.task != task.id and hold.task not in allowed
        }
        return tuple(holds.values())

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
