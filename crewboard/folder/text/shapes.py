"""Which lines of a text an edit changes, for each of the shapes in which TOML writes a table."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from crewboard.folder.text.arrays import array_splices
from crewboard.folder.text.meant import exists, same, value_at
from crewboard.folder.text.outline import InlinePair, Outline, Splice
from crewboard.folder.text.scan import KeyPath, Node, Statement
from crewboard.folder.text.values import (
    Value,
    literal_string,
    toml_key,
    toml_lines,
    toml_value,
)


class CannotPlace(ValueError):
    """There is no safe place for the edit in this text; the message is a sentence."""


def setting_splices(outline: Outline, data: Any, path: KeyPath, value: Any) -> list[Splice]:
    """Set what stands at the path, item by item where it is a list or a table."""
    if not exists(data, path):
        return _new_value(outline, path, value)
    old = value_at(data, path)
    if isinstance(old, dict) and isinstance(value, Mapping):
        return _table_splices(outline, data, path, old, value)
    node = outline.nodes.get(path)
    if node is None:
        raise CannotPlace("a table stands in that place")
    if same(old, value):
        return []
    if isinstance(old, list) and isinstance(value, (list, tuple)):
        return array_splices(
            outline, node, old, value, lambda item, _, new: _changed(outline, data, item, new)
        )
    return [Splice(node.start, node.end, _spelled(outline, node, value))]


def whole_value_splices(outline: Outline, path: KeyPath, value: Any) -> list[Splice]:
    """Set what stands at the path by writing all of it anew; refused where a comment would go."""
    node = outline.nodes.get(path)
    if node is None or (node.kind != "scalar" and "#" in outline.text[node.start : node.end]):
        raise CannotPlace("the value is laid out in a way that cannot be changed safely")
    return [Splice(node.start, node.end, _spelled(outline, node, value))]


def key_splices(outline: Outline, path: KeyPath, name: str) -> list[Splice]:
    """Write another name wherever the last part of the path stands as a key."""
    return [
        Splice(key.start, key.end, toml_key(name))
        for key in outline.key_parts()
        if key.path == path or (isinstance(key.path[-1], int) and key.path[:-1] == path)
    ]


def removal_splices(outline: Outline, data: Any, path: KeyPath) -> list[Splice]:
    """Take away all that stands at the path."""
    if isinstance(path[-1], int) and path in outline.nodes:
        array = outline.nodes[path[:-1]]
        old = value_at(data, path[:-1])
        new = [*old[: path[-1]], *old[path[-1] + 1 :]]
        return array_splices(outline, array, old, new, lambda *_: [])
    splices = [_without_section(outline, h) for h in outline.sections_below(path)]
    splices += [Splice(s.start, s.end, "") for s in outline.pairs_below(path)]
    for inline in outline.inline_below(path):
        splices += _without_inline(inline)
    return splices


def new_table_splices(outline: Outline, path: KeyPath, values: Mapping[str, Value]) -> list[Splice]:
    """A new ``[table]`` (or ``[[table]]``, where the path ends in a number) of its own."""
    listed = isinstance(path[-1], int)
    family = path[:-1]
    if family in outline.nodes or any(family[:n] in outline.nodes for n in range(len(family))):
        raise CannotPlace("the table around it is written on one line")
    siblings = [h for h in outline.sections_below(family) if h.keys[-1].path != family or listed]
    own = outline.header(family) or _header_around(outline, family)
    after = max((s.section for s in siblings), default=own.section if own else None)
    name = ".".join(toml_key(part) for part in path if isinstance(part, str))
    lines = [f"[[{name}]]" if listed else f"[{name}]"]
    lines += [f"{toml_key(k)} = {_spelled(outline, None, v)}" for k, v in values.items()]
    at = len(outline.text) if after is None else outline.section_end(after)
    return [_block(outline, at, outline.newline.join(lines))]


def _header_around(outline: Outline, path: KeyPath) -> Statement | None:
    """The last header of the list's table that the path leads through, where it does."""
    for length in range(len(path), 0, -1):
        if isinstance(path[length - 1], int):
            below = outline.sections_below(path[:length])
            return below[-1] if below else None
    return None


def _block(outline: Outline, at: int, block: str) -> Splice:
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


def _table_splices(
    outline: Outline, data: Any, path: KeyPath, old: Mapping[str, Any], new: Mapping[str, Any]
) -> list[Splice]:
    splices = list[Splice]()
    for key in old:
        if key not in new:
            splices += removal_splices(outline, data, (*path, key))
    for key, value in new.items():
        splices += setting_splices(outline, data, (*path, key), value)
    return splices


def _changed(outline: Outline, data: Any, item: Node, value: Any) -> list[Splice]:
    return setting_splices(outline, data, item.path, value)


