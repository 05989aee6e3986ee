"""The texts of the plan's files while they are edited: as they stand, and as they will be."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from crewboard.folder.cannot import CannotEdit, cannot
from crewboard.folder.toml import edit
from crewboard.folder.toml.decode import parse_text
from crewboard.folder.toml.meant import value_at
from crewboard.folder.toml.text import BrokenText, text_of
from crewboard.folder.toml.values import Value


class Texts:
    """Files by their paths in the folder, read when first asked for.

    Every edit keeps comments, order and line ends; an edit that cannot be made raises
    `CannotChange`, and so does any edit of a file that is broken.
    """

    def __init__(self, read: Callable[[str], bytes | None]) -> None:
        self._read = read
        self.before: dict[str, bytes | None] = {}
        self.now: dict[str, bytes | None] = {}

    def values(self, path: str) -> dict[str, Any]:
        """What the file says; nothing where there is none."""
        data = parse_text(self._text(path).removeprefix("\ufeff"))
        if isinstance(data, BrokenText):
            raise _broken(path, data)
        return data

    def exists(self, path: str) -> bool:
        return self._bytes(path) is not None

    def create(self, path: str) -> None:
        """An empty file, where there is none yet."""
        if self.exists(path):
            raise cannot("twice", f"there is a file {path} already", "choose another name")
        self.now[path] = b""

    def set(self, path: str, key: Sequence[str | int], value: Value) -> None:
        self._edit(path, lambda text: edit.set_value(text, key, value))

    def add(self, path: str, key: Sequence[str], values: Mapping[str, Value]) -> None:
        self._edit(path, lambda text: edit.add_table(text, key, values))

    def take_out(self, path: str, key: Sequence[str | int]) -> None:
        self._edit(path, lambda text: edit.remove(text, key))

    def carry(self, path: str, key: Sequence[str | int], to: str) -> None:
        """A table with its comments into another file, under the same key."""
        from crewboard.folder.toml import carried

        place, table = tuple(key), value_at(self.values(path), tuple(key))
        lines = carried.lines_of(self._text(path), place)
        self._edit(path, lambda text: carried.without_lines(text, place))
        self._edit(to, lambda text: carried.with_lines(text, place, lines, table))

    def rename(self, path: str, old: Sequence[str], new: Sequence[str]) -> None:
        self._edit(path, lambda text: edit.rename_table(text, old, new))

    def move(self, path: str, to: str) -> None:
        """The whole file under another name."""
        self.values(path)  # a broken file stays where it is
        if self.exists(to):
            raise cannot("twice", f"there is a file {to} already", "choose another name")
        self.now[to], self.now[path] = self.now[path], None

    def delete(self, path: str) -> None:
        self.values(path)
        self.now[path] = None

    def changed(self) -> dict[str, bytes | None]:
        """The files that are not as they were; None: there is no such file any more."""
        return {path: data for path, data in self.now.items() if data != self.before[path]}

    def _bytes(self, path: str) -> bytes | None:
        if path not in self.before:
            self.before[path] = self.now[path] = self._read(path)
        return self.now[path]

    def _text(self, path: str) -> str:
        text = text_of(self._bytes(path) or b"")
        if isinstance(text, BrokenText):
            raise _broken(path, text)
        return text

    def _edit(self, path: str, change: Callable[[str], str]) -> None:
        try:
            self.now[path] = change(self._text(path)).encode()
        except CannotEdit as error:
            raise cannot("cannot-edit", f"{path}: {error.sentence}") from None


def _broken(path: str, why: BrokenText) -> Exception:
    sentence = f"{path}:{why.line}:{why.column}: {why.sentence}"
    return cannot("broken", sentence, "mend the file first; nothing is written over it")
