"""The rows of a plan for the day, and what stands beside them."""

from __future__ import annotations

from crewboard.order.board import Board
from crewboard.order.day_plan.proposal import DayPlan
from crewboard.order.day_plan.wish import Wish
from crewboard.order.said import day_in_words, how_many, listed, person
from crewboard.plan.hazard import CAUTION
from crewboard.telling.day_plan import value_in_words
from crewboard.telling.line import GAP, Line, title
from crewboard.telling.row import Row, heading
from crewboard.terminal.widgets.rows import Column

COLUMNS = (Column(13), Column(), Column(9, wide_only=True))


def plan_rows(board: Board, plan: DayPlan, wish: Wish) -> list[Row]:
    """What is placed by the hour, then what is not, with why, then what was left out."""
    fixed = {each.task for each in wish.fixed}
    head = f"{day_in_words(plan.opens)}: {how_many(len(plan.placed), 'task')} by the hour"
    rows = [heading(head)]
    for each in plan.placed:
        names = listed(person(board.plan, who) for who in each.people)
        word = "fixed" if each.task in fixed else ""
        when = f"{each.start:%H:%M} - {each.end:%H:%M}"
        task = board.plan.tasks[each.task]
        ends = "finished by then" if each.finishes else "goes on another day"
        where = f"in {task.place}; {ends}" if task.place else ends
        below = (names, where)
        rows.append(Row(each.task, (when, task.title, word), "safe", below))
    if not plan.placed:
        rows.append(heading("nothing could be placed", "warning"))
    if plan.not_placed:
        rows.append(heading("No place in the day"))
    for other in plan.not_placed:
        task = board.plan.tasks[other.task]
        word = "fixed" if other.task in fixed else ""
        rows.append(Row(other.task, ("no place", task.title, word), "caution", (other.why,)))
    out = [task for task in wish.left_out if task in board.plan.tasks]
    if out:
        rows.append(heading("Left out by the lead"))
    rows += [Row(task, ("left out", board.plan.tasks[task].title, ""), "faint") for task in out]
    return rows


def beside(
    board: Board, plan: DayPlan, chosen: str, *, planning: bool, changed: bool
) -> list[Line]:
    """How good the plan is, what must be known of it, and each person's day."""
    lines = []
    if planning:
        lines.append(Line("a better plan is being looked for", "must", 0, "planning:"))
    elif changed:
        lines.append(Line("the plan or the logbook has changed: r runs again", "caution"))
    lines += [title("A proposal: the lead decides"), Line(value_in_words(plan))]
    lines += [Line(remark, "warning") for remark in plan.remarks if remark != CAUTION]
    lines += [GAP, title("By person")]
    for who in plan.people:
        mine = [each for each in plan.placed if who in each.people]
        told = "; ".join(f"{each.start:%H:%M} {board.plan.tasks[each.task].title}" for each in mine)
        on_it = any(each.task == chosen for each in mine)
        tone = "strong" if on_it else "faint"
        lines.append(Line(told or "nothing planned", tone, 0, f"{person(board.plan, who)}:"))
    if CAUTION in plan.remarks:
        lines += [GAP, Line(CAUTION, "faint")]
    return lines
