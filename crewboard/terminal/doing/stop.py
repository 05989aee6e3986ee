"""Stop work for the day that goes on another day: one task, or those picked when the day ends."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from crewboard.logbook.acts import Stopped
from crewboard.order.board import Board
from crewboard.order.may.on_it import on_it, under_way_now
from crewboard.order.safety.checks import Asked, checks_of
from crewboard.order.said import listed, person, quoted_title, task_title
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.pick import Choice, PickSeveral
from crewboard.terminal.doing.sign_checks import sign_these
from crewboard.terminal.doing.which import named


async def stop(app: BoardApp, tasks: Sequence[str]) -> bool:
    """Ask what is worth knowing when it goes on, write it, and put the checks after the work;
    whether it was kept."""
    title = named(app.board, tasks)
    head, label = f"Stop for today: {title}", "what is left, what to mind next time (optional)"
    note = await app.push_screen_wait(AskLine(head, label, needed=False))
    if note is None or not (await app.keep([Stopped(task, note) for task in tasks])).kept:
        return False
    await _sign_after(app, tasks)
    app.tell(f"goes on another day: {title}")
    return True


async def stop_several(app: BoardApp, at: datetime | None = None) -> None:
    """Pick what goes on another day of all that is under way; `at` as of when a past day ended."""
    board = app.board if at is None else app.workbench.board(at)
    choices = [
        Choice(task_id, task_title(board.plan, task_id), _who(board, task_id), "strong")
        for task_id in under_way_now(board)
    ]
    marked = [choice.id for choice in choices]
    pick = PickSeveral(
        "What goes on another day?",
        choices,
        marked=marked,
        intro="Unmark what is finished: f finishes it.",
        none_too=True,
        empty="nothing is under way",
    )
    picked = await app.push_screen_wait(pick)
    if not picked or not (await app.keep([Stopped(task_id) for task_id in picked], at)).kept:
        return
    await _sign_after(app, picked, at)
    app.tell(f"goes on another day: {listed(quoted_title(board.plan, task) for task in picked)}")


def _who(board: Board, task_id: str) -> str:
    return listed(person(board.plan, who) for who in on_it(board, task_id))


async def _sign_after(app: BoardApp, tasks: Sequence[str], at: datetime | None = None) -> None:
    """Put the checks that come after the work, but for those of its end, while the people are still
    at it."""

    def after(board: Board) -> list[Asked]:
        every = (asked for task_id in tasks for asked in checks_of(board, task_id, when="after"))
        return [asked for asked in every if asked.check.every != "task"]

    def all_signed(board: Board) -> bool:
        return not any(asked.open for asked in after(board))

    if not all_signed(app.board if at is None else app.workbench.board(at)):
        await sign_these(app, "After the work", after, enough=all_signed, at=at)
