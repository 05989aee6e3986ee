"""The plan for a day: by the solver where it is installed, else by the plain rule."""

from __future__ import annotations

from collections.abc import Sequence

from crewboard.order.board import Board
from crewboard.order.day_plan.changes import changes_since
from crewboard.order.day_plan.jobs import shop_day
from crewboard.order.day_plan.plain_rule import by_plain_rule, most_worth, worth
from crewboard.order.day_plan.proposal import By, DayPlan, NotPlaced, Placed, Wish
from crewboard.order.day_plan.reasons import why_not_placed
from crewboard.order.day_plan.shop_day import ShopDay, Slot
from crewboard.plan.hazard import CAUTION

EFFORT = 1.0
# The solver is not worth waiting for where nothing can be chosen.
_PLAIN = "The plain rule was used: the most pressing job first, each as early as can be."


def plan_day(
    board: Board,
    wish: Wish = Wish(),  # noqa: B008
    effort: float = EFFORT,
    running: Sequence[Placed] = (),
) -> DayPlan:
    """A plan for the day of the board, from its moment until the shop closes.

    `effort` for the solver, about a second's work each; 0 means the plain rule. The same board,
    wish and effort give the same plan on every machine. Names in the wish that the plan does not
    know are passed over. `running` is what was placed by the plan that the day runs by; it is kept
    as far as it is worth.
    """
    day = shop_day(board, wish)
    slots = by_plain_rule(day)
    bound, by = most_worth(day), "plain rule"
    remarks = [f"{unread.in_full}." for unread in board.unreadable]
    if effort > 0 and slots:
        solved = _solved(day, slots, effort)
        if isinstance(solved, str):
            remarks += [solved, _PLAIN]
        else:
            better, bound = solved[0], min(bound, solved[1])
            by = "solver"
            if worth(day, better) >= worth(day, slots):
                slots = better
    else:
        remarks.append(_PLAIN)
    plan = _as_plan(board, day, slots, bound, by, remarks)  # type: ignore[arg-type]
    changes = changes_since(running, plan.placed, plan.opens) if running else ()
    return plan._replace(changes=changes)


def _solved(day: ShopDay, plain: list[Slot], effort: float) -> tuple[list[Slot], int] | str:
    """The solver's plan and its bound, or why there is none."""
    from crewboard.order.day_plan.following import as_it_can_be_followed
    from crewboard.order.day_plan.shortlist import shortlist
    from crewboard.order.day_plan.solver import NoSolver, solve

    short = shortlist(as_it_can_be_followed(day, plain), plain)
    try:
        solved = solve(short.day, short.inside(plain), effort)
    except NoSolver:
        return 'The solver is not installed (the extra "planner").'
    if solved is None:
        return "The solver found no plan with this effort."
    return short.outside(solved.slots), solved.bound if short.whole else most_worth(day)


def _as_plan(
    board: Board, day: ShopDay, slots: list[Slot], bound: int, by: By, remarks: list[str]
) -> DayPlan:
    placed = [
        Placed(
            day.jobs[slot.job].task,
            slot.people,
            day.at(slot.start),
            day.at(slot.end),
            len(slot.people) * slot.length >= day.jobs[slot.job].need,
        )
        for slot in sorted(slots, key=lambda s: (s.start, s.job))
    ]
    taken = {slot.job for slot in slots}
    busy = {who for slot in slots for who in slot.people}
    remarks = [*remarks, *_about_people(day)]
    if any(board.plan.tasks[placing.task].hazards for placing in placed):
        remarks.append(CAUTION)
    value = worth(day, slots)
    return DayPlan(
        day.opens,
        day.closes,
        day.people,
        tuple(placed),
        tuple(
            NotPlaced(job.task, why_not_placed(board, day, number, slots))
            for number, job in enumerate(day.jobs)
            if number not in taken
        ),
        tuple(who for who in day.people if who not in busy),
        by,
        value,
        max(bound, value),
        tuple(remarks),
    )


def _about_people(day: ShopDay) -> list[str]:
    sentences = []
    if not day.people:
        sentences.append(
            "Nobody is here or expected: sign people in, or say who is to be planned for."
        )
    alone = [who for who, companions in day.beside.items() if not companions]
    if alone:
        sentences.append("Somebody is here who needs another beside them, and that person is not.")
    return sentences
