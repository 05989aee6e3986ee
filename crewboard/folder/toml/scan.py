"""Where everything stands in a TOML text: each statement, key and value with its span.

A scanner, not a parser: it takes a text that the TOML reader has accepted and finds the places
that the reader does not tell. On a text that is not TOML it stops at the first thing it cannot
follow and keeps what it found up to there.
"""

from __future__ import annotations

import re
from typing import NamedTuple, TypeAlias

from crewboard.folder.toml.text import DEEPEST, string_value

KeyPath: TypeAlias = tuple[str | int, ...]

MOST_SCANNED = 2_000_000
"""Characters after which the scanner stops: its places take some 70 times the text's memory."""

_BLANK = re.compile(r"[ \t]*+")
# Blanks, newlines and comments: what may stand between the items of an array.
_LOOSE = re.compile(r"(?:[ \t\r\n]++|#[^\n]*+)*+")
_LINE_END = re.compile(r"[ \t]*+(?:#[^\n]*+)?+(?:\r?\n|\Z)")
_KEY = re.compile(r"""[A-Za-z0-9_-]++|"(?:[^"\\\n]|\\[^\n])*+"|'[^'\n]*+'""")
_SCALAR = re.compile(
    r'''"""(?:[^"\\]++|\\[\s\S]|"(?!""))*+"{3,5}'''
    r"""|'''(?:[^']++|'(?!''))*+'{3,5}"""
    r"""|"(?:[^"\\\n]|\\[^\n])*+"|'[^'\n]*+'"""
    r"""|\d{4}-\d\d-\d\d[Tt ]\d\d:\d\d(?::\d\d(?:\.\d+)?)?(?:[Zz]|[+-]\d\d:\d\d)?"""
    r"""|[^\s,\[\]{}#="']++"""
)


# Most lines of most files: one bare key, one value without escapes. Read at one stroke.
_PLAIN_PAIR = re.compile(
    r"""[ \t]*+([A-Za-z0-9_-]++)[ \t]*+=[ \t]*+"""
    r"""("[^"\\\n]*+"(?!")|'[^'\n]*+'(?!')|[^\s,\[\]{}#="']++)"""
    r"""[ \t]*+(?:#[^\n]*+)?+(?:\r?\n|\Z)"""
)
_NO_STATEMENTS = re.compile(r"(?:[ \t]*+(?:#[^\n]*+)?+\r?\n)*+")


class KeyPart(NamedTuple):
    """One part of a key as written: `text[start:end]`, and the path that it names."""

    start: int
    end: int
    path: KeyPath


class Node(NamedTuple):
    """A value as written: a scalar, an array with `items` or an inline table with `pairs`."""

    start: int
    end: int
    path: KeyPath
    kind: str  # "scalar", "array", "table"
    items: tuple[Node, ...] = ()
    pairs: tuple[Pair, ...] = ()


class Pair(NamedTuple):
    """``key = value``, at the top of a table or inside an inline table."""

    keys: tuple[KeyPart, ...]
    value: Node

    @property
    def path(self) -> KeyPath:
        return self.keys[-1].path


class Statement(NamedTuple):
    """A table header (`pair` is None) or a pair, with the span of its lines."""

    start: int  # where its first line starts
    end: int  # after its last line's end
    keys: tuple[KeyPart, ...]
    pair: Pair | None
    section: int  # which header it stands under, counted from 0 (before the first header: -1)


class _Stop(Exception):
    """The text cannot be followed any further."""


def statements(text: str) -> list[Statement]:
    """All statements of the text in their order."""
    return _Scanner(text).statements()


