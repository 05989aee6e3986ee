"""Where mistakes stand: from a file and a key to line and column."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from crewboard.folder.read.fault import Fault, KeyPath, Misfit, Remark, brief
from crewboard.folder.toml.locate import Places, Position

MOST_OF_A_FILE = 200
"""Mistakes of one file that are told one by one: nobody reads more, and a list may be a million."""


class Placing:
    """Finds lines and columns, scanning each file at most once."""

    def __init__(self, data: Callable[[str], bytes]) -> None:
        self._data = data
        self._scanned: dict[str, Places] = {}

    def place(self, file: str, path: KeyPath) -> Position:
        if file not in self._scanned:
            text = self._data(file).decode("utf-8", "replace").removeprefix("\ufeff")
            self._scanned[file] = Places(text)
        return self._scanned[file].key(path)

    def fault(self, remark: Remark) -> Fault:
        """The mistake with its place; of a loop every step is named with file and line."""
        line, column = self.place(remark.file, remark.path)
        steps = tuple(
            f"{step.says} ({step.file}:{self.place(step.file, step.path).line})"
            if step.file
            else step.says
            for step in remark.steps
        )
        sentence, hint = brief(remark.sentence), brief(remark.hint)
        rests_on = remark.rests_on
        return Fault(remark.file, line, column, remark.code, sentence, hint, steps, rests_on)


def located(path: str, data: bytes, misfits: Iterable[Misfit]) -> list[Fault]:
    """The mistakes with their places in the text; of very many in one file the first."""
    places = Places(data.decode("utf-8", "replace").removeprefix("\ufeff"))
    mistakes = list(misfits)
    faults = [
        Fault(
            path, *places.key(misfit.path), misfit.code, brief(misfit.sentence), brief(misfit.hint)
        )
        for misfit in mistakes[:MOST_OF_A_FILE]
    ]
    if len(mistakes) > MOST_OF_A_FILE:
        last = faults[-1]
        more = f"this file has {len(mistakes) - MOST_OF_A_FILE} more mistakes"
        faults.append(Fault(path, last.line, last.column, "more", more, "mend these first"))
    return faults