def _new_value(outline: Outline, path: KeyPath, value: Any) -> list[Splice]:
    parent, key = path[:-1], path[-1]
    if not isinstance(key, str):
        raise CannotPlace("the list has no such place")
    node = outline.nodes.get(parent)
    if node is not None:
        if node.kind != "table":
            raise CannotPlace("what stands around it is not a table")
        return _into_inline(node, f"{toml_key(key)} = {toml_value(value)}")
    header = outline.header(parent)
    if header is not None or not parent:
        return _into_section(outline, header, key, value)
    if pairs := outline.pairs_below(parent):
        return [_beside_dotted(outline, pairs[-1], parent, key, value)]
    if inline := outline.inline_below(parent):
        pair = inline[-1].pair
        prefix = outline.text[pair.keys[0].start : _key_end(pair.keys, parent)]
        new = f", {prefix}.{toml_key(key)} = {toml_value(value)}"
        return [Splice(pair.value.end, pair.value.end, new)]
    if below := outline.sections_below(parent):
        return [_own_header(outline, below[0], parent, key, value)]
    return _new_value(outline, parent, {key: value})


def _into_section(outline: Outline, header: Statement | None, key: str, value: Any) -> list[Splice]:
    body = outline.body(header.section if header else -1)
    line = f"{toml_key(key)} = {_spelled(outline, None, value)}"
    if body:
        last = body[-1]
        assert last.pair is not None
        indent = outline.text[last.start : last.keys[0].start]
        if outline.text[last.keys[-1].end : last.pair.value.start] == "=":
            line = line.replace(" = ", "=", 1)
        return [outline.add_line(last.end, indent + line)]
    if header is not None:
        return [outline.add_line(header.end, line)]
    if not outline.headers:
        return [outline.add_line(len(outline.text), line)]
    at = _above_comments(outline, outline.headers[0])
    return [Splice(at, at, line + outline.newline * 2)]


def _above_comments(outline: Outline, header: Statement) -> int:
    """Where the header's lines start, with the comment lines that touch it from above."""
    at = header.start
    while at > outline.start:
        above = outline.line_start(at - 1)
        if not outline.text[above:at].lstrip(" \t").startswith("#"):
            break
        at = above
    return at


def _beside_dotted(
    outline: Outline, beside: Statement, parent: KeyPath, key: str, value: Any
) -> Splice:
    prefix = outline.text[beside.start : _key_end(beside.keys, parent)]
    line = f"{prefix}.{toml_key(key)} = {_spelled(outline, None, value)}"
    return outline.add_line(beside.end, line)


def _key_end(keys: tuple[Any, ...], path: KeyPath) -> int:
    return next(int(key.end) for key in keys if key.path == path)


def _own_header(
    outline: Outline, before: Statement, parent: KeyPath, key: str, value: Any
) -> Splice:
    name = ".".join(toml_key(part) for part in parent if isinstance(part, str))
    line = f"{toml_key(key)} = {_spelled(outline, None, value)}"
    new = f"[{name}]{outline.newline}{line}{outline.newline * 2}"
    at = _above_comments(outline, before)
    return Splice(at, at, new)


def _into_inline(node: Node, pair: str) -> list[Splice]:
    if not node.pairs:
        return [Splice(node.start, node.end, f"{{ {pair} }}")]
    end = node.pairs[-1].value.end
    return [Splice(end, end, f", {pair}")]


def _without_inline(inline: InlinePair) -> list[Splice]:
    pairs = inline.table.pairs
    at = pairs.index(inline.pair)
    if at > 0:
        return [Splice(pairs[at - 1].value.end, inline.pair.value.end, "")]
    if len(pairs) > 1:
        return [Splice(inline.pair.keys[0].start, pairs[1].keys[0].start, "")]
    return [Splice(inline.table.start + 1, inline.table.end - 1, "")]


def _without_section(outline: Outline, header: Statement) -> Splice:
    """The section's lines, and the blank lines that would be left double."""
    text, start, end = outline.text, header.start, outline.section_end(header.section)
    if not text[end:].strip():
        while start > outline.start and not outline.line_at(outline.line_start(start - 1)).strip():
            start = outline.line_start(start - 1)
        return Splice(start, end, "")
    above = text[outline.start : start]
    if not above or above.endswith(("\n\n", "\n\r\n")):
        while end < len(text) and not outline.line_at(end).strip():
            end += len(outline.line_at(end))
    return Splice(start, end, "")


def _spelled(outline: Outline, node: Node | None, value: Any) -> str:
    """The value in the quoting of the one whose place it takes; several lines as several lines."""
    written = outline.text[node.start : node.end] if node else ""
    top = node is None or any(s.pair and s.pair.value is node for s in outline.statements)
    if not isinstance(value, str):
        return toml_value(value)
    if "\n" in value and top:
        return toml_lines(value, outline.newline)
    if written.startswith("'") and (literal := literal_string(value)):
        return literal
    return toml_value(value)