class _Scanner:
    def __init__(self, text: str) -> None:
        self.text = text
        self.pos = 1 if text.startswith("\ufeff") else 0
        self.lists: dict[KeyPath, int] = {}  # how many [[tables]] each list has so far

    def statements(self) -> list[Statement]:
        text, scanned = self.text, list[Statement]()
        table: KeyPath = ()
        section = -1
        try:
            while self.pos < min(len(text), MOST_SCANNED):
                self.skip(_NO_STATEMENTS)
                start = self.pos
                if plain := _PLAIN_PAIR.match(text, start):
                    self.pos = plain.end()
                    scanned.append(_plain_pair(plain, table, section))
                    continue
                self.skip(_BLANK)
                char = text[self.pos : self.pos + 1]
                keys: tuple[KeyPart, ...] = ()
                pair = None
                if char == "[":
                    keys = self.header()
                    table = keys[-1].path
                    section += 1
                elif char not in "\r\n#":
                    pair = self.pair(table)
                    keys = pair.keys
                self.line_end()
                if keys:
                    scanned.append(Statement(start, self.pos, keys, pair, section))
        except (_Stop, RecursionError):
            pass
        return scanned

    def skip(self, pattern: re.Pattern[str]) -> None:
        if match := pattern.match(self.text, self.pos):
            self.pos = match.end()

    def line_end(self) -> None:
        if not (match := _LINE_END.match(self.text, self.pos)):
            raise _Stop
        self.pos = match.end()

    def expect(self, char: str) -> None:
        if not self.text.startswith(char, self.pos):
            raise _Stop
        self.pos += len(char)

    def header(self) -> tuple[KeyPart, ...]:
        opening = "[[" if self.text.startswith("[[", self.pos) else "["
        self.pos += len(opening)
        written = self.key_parts()
        self.expect(opening.replace("[", "]"))
        keys = list[KeyPart]()
        path: KeyPath = ()
        for at, (start, end, name) in enumerate(written, 1):
            path = (*path, name)
            if opening == "[[" and at == len(written):
                number = self.lists[path] = self.lists.get(path, -1) + 1
                path = (*path, number)
            elif path in self.lists:
                path = (*path, self.lists[path])
            keys.append(KeyPart(start, end, path))
        return tuple(keys)

    def key_parts(self) -> list[tuple[int, int, str]]:
        parts = list[tuple[int, int, str]]()
        while True:
            self.skip(_BLANK)
            if not (match := _KEY.match(self.text, self.pos)):
                raise _Stop
            parts.append((match.start(), match.end(), _key_name(match.group())))
            self.pos = match.end()
            self.skip(_BLANK)
            if not self.text.startswith(".", self.pos):
                return parts
            if len(parts) > DEEPEST:  # each part carries its path: thousands would fill memory
                raise _Stop
            self.pos += 1

    def pair(self, table: KeyPath) -> Pair:
        keys, path = list[KeyPart](), table
        for start, end, name in self.key_parts():
            path = (*path, name)
            keys.append(KeyPart(start, end, path))
        self.expect("=")
        self.skip(_BLANK)
        return Pair(tuple(keys), self.value(path))

    def value(self, path: KeyPath) -> Node:
        char = self.text[self.pos : self.pos + 1]
        if char == "[":
            return self.array(path)
        if char == "{":
            return self.table(path)
        start = self.pos
        if not (match := _SCALAR.match(self.text, start)):
            raise _Stop
        self.pos = match.end()
        return Node(start, self.pos, path, "scalar")

    def array(self, path: KeyPath) -> Node:
        start, items = self.pos, list[Node]()
        self.pos += 1
        while True:
            self.skip(_LOOSE)
            if self.text.startswith("]", self.pos):
                break
            items.append(self.value((*path, len(items))))
            self.skip(_LOOSE)
            if self.text.startswith(",", self.pos):
                self.pos += 1
            elif not self.text.startswith("]", self.pos):
                raise _Stop
        self.pos += 1
        return Node(start, self.pos, path, "array", tuple(items))

    def table(self, path: KeyPath) -> Node:
        start, pairs = self.pos, list[Pair]()
        self.pos += 1
        while True:
            self.skip(_LOOSE)
            if self.text.startswith("}", self.pos):
                break
            pairs.append(self.pair(path))
            self.skip(_LOOSE)
            if self.text.startswith(",", self.pos):
                self.pos += 1
            elif not self.text.startswith("}", self.pos):
                raise _Stop
        self.pos += 1
        return Node(start, self.pos, path, "table", (), tuple(pairs))


def _plain_pair(match: re.Match[str], table: KeyPath, section: int) -> Statement:
    path = (*table, match[1])
    keys = (KeyPart(match.start(1), match.end(1), path),)
    pair = Pair(keys, Node(match.start(2), match.end(2), path, "scalar"))
    return Statement(match.start(), match.end(), keys, pair, section)


def _key_name(written: str) -> str:
    if written[0] == "'":
        return written[1:-1]
    if written[0] != '"':
        return written
    if "\\" not in written:
        return written[1:-1]
    try:
        return string_value(written)
    except ValueError:
        raise _Stop from None
