"""The plan for a day: by the solver where it is installed, else by the plain rule."""

from __future__ import annotations

from collections.abc import Sequence

from crewboard.order.board import Board
from crewboard.order.day_plan.as_plan import as_plan
from crewboard.order.day_plan.changes import changes_since, small_changes_since
from crewboard.order.day_plan.following import as_it_can_be_followed
from crewboard.order.day_plan.jobs import hours_of_day, shop_day
from crewboard.order.day_plan.lead import as_led
from crewboard.order.day_plan.meanwhile import as_of_then, until_then
from crewboard.order.day_plan.plain_rule import by_plain_rule, filled
from crewboard.order.day_plan.proposal import By, DayPlan, Placed, SmallJob, Wish
from crewboard.order.day_plan.room_left import with_room_left
from crewboard.order.day_plan.running import (
    keeps_all_of,
    kept_by_plain_rule,
    kept_pairs,
    late,
    least_worth,
    running_slots,
)
from crewboard.order.day_plan.shop_day import ShopDay, Slot
from crewboard.order.day_plan.shortlist import shortlist
from crewboard.order.day_plan.worth import most_worth, worth

EFFORT = 1.0
# The share of the effort that goes besides into keeping a plan that runs; all of it besides, where
# the plain rule keeps nothing that is worth it, or with that less than this share of the pairs of
# people and work is kept.
TO_KEEP, ENOUGH = 0.4, 0.75
_PLAIN = "The plain rule was used: the most pressing job first, each as early as can be."


def plan_day(
    board: Board,
    wish: Wish = Wish(),  # noqa: B008
    effort: float = EFFORT,
    running: Sequence[Placed] = (),
    running_small: Sequence[SmallJob] = (),
) -> DayPlan:
    """A plan for the day of the board, from its moment until the shop closes.

    `effort` for the solver, about a second's work each; 0 means the plain rule. The same board,
    wish and effort give the same plan on every machine. Names in the wish that the plan does not
    know are passed over. `running` is what was placed by the plan that the day runs by,
    `running_small` its small jobs; it is kept as far as it is worth. What people are on and ends by
    it before the next block begins ends then, and is in the plan as it was.
    """
    closes, grid = hours_of_day(board, wish)
    until = until_then(board, running, grid.starts[0] if grid.blocks else closes)
    board = as_of_then(board, until)
    day = shop_day(board, wish, running)
    slots = by_plain_rule(day)
    by: By = "plain rule"
    bound = most_worth(day)
    remarks = [f"{unread.in_full}." for unread in board.unreadable]
    is_late = late(board, day, running)
    before = running_slots(day, running, is_late)
    if effort > 0 and slots:
        solved = _solved(day, slots, effort)
        if isinstance(solved, str):
            remarks += [solved, _PLAIN]
        else:
            slots, bound, by = solved[0], min(bound, solved[1]), "solver"
    else:
        remarks.append(_PLAIN)
    slots = with_room_left(day, slots)
    if before:
        slots = _kept(day, before, slots, effort if by == "solver" else 0)
    plan = as_plan(board, day, slots, bound, by, remarks, running, running_small)
    if not (running or running_small):
        return plan
    again = {placed.task for placed in plan.placed}
    placed = (*(one for one in until if one.task not in again), *plan.placed)
    changes = changes_since(running, placed, plan.opens, is_late)
    small = small_changes_since(running_small, plan.small, plan.opens)
    return plan._replace(placed=placed, changes=(*changes, *small))


def _solved(day: ShopDay, plain: list[Slot], effort: float) -> tuple[list[Slot], int] | str:
    """The solver's plan and its bound, or why there is none."""
    from crewboard.order.day_plan.solver import NoSolver, solve

    short = shortlist(as_led(as_it_can_be_followed(day, plain), plain), plain)
    try:
        solved = solve(short.day, short.inside(plain), effort)
    except NoSolver:
        return "The solver is not installed: README says how to add it."
    if solved is None:
        return "The solver found no plan with this effort."
    slots = filled(day, short.outside(solved.slots))
    bound = solved.bound if short.whole else most_worth(day)
    return (slots if worth(day, slots) >= worth(day, plain) else plain), bound


def _kept(day: ShopDay, before: list[Slot], best: list[Slot], effort: float) -> list[Slot]:
    """The plan that keeps most of the one before, worth next to nothing less than the best, which
    is made with no regard to it; that itself where nothing else is worth as much."""
    at_least = least_worth(worth(day, best))
    by_rule = kept_by_plain_rule(day, before, worth(day, best))
    kept = by_rule or best
    if effort > 0 and not keeps_all_of(before, kept):
        for share in (TO_KEEP, 1.0) if by_rule else (1.0,):
            kept = _kept_by_solver(day, before, kept, at_least, effort * share) or kept
            if kept_pairs(before, kept) >= ENOUGH * sum(len(slot.people) for slot in before):
                break
    kept = with_room_left(day, kept)
    return kept if worth(day, kept) >= at_least else best


def _kept_by_solver(
    day: ShopDay, before: list[Slot], hint: list[Slot], at_least: int, effort: float
) -> list[Slot] | None:
    """The plan worth so much that keeps most of the one before, as far as the solver finds it from
    one that is known."""
    from crewboard.order.day_plan.solver import keep

    short = shortlist(as_it_can_be_followed(day, hint), [*hint, *before])
    inside = [slot for slot in before if slot.job in short.numbers]
    found = keep(short.day, short.inside(inside), at_least, short.inside(hint), effort)
    return None if found is None else filled(day, short.outside(found), moves=False)
