"""Choosing a task, a person, a component from a list."""

from __future__ import annotations

from collections.abc import Iterable

from crewboard.order.board import STATES, Board, State
from crewboard.order.said import component_name
from crewboard.telling.tones import STATE_TONE
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.pick import Choice, PickOne


def task_choices(board: Board, states: Iterable[State] = STATES) -> list[Choice]:
    """The tasks in these states, in the order of the states."""
    return [
        Choice(
            s.task.id,
            s.task.title,
            f"{state}, {component_name(board.plan, s.task.component)}",
            STATE_TONE[state],
            s.task.id,
        )
        for state in states
        for s in board.in_state(state)
    ]


async def choose_task(
    app: BoardApp, title: str, states: Iterable[State] = STATES, at: str = ""
) -> str | None:
    """Ask for a task; None when left."""
    choices = task_choices(app.board, states)
    return await app.push_screen_wait(PickOne(title, choices, at=at, empty="no such task now"))
