"""The program's own files as they were when the screens opened.

Pages and what is done on them are imported when they are first asked for. Where an upgrade or a
`git pull` changed the files in between, the new half would meet the old one: so nothing that was
changed is loaded any more, and the screens say what to do.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator, Sequence
from importlib.machinery import ModuleSpec, PathFinder
from pathlib import Path
from types import ModuleType

import crewboard

HERE = Path(crewboard.__file__).parent
CHANGED = "Crewboard was changed while it was open: leave it with q and open it again"


class ChangedWhileOpen(Exception):
    """A file of the program is no longer what it was when the screens opened."""


class AsOpened:
    """While it is entered, no file of the program is imported that was changed since."""

    def __init__(self, root: Path = HERE) -> None:
        self._root = root
        self._files = dict(_stamps(str(root)))

    def __enter__(self) -> AsOpened:
        sys.meta_path.insert(0, self)
        return self

    def __exit__(self, *_: object) -> None:
        sys.meta_path.remove(self)

    def is_changed(self) -> bool:
        """Whether any file of the program was changed, added or taken away since."""
        return dict(_stamps(str(self._root))) != self._files

    def find_spec(
        self, name: str, path: Sequence[str] | None, target: ModuleType | None = None
    ) -> ModuleSpec | None:
        """What Python asks for each module that is to be imported, before it looks itself.

        Raises `ChangedWhileOpen` for a module of the program that is not as it was.
        """
        if not name.startswith("crewboard."):
            return None
        spec = PathFinder.find_spec(name, path, target)
        file = spec.origin if spec is not None else None
        if file in self._files and self._files[file] != _stamp(os.stat(file)):
            raise ChangedWhileOpen(CHANGED)
        return spec


def _stamps(folder: str) -> Iterator[tuple[str, tuple[int, int]]]:
    try:
        inside = list(os.scandir(folder))
    except OSError:  # taken away, or one file that holds the whole program
        return
    for entry in inside:
        if not entry.is_dir():
            yield entry.path, _stamp(entry.stat())
        elif entry.name != "__pycache__":
            yield from _stamps(entry.path)


def _stamp(stat: os.stat_result) -> tuple[int, int]:
    """When a file was last written, in nanoseconds, and its bytes."""
    return stat.st_mtime_ns, stat.st_size
