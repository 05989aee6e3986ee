"""A TOML text as an editor sees it: which lines belong to which table, what stands where."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from crewboard.folder.toml.scan import KeyPart, KeyPath, Node, Statement, statements


class Splice(NamedTuple):
    """Put `new` in the place of `text[start:end]`."""

    start: int
    end: int
    new: str


class Outline:
    """The statements of one text, by the paths that they name."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.newline = "\r\n" if "\r\n" in text[: text.find("\n") + 1] else "\n"
        self.statements = statements(text)
        self.nodes: dict[KeyPath, Node] = {}
        self.inline: list[Node] = []  # all inline tables
        for statement in self.statements:
            if statement.pair:
                self._note(statement.pair.value)
        self.headers = [s for s in self.statements if s.pair is None]

    def _note(self, node: Node) -> None:
        self.nodes[node.path] = node
        for item in node.items:
            self._note(item)
        if node.kind == "table":
            self.inline.append(node)
        for pair in node.pairs:
            self._note(pair.value)

    def key_parts(self) -> Iterator[KeyPart]:
        """All parts of all keys, in headers, pairs and inline tables."""
        for statement in self.statements:
            yield from statement.keys
        for table in self.inline:
            for pair in table.pairs:
                yield from pair.keys

    def header(self, path: KeyPath) -> Statement | None:
        """The header of the table at the path, where it has one of its own."""
        return next((h for h in self.headers if h.keys[-1].path == path), None)

    def body(self, section: int) -> list[Statement]:
        """The pairs that stand under a header (-1: before the first)."""
        return [s for s in self.statements if s.section == section and s.pair]

    def sections_below(self, path: KeyPath) -> list[Statement]:
        """The headers of the table at the path and of all tables below it."""
        return [h for h in self.headers if h.keys[-1].path[: len(path)] == path]

    def pairs_below(self, path: KeyPath) -> list[Statement]:
        """The pairs elsewhere whose dotted keys name the path or lead through it."""
        inner = {h.section for h in self.sections_below(path)}
        return [
            s
            for s in self.statements
            if s.pair and s.section not in inner and s.pair.path[: len(path)] == path
        ]

    def inline_around(self, path: KeyPath) -> list[Node]:
        """The inline tables around the path with a pair that names it or leads through it."""
        return [
            table
            for table in self.inline
            if len(table.path) < len(path)
            and any(pair.path[: len(path)] == path for pair in table.pairs)
        ]

    def section_end(self, section: int) -> int:
        """Where the section's lines end: its last pair, and comments that hang on to that.

        Comment lines that touch the next header belong to it instead.
        """
        own = [s for s in self.statements if s.section == section]
        end = after = own[-1].end if own else self.start
        while (line := self.line_at(after)).lstrip(" \t").startswith("#"):
            after += len(line)
        touches_next = self.line_at(after).lstrip(" \t").startswith("[")
        return end if touches_next else after

    @property
    def start(self) -> int:
        """Where the text starts, behind a byte-order mark."""
        return 1 if self.text.startswith("\ufeff") else 0

    def line_at(self, start: int) -> str:
        """The line that starts there, with its line end."""
        end = self.text.find("\n", start)
        return self.text[start : end + 1 if end >= 0 else len(self.text)]

    def line_start(self, at: int) -> int:
        """Where the line around the place starts."""
        return max(self.text.rfind("\n", 0, at) + 1, self.start)

    def line_end(self, at: int) -> int:
        """Where the line around the place ends, behind its line end."""
        end = self.text.find("\n", at)
        return end + 1 if end >= 0 else len(self.text)

    def add_line(self, at: int, line: str) -> Splice:
        """Put a new line where a line starts, or behind a last line that has no line end."""
        if at == len(self.text) and at > self.start and not self.text.endswith("\n"):
            return Splice(at, at, self.newline + line)
        return Splice(at, at, line + self.newline)


def spliced(text: str, splices: list[Splice]) -> str:
    """The text with all splices made. Deletions may overlap; insertions at one place keep order."""
    parts, at = list[str](), 0
    for splice in sorted(splices, key=lambda splice: splice.start):
        if splice.start > at:
            parts.append(text[at : splice.start])
        parts.append(splice.new)
        at = max(at, splice.end)
    parts.append(text[at:])
    return "".join(parts)
