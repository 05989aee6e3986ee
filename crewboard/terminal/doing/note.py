"""Write a note, on a task or on the day."""

from __future__ import annotations

from crewboard.logbook.acts import Noted
from crewboard.order.said import task_title
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine


async def note(app: BoardApp, task_id: str) -> None:
    """Ask for the note and write it."""
    on = f'on "{task_title(app.board.plan, task_id)}"' if task_id else "on the day"
    text = await app.push_screen_wait(AskLine("Note", on))
    if text and (await app.keep([Noted(text, task_id)])).kept:
        app.tell("noted")
