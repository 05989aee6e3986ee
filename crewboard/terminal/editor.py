"""Opening a file of the folder in the person's own editor, at a line."""

from __future__ import annotations

import os
import shlex
import subprocess
from collections.abc import Mapping
from pathlib import Path

from textual.app import SuspendNotSupported

from crewboard.folder.cannot import NotKept
from crewboard.folder.disk.write import inside
from crewboard.terminal.board_app import BoardApp


def editor_command(environment: Mapping[str, str], path: str, line: int) -> list[str]:
    """The command that opens `path` at `line`, from VISUAL or EDITOR; `vi` where neither is set.

    "+LINE" before the file is what POSIX asks of vi and ex, and most editors of terminals take it.
    """
    asked = environment.get("VISUAL") or environment.get("EDITOR") or "vi"
    try:
        words = shlex.split(asked) or ["vi"]
    except ValueError:
        words = [asked]
    return [*words, f"+{line}", path] if line > 1 else [*words, path]


def open_in_editor(app: BoardApp, file: str, line: int) -> None:
    """Leave the screen to the editor until it is closed, then read the folder again."""
    root = app.workbench.folder.root
    try:
        path = inside(Path(root, file), root)
    except NotKept as error:
        app.tell(error.sentence, warning=True)
        return
    command = editor_command(os.environ, path, line)
    try:
        with app.suspend():
            done = subprocess.run(command, check=False)
        if done.returncode:
            app.tell(f"{command[0]} ended with {done.returncode}", warning=True)
    except SuspendNotSupported:
        app.tell("this terminal cannot be lent to an editor; open the file by hand", warning=True)
    except OSError as error:
        app.tell(f"{command[0]} cannot be started: {error.strerror}; set EDITOR", warning=True)
    app.look()
