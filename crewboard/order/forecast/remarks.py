"""What whoever reads a forecast must know about it, in words."""

from __future__ import annotations

from collections.abc import Iterator

from crewboard.order.ahead.effort import unestimated
from crewboard.order.board import Board
from crewboard.order.forecast.finish import Basis
from crewboard.order.forecast.rough import too_little
from crewboard.order.said import how_many

# Below so many the logbook says little (common sense, no source).
FEW_DAYS = 8
FEW_TASKS = 8


def remarks(board: Board, basis: Basis, never_ended: float) -> list[str]:
    """The sentences, what weighs most first."""
    sentences = [f"{unread.says}: the dates may come later." for unread in board.unreadable]
    known = not too_little(board)  # else that is said instead
    if known and basis.work_days < FEW_DAYS:
        sentences.append(
            f"The logbook tells of {how_many(basis.work_days, 'work day')} with people: who "
            "comes is mostly a guess, so the dates lie far apart."
        )
    if known and basis.tasks_with_hours < FEW_TASKS:
        tasks = how_many(basis.tasks_with_hours, "finished task")
        verb = "has" if basis.tasks_with_hours == 1 else "have"
        sentences.append(
            f"{tasks} {verb} hours worked beside an estimate: how well the crew "
            "estimates is mostly a guess, so the dates lie far apart."
        )
    if known and never_ended:
        sentences.append(
            f"{never_ended * 100:.0f} % of the trial runs had not ended by {board.at.year + 50}: "
            "more work is left than this crew does in that time."
        )
    sentences += _about_the_plan(board)
    return sentences


def _about_the_plan(board: Board) -> list[str]:
    sentences = []
    without = len(unestimated(board))
    if without:
        one = without == 1
        sentences.append(
            f"{how_many(without, 'task')} {'has' if one else 'have'} no estimate and "
            f"{'is' if one else 'are'} taken to be like the others, within a third and three times."
        )
    aside = sum(
        s.state == "set aside" and task not in board.not_asked
        for task, s in board.standings.items()
    )
    if aside:
        sentences.append(
            f"{how_many(aside, 'task')} set aside {'is' if aside == 1 else 'are'} left out."
        )
    sentences += _in_time(board)
    if not board.plan.vehicle.work_days.rules:
        sentences.append("The plan has no rule for work days: one a week is taken for granted.")
    return sentences


def _in_time(board: Board) -> Iterator[str]:
    """What must follow other work soon, or be done in one go: as far as the courses heed it."""
    standings = board.standings.values()
    open_tasks = [s.task for s in standings if not s.work_done and s.state != "set aside"]
    soon = [task.title for task in open_tasks if task.within]
    if soon:
        more = f" and {how_many(len(soon) - 1, 'more task')}" if len(soon) > 1 else ""
        yield (
            f'"{soon[0]}"{more}: what must follow other work soon goes before all else, and '
            "the dates suppose that it is begun in time."
        )
