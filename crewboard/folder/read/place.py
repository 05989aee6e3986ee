"""The places of mistakes between files."""

from __future__ import annotations

from collections.abc import Callable

from crewboard.folder.read.assemble import Told
from crewboard.folder.read.fault import Fault, KeyPath, brief
from crewboard.folder.toml.locate import Place, Places


class Placing:
    """Finds lines and columns, scanning each file at most once."""

    def __init__(self, data: Callable[[str], bytes]) -> None:
        self._data = data
        self._scanned: dict[str, Places] = {}

    def place(self, file: str, path: KeyPath) -> Place:
        if file not in self._scanned:
            text = self._data(file).decode("utf-8", "replace").removeprefix("\ufeff")
            self._scanned[file] = Places(text)
        return self._scanned[file].key(path)

    def fault(self, told: Told) -> Fault:
        """The mistake with its place; of a loop every step is named with file and line."""
        line, column = self.place(told.file, told.misfit.path)
        sentence = brief(told.misfit.sentence)
        if told.steps:
            said = [
                f"{step.says} ({step.file}:{self.place(step.file, step.path).line})"
                if step.file
                else step.says
                for step in told.steps
            ]
            sentence += ": " + ", then ".join(said)
        return Fault(told.file, line, column, told.misfit.code, sentence, brief(told.misfit.hint))
