"""Save a drawing as an SVG file of its own; nothing that is there is written over."""

from __future__ import annotations

import os
from collections.abc import Callable

from crewboard.folder.disk.new_file import write_new
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine

_INTRO = "a new SVG file; what is there already is never written over"


async def save_drawing(app: BoardApp, name: str, drawn: Callable[[], str]) -> bool:
    """Ask for the file, proposing `name`, and write what `drawn` gives; whether it was saved."""
    ask = AskLine("Save the drawing", "file", value=name, intro=_INTRO, check=_taken)
    path = await app.push_screen_wait(ask)
    if path is None:
        return False
    try:
        write_new(os.path.expanduser(path), drawn())
    except OSError as error:
        app.tell(f"not saved: {error.strerror}: {path}", warning=True)
        return False
    app.tell(f"saved as {os.path.abspath(os.path.expanduser(path))}")
    return True


def _taken(path: str) -> str | None:
    return "that is there already" if os.path.lexists(os.path.expanduser(path)) else None
