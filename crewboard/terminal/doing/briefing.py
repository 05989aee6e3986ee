"""The day's safety talk on the screen: pick the work of the day, then read it out."""

from __future__ import annotations

from crewboard.order.board import Board
from crewboard.order.safety.briefing import briefing
from crewboard.telling.briefing import briefing_sheet
from crewboard.telling.line import Line
from crewboard.telling.report import sheet_lines
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.panel import Panel
from crewboard.terminal.dialogs.pick import PickSeveral
from crewboard.terminal.doing.choose import task_choices


async def show_briefing(app: BoardApp, at: str = "") -> None:
    """Ask which work the talk is for, those under way marked, and show it."""
    board = app.board
    going = [s.task.id for s in board.in_state("under way")]
    tasks = await app.push_screen_wait(
        PickSeveral(
            "Safety talk for which work?",
            task_choices(board, ("under way", "ready")),
            marked=going,
            at=at,
            empty="nothing is ready or under way",
        )
    )
    if tasks is not None:
        await app.push_screen_wait(Panel("Safety talk", talk_lines(board, tasks)))


def talk_lines(board: Board, tasks: tuple[str, ...]) -> list[Line]:
    """The talk as lines to read."""
    return list(sheet_lines(briefing_sheet(briefing(board, tasks))))
