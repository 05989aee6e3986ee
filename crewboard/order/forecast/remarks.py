"""What whoever reads a forecast must know about it, in words."""

from __future__ import annotations

from crewboard.order.ahead.effort import unestimated
from crewboard.order.board import Board
from crewboard.order.forecast.finish import Basis
from crewboard.order.said import how_many, listed

# Below so many the logbook says little (common sense, no source).
FEW_DAYS = 8
FEW_TASKS = 8


def remarks(board: Board, basis: Basis, never_ended: float) -> list[str]:
    """The sentences, what weighs most first."""
    found = []
    if not basis.people:
        found.append("Nobody is in the crew list, so no work gets done: the dates mean nothing.")
    if basis.work_days < FEW_DAYS:
        found.append(
            f"The logbook tells of {how_many(basis.work_days, 'work day')} with people: who will "
            "come is mostly a guess, so the dates lie far apart."
        )
    if basis.tasks_with_hours < FEW_TASKS:
        tasks = how_many(basis.tasks_with_hours, "finished task")
        verb = "has" if basis.tasks_with_hours == 1 else "have"
        found.append(
            f"{tasks} {verb} hours worked beside an estimate: how well the crew "
            "estimates is mostly a guess, so the dates lie far apart."
        )
    if never_ended:
        found.append(f"{never_ended * 100:.0f} % of the trial runs did not end within fifty years.")
    found += _about_the_plan(board)
    found.append("Work that turns up on the way and is not in the plan yet is not counted.")
    return found


def _about_the_plan(board: Board) -> list[str]:
    found = []
    without = len(unestimated(board))
    if without:
        one = without == 1
        found.append(
            f"{how_many(without, 'task')} {'has' if one else 'have'} no estimate and "
            f"{'is' if one else 'are'} taken to be like the others, within a third and three times."
        )
    missing = [s for s in _skills_wanted(board) if not _anyone_can(board, s)]
    if missing:
        found.append(
            f"Nobody has the skill {listed(missing)}: the forecast passes over that, and is too "
            "early unless somebody is found."
        )
    aside = sum(s.state == "set aside" for s in board.standings.values())
    if aside:
        found.append(
            f"{how_many(aside, 'task')} set aside {'is' if aside == 1 else 'are'} left out."
        )
    if not board.plan.vehicle.work_days.rules:
        found.append("The plan has no rule for work days: one a week is taken for granted.")
    return found


def _skills_wanted(board: Board) -> list[str]:
    open_tasks = (s.task for s in board.standings.values() if not s.work_done)
    return list(dict.fromkeys(skill for task in open_tasks for skill in task.skills))


def _anyone_can(board: Board, skill: str) -> bool:
    today = board.at.date()
    return any(skill in v.skills and v.with_us_on(today) for v in board.plan.crew.values())
