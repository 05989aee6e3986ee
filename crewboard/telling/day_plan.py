"""The plan for a day in plain lines: by the hour, by person, what found no place and why."""

from __future__ import annotations

from collections.abc import Iterable

from crewboard.order.board import Board
from crewboard.order.day_plan.proposal import DayPlan, Placed
from crewboard.order.said import day_in_words, how_many, listed, person
from crewboard.paper.plain import Paper


def day_plan_lines(board: Board, plan: DayPlan, width: int) -> list[str]:
    """The whole plan."""
    paper = Paper(width)
    paper.line(
        f"A plan for {day_in_words(plan.opens)}, {plan.opens:%H:%M} to {plan.closes:%H:%M}, for "
        f"{how_many(len(plan.people), 'person').replace('persons', 'people')}. "
        "It is a proposal: the lead decides."
    )
    paper.heading("By the hour")
    for each in plan.placed:
        paper.line(placed_in_words(board, each), indent=2, hang=15)
    if not plan.placed:
        paper.line("nothing could be placed", indent=2)
    paper.heading("By person")
    for who in plan.people:
        paper.line(f"{person(board.plan, who)}: {_day_of(board, plan, who)}", indent=2, hang=4)
    if plan.not_placed:
        paper.heading("No place in the day")
        for other in plan.not_placed:
            title = board.plan.tasks[other.task].title
            paper.line(f"{title}: {other.why}", indent=2, hang=4)
    paper.heading(value_in_words(plan))
    for remark in plan.remarks:
        paper.line(remark, hang=2)
    return paper.lines


def placed_in_words(board: Board, each: Placed) -> str:
    """ "09:00 to 11:30  Bend arch 3 (Ada Test and Tom Test), finished by then"."""
    people = listed(person(board.plan, who) for who in each.people)
    task = board.plan.tasks[each.task]
    place = f", {task.place}" if task.place else ""
    ends = ", finished by then" if each.finishes else ", goes on another day"
    return f"{each.start:%H:%M} to {each.end:%H:%M}  {task.title} ({people}{place}){ends}"


def _day_of(board: Board, plan: DayPlan, who: str) -> str:
    mine: Iterable[Placed] = (each for each in plan.placed if who in each.people)
    told = [f"{each.start:%H:%M} {board.plan.tasks[each.task].title}" for each in mine]
    return "; ".join(told) or "nothing planned"


def value_in_words(plan: DayPlan) -> str:
    """How good the plan is, against what could be proven."""
    if plan.by == "solver" and plan.gap <= 0:
        return "No better plan is possible by what goes first: proven."
    return (
        f"By what goes first this plan is worth at least {1 - plan.gap:.0%} of the best there "
        f"can be ({plan.by})."
    )
