"""From a key path to the line and column where it stands in a TOML text.

Run only for a file with a fault: about 1 ms for 8 KB.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from crewboard.folder.toml.scan import KeyPath, Node, Pair, statements


class Position(NamedTuple):
    """Line and column, both counted from 1; columns count characters."""

    line: int
    column: int


class Places:
    """The places of all keys and values of one text, scanned once."""

    def __init__(self, text: str) -> None:
        self._text = text
        self._keys: dict[KeyPath, int] = {}
        self._values: dict[KeyPath, int] = {}
        for statement in statements(text):
            for key in statement.keys:
                self._keys.setdefault(key.path, key.start)
                if key.path and isinstance(key.path[-1], int):
                    self._keys.setdefault(key.path[:-1], key.start)
            if statement.pair:
                self._note(statement.pair)
        self._line_starts: list[int] | None = None

    def _note(self, pair: Pair) -> None:
        if pair.value.kind == "scalar":
            self._values.setdefault(pair.value.path, pair.value.start)
            return
        for node in _nodes(pair.value):
            self._values.setdefault(node.path, node.start)
            for inner in node.pairs:
                for key in inner.keys:
                    self._keys.setdefault(key.path, key.start)

    def key(self, keypath: Sequence[str | int]) -> Position:
        """Where the key stands; for a key that is not there, its nearest table that is."""
        path = tuple(keypath)
        while path:
            if (at := self._keys.get(path, self._values.get(path))) is not None:
                return self._place(at)
            path = path[:-1]
        return Position(1, 1)

    def value(self, keypath: Sequence[str | int]) -> Position:
        """Where the value stands; for a table with a header of its own, where its key stands."""
        at = self._values.get(tuple(keypath))
        return self.key(keypath) if at is None else self._place(at)

    def __contains__(self, keypath: object) -> bool:
        return keypath in self._keys or keypath in self._values

    def _place(self, at: int) -> Position:
        if self._line_starts is None:
            self._line_starts = list(_line_starts(self._text))
        line = bisect_right(self._line_starts, at)
        return Position(line, at - self._line_starts[line - 1] + 1)


def locate(text: str, keypath: Sequence[str | int]) -> Position:
    """Line and column, from 1, of the key at `keypath` (numbers count items of arrays from 0).

    For a key that is not in the text: the place of the nearest table around it that is.
    """
    return Places(text).key(keypath)


def locate_value(text: str, keypath: Sequence[str | int]) -> Position:
    """Line and column, from 1, of the value at `keypath`."""
    return Places(text).value(keypath)


def _nodes(node: Node) -> Iterator[Node]:
    yield node
    for item in node.items:
        yield from _nodes(item)
    for pair in node.pairs:
        yield from _nodes(pair.value)


def _line_starts(text: str) -> Iterator[int]:
    at = 1 if text.startswith("\ufeff") else 0
    while True:
        yield at
        at = text.find("\n", at) + 1
        if not at:
            return
