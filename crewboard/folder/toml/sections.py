"""Whole tables and lines of a text: where a new one goes, what goes with one that goes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from crewboard.folder.cannot import CannotPlace
from crewboard.folder.toml.outline import Outline, Splice
from crewboard.folder.toml.scan import KeyPath, Node, Statement
from crewboard.folder.toml.values import Value, literal_string, toml_key, toml_lines, toml_value


def new_table_splices(outline: Outline, path: KeyPath, values: Mapping[str, Value]) -> list[Splice]:
    """A new ``[table]`` (or ``[[table]]``, where the path ends in a number) of its own."""
    listed = isinstance(path[-1], int)
    at = table_place(outline, path)
    name = ".".join(toml_key(part) for part in path if isinstance(part, str))
    lines = [f"[[{name}]]" if listed else f"[{name}]"]
    lines += [f"{toml_key(k)} = {spelled(outline, None, v)}" for k, v in values.items()]
    return [block(outline, at, outline.newline.join(lines))]


def table_place(outline: Outline, path: KeyPath) -> int:
    """Where a new table of its own goes: behind its siblings. Raises CannotPlace."""
    listed, family = isinstance(path[-1], int), path[:-1]
    if family in outline.nodes or any(family[:n] in outline.nodes for n in range(len(family))):
        raise CannotPlace("the table around it is written on one line")
    siblings = [h for h in outline.sections_below(family) if h.keys[-1].path != family or listed]
    own = outline.header(family) or _header_around(outline, family)
    after = max((s.section for s in siblings), default=own.section if own else None)
    return len(outline.text) if after is None else outline.section_end(after)


def into_section(outline: Outline, header: Statement | None, key: str, value: Any) -> list[Splice]:
    """A new pair behind the last one under the header (None: before the first), spaced as that."""
    body = outline.body(header.section if header else -1)
    written = spelled(outline, None, value)
    if body:
        last = body[-1]
        assert last.pair is not None
        indent = outline.text[last.start : last.keys[0].start]
        tight = outline.text[last.keys[-1].end : last.pair.value.start] == "="
        line = f"{indent}{toml_key(key)}{'=' if tight else ' = '}{written}"
        return [outline.add_line(last.end, line)]
    line = f"{toml_key(key)} = {written}"
    if header is not None:
        return [outline.add_line(header.end, line)]
    if not outline.headers:
        return [outline.add_line(len(outline.text), line)]
    at = above_comments(outline, outline.headers[0])
    return [Splice(at, at, line + outline.newline * 2)]


def own_header(
    outline: Outline, before: Statement, parent: KeyPath, key: str, value: Any
) -> Splice:
    """A header with one pair for a table that only the headers below it had made."""
    name = ".".join(toml_key(part) for part in parent if isinstance(part, str))
    line = f"{toml_key(key)} = {spelled(outline, None, value)}"
    new = f"[{name}]{outline.newline}{line}{outline.newline * 2}"
    at = above_comments(outline, before)
    return Splice(at, at, new)


def without_section(outline: Outline, header: Statement, start: int | None = None) -> Splice:
    """The section's lines, and the blank lines that would be left double; from `start`, where
    comments above the header go too."""
    text, end = outline.text, outline.section_end(header.section)
    start = header.start if start is None else start
    if not text[end:].strip():
        while start > outline.start and not outline.line_at(outline.line_start(start - 1)).strip():
            start = outline.line_start(start - 1)
        return Splice(start, end, "")
    above = text[outline.start : start]
    if not above or above.endswith(("\n\n", "\n\r\n")):
        while end < len(text) and not outline.line_at(end).strip():
            end += len(outline.line_at(end))
    return Splice(start, end, "")


def above_comments(outline: Outline, header: Statement) -> int:
    """Where the header's lines start, with the comment lines that touch it from above."""
    at = header.start
    while at > outline.start:
        above = outline.line_start(at - 1)
        if not outline.text[above:at].lstrip(" \t").startswith("#"):
            break
        at = above
    return at


def _header_around(outline: Outline, path: KeyPath) -> Statement | None:
    """The last header of the list's table that the path leads through, where it does."""
    for length in range(len(path), 0, -1):
        if isinstance(path[length - 1], int):
            below = outline.sections_below(path[:length])
            return below[-1] if below else None
    return None


def block(outline: Outline, at: int, block: str) -> Splice:
    """A block of lines with one blank line on either side."""
    text, newline = outline.text, outline.newline
    before, after = text[outline.start : at], text[at:]
    if not before.strip():
        head = ""
    elif not before.endswith("\n"):
        head = newline * 2
    else:
        head = "" if before.endswith(("\n\n", "\r\n\r\n")) else newline
    ends_without = bool(before) and not before.endswith("\n")
    tail = "" if ends_without else newline
    if after and not after.lstrip(" \t").startswith(("\n", "\r\n")):
        tail += newline
    return Splice(at, at, head + block + tail)


def spelled(outline: Outline, node: Node | None, value: Any) -> str:
    """The value in the quoting of the one whose place it takes; several lines as several lines."""
    if not isinstance(value, str):
        return toml_value(value)
    written = outline.text[node.start : node.end] if node else ""
    top = node is None or any(s.pair and s.pair.value is node for s in outline.statements)
    if "\n" in value and top:
        return toml_lines(value, outline.newline)
    if written.startswith("'") and (literal := literal_string(value)):
        return literal
    return toml_value(value)
