"""A plan for the day by a constraint solver (OR-Tools' CP-SAT, Apache licence), where installed.

The solver is loaded only when it is asked.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from crewboard.order.day_plan.day_model import DayModel
from crewboard.order.day_plan.shop_day import ShopDay, Slot
from crewboard.order.day_plan.worth import worth

# The solver's own measure of work for an effort of 1 (tests/bench/ordering.py says how long).
WORK = 0.25


class Solved(NamedTuple):
    """The best plan found, and what no plan can be worth more than."""

    slots: list[Slot]
    bound: int


class NoSolver(Exception):
    """The solver library is not installed."""


def solve(day: ShopDay, hint: list[Slot], effort: float, seed: int = 1) -> Solved | None:
    """The best plan found with that effort, at least as good as `hint`; None where none was found.

    An effort of 1 is about a second's work on a usual machine. It is counted in steps, not by the
    clock, and the search takes turns on one core: the same day gives the same plan everywhere.
    Raises NoSolver where the library is missing.
    """
    cp_model = _library()
    model = DayModel(cp_model, day)
    model.hint(hint)
    model.most_worth()
    solver = _run(cp_model, model, effort, seed)
    if solver is None:
        return None
    slots = model.read(solver)
    bound = int(solver.best_objective_bound + 1e-6)
    return Solved(slots, max(bound, worth(day, slots)))


def keep(
    day: ShopDay,
    kept: Sequence[Slot],
    at_least: int,
    hint: list[Slot],
    effort: float,
    seed: int = 1,
) -> list[Slot] | None:
    """The plan worth at least so much that keeps most of `kept`: the people on each job first, then
    when it begins and ends. `hint` is such a plan. None where none was found.

    Raises NoSolver where the library is missing.
    """
    cp_model = _library()
    model = DayModel(cp_model, day)
    model.hint(hint)
    model.most_kept(kept, at_least)
    solver = _run(cp_model, model, effort, seed)
    return model.read(solver) if solver is not None else None


def _library() -> Any:
    try:
        from ortools.sat.python import cp_model
    except ImportError:
        raise NoSolver from None
    return cp_model


def _run(cp_model: Any, model: DayModel, effort: float, seed: int) -> Any:
    """The solver with a plan in it, or None."""
    solver = cp_model.CpSolver()
    solver.parameters.max_deterministic_time = effort * WORK
    solver.parameters.num_workers = 1
    solver.parameters.interleave_search = True
    solver.parameters.random_seed = seed
    status = solver.solve(model.model)
    return solver if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else None
