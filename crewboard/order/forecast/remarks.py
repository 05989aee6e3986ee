"""What whoever reads a forecast must know about it, in words."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from crewboard.order.ahead.effort import unestimated
from crewboard.order.board import Board
from crewboard.order.forecast.finish import Basis
from crewboard.order.forecast.who_may import Crew
from crewboard.order.may.short import in_short
from crewboard.order.said import how_many
from crewboard.order.supplies import supply_in_words

# Below so many the logbook says little (common sense, no source).
FEW_DAYS = 8
FEW_TASKS = 8
NAMED = 2  # supplies that are named before the rest is counted


def remarks(board: Board, basis: Basis, never_ended: float) -> list[str]:
    """The sentences, what weighs most first."""
    sentences = [f"{unread.says}: the dates may come later." for unread in board.unreadable]
    if not basis.people:
        sentences.append(
            "Nobody is in the crew list, so no work gets done: the dates mean nothing."
        )
    if basis.work_days < FEW_DAYS:
        sentences.append(
            f"The logbook tells of {how_many(basis.work_days, 'work day')} with people: who "
            "comes is mostly a guess, so the dates lie far apart."
        )
    if basis.tasks_with_hours < FEW_TASKS:
        tasks = how_many(basis.tasks_with_hours, "finished task")
        verb = "has" if basis.tasks_with_hours == 1 else "have"
        sentences.append(
            f"{tasks} {verb} hours worked beside an estimate: how well the crew "
            "estimates is mostly a guess, so the dates lie far apart."
        )
    if never_ended:
        sentences.append(
            f"{never_ended * 100:.0f} % of the trial runs did not end within fifty years."
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
    sentences += _supposed(board)
    aside = sum(
        s.state == "set aside" and task not in board.not_asked
        for task, s in board.standings.items()
    )
    if aside:
        sentences.append(
            f"{how_many(aside, 'task')} set aside {'is' if aside == 1 else 'are'} left out."
        )
    sentences += _in_time(board)
    if waited_for := _supplies_in_words(board):
        sentences.append(f"Work waits for supplies: {waited_for}.")
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


def _supposed(board: Board) -> Iterator[str]:
    """What nobody in the crew may do, by what is missing for it: the dates suppose it is found."""
    crew = Crew(board)
    if not crew.people:
        return
    missing: dict[str, list[str]] = {}
    for standing in board.standings.values():
        if not standing.work_done and standing.state != "set aside":
            for obstacle in crew.supposed(standing.task):
                missing.setdefault(in_short(board, obstacle), []).append(standing.task.title)
    for reason, titles in missing.items():
        more = f" and {how_many(len(titles) - 1, 'more task')}" if len(titles) > 1 else ""
        yield (
            f'"{titles[0]}"{more}: {reason}. The dates suppose that this is mended in time, and '
            "are too early unless it is."
        )


def _supplies_in_words(board: Board) -> str:
    """What is short for unfinished work, what nobody ordered first, then by the promise."""
    short = [account for account in board.stock.all() if account.short]
    short.sort(key=lambda a: (not a.unordered, not a.overdue, a.promised or date.max))
    named = [f"{account.supply.name}: {supply_in_words(account)}" for account in short[:NAMED]]
    return "; ".join(named + [f"{len(short) - NAMED} more"] * (len(short) > NAMED))
