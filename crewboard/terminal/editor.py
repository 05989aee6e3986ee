"""Opening a file of the folder in the person's own editor, at a line."""

from __future__ import annotations

import os
import re
import shlex
import shutil
import subprocess
from collections.abc import Mapping
from pathlib import Path

from textual.app import SuspendNotSupported

from crewboard.folder.cannot import NotKept
from crewboard.folder.disk.write import inside
from crewboard.terminal.board_app import BoardApp

# How the name of a program ends on Windows, where blanks and backslashes stand in its path.
_PROGRAM = re.compile(r"(.+?\.(?:exe|com|cmd|bat))(?=\s|$)", re.IGNORECASE)
_WORDS = re.compile(r'"([^"]*)"|(\S+)')


def editor_command(environment: Mapping[str, str], path: str, line: int) -> list[str]:
    """The command that opens `path` at `line`, from VISUAL or EDITOR; `vi` where neither is set,
    on Windows `notepad`, which takes no line.

    "+LINE" before the file is what POSIX asks of vi and ex, and most editors of terminals take it.
    """
    windows = os.name == "nt"
    asked = (environment.get("VISUAL") or "").strip() or (environment.get("EDITOR") or "").strip()
    if not asked:
        return ["notepad", path] if windows else _at(["vi"], path, line)
    return _at(_windows_words(asked) if windows else _posix_words(asked), path, line)


def _at(words: list[str], path: str, line: int) -> list[str]:
    return [*words, f"+{line}", path] if line > 1 else [*words, path]


def _posix_words(asked: str) -> list[str]:
    try:
        return shlex.split(asked) or [asked]
    except ValueError:  # a quote that does not end
        return [asked]


def _windows_words(asked: str) -> list[str]:
    """The words as Windows has them: a backslash is one, and a program's path may hold blanks
    without quotes."""
    words = [quoted or word for quoted, word in _WORDS.findall(asked)]
    if asked.startswith('"'):
        return words
    program = _PROGRAM.match(asked)
    named = program[1] if program else _longest_file(asked)
    if named is None:
        return words
    return [named, *(quoted or word for quoted, word in _WORDS.findall(asked[len(named) :]))]


def _longest_file(asked: str) -> str | None:
    """As much of it as is the path of a file, up to a blank."""
    ends = [*(blank.start() for blank in re.finditer(r"\s", asked)), len(asked)]
    return next((asked[:end] for end in reversed(ends) if os.path.isfile(asked[:end])), None)


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
            done = subprocess.run([_program(command[0]), *command[1:]], check=False)
        if done.returncode:
            app.tell(f"{command[0]} ended with {done.returncode}", warning=True)
    except SuspendNotSupported:
        app.tell("this terminal cannot be lent to an editor; open the file by hand", warning=True)
    except OSError as error:
        app.tell(f"{command[0]} cannot be started: {error.strerror}; set EDITOR", warning=True)
    app.look()


def _program(name: str) -> str:
    """Where it is; Windows itself looks only for programs that end in .exe."""
    return shutil.which(name) or name
