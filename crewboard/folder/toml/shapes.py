"""Which lines of a text an edit changes, for each of the shapes in which TOML writes a table."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from crewboard.folder.cannot import CannotPlace
from crewboard.folder.toml.arrays import array_splices
from crewboard.folder.toml.meant import exists, same, value_at
from crewboard.folder.toml.outline import Outline, Splice
from crewboard.folder.toml.scan import KeyPath, Node, Statement
from crewboard.folder.toml.sections import into_section, own_header, spelled, without_section
from crewboard.folder.toml.values import toml_key, toml_value


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
    return [Splice(node.start, node.end, spelled(outline, node, value))]


def whole_value_splices(outline: Outline, path: KeyPath, value: Any) -> list[Splice]:
    """Set what stands at the path by writing all of it anew; refused where a comment would go."""
    node = outline.nodes.get(path)
    if node is None or _has_comment(outline, node):
        raise CannotPlace("the value is laid out in a way that cannot be changed safely")
    return [Splice(node.start, node.end, spelled(outline, node, value))]


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
    splices = [without_section(outline, h) for h in outline.sections_below(path)]
    splices += [Splice(s.start, s.end, "") for s in outline.pairs_below(path)]
    for table in outline.inline_around(path):
        gone = [pair.path[: len(path)] == path for pair in table.pairs]
        splices += _without_pairs(table, gone)
    return splices


def _table_splices(
    outline: Outline, data: Any, path: KeyPath, old: Mapping[str, Any], new: Mapping[str, Any]
) -> list[Splice]:
    table = outline.nodes.get(path)
    if table is not None and not old.keys() & new.keys():
        return whole_value_splices(outline, path, new)
    splices = list[Splice]()
    if table is not None:
        splices += _without_pairs(table, [p.keys[0].path[-1] not in new for p in table.pairs])
    else:
        for key in old.keys() - new.keys():
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
        return into_section(outline, header, key, value)
    if pairs := outline.pairs_below(parent):
        return [_beside_dotted(outline, pairs[-1], parent, key, value)]
    if inline := outline.inline_around(parent):
        pair = [pair for pair in inline[-1].pairs if pair.path[: len(parent)] == parent][-1]
        prefix = outline.text[pair.keys[0].start : _key_end(pair.keys, parent)]
        new = f", {prefix}.{toml_key(key)} = {toml_value(value)}"
        return [Splice(pair.value.end, pair.value.end, new)]
    if below := outline.sections_below(parent):
        return [own_header(outline, below[0], parent, key, value)]
    return _new_value(outline, parent, {key: value})


def _beside_dotted(
    outline: Outline, beside: Statement, parent: KeyPath, key: str, value: Any
) -> Splice:
    prefix = outline.text[beside.start : _key_end(beside.keys, parent)]
    line = f"{prefix}.{toml_key(key)} = {spelled(outline, None, value)}"
    return outline.add_line(beside.end, line)


def _key_end(keys: tuple[Any, ...], path: KeyPath) -> int:
    return next(int(key.end) for key in keys if key.path == path)


def _into_inline(node: Node, pair: str) -> list[Splice]:
    if not node.pairs:
        return [Splice(node.start, node.end, f"{{ {pair} }}")]
    end = node.pairs[-1].value.end
    return [Splice(end, end, f", {pair}")]


def _without_pairs(table: Node, gone: Sequence[bool]) -> list[Splice]:
    """Take pairs out of an inline table, each with the comma before it (the first: after it)."""
    pairs = table.pairs
    kept = next((at for at, goes in enumerate(gone) if not goes), None)
    if kept is None:
        return [Splice(table.start + 1, table.end - 1, "")]
    splices = [Splice(pairs[0].keys[0].start, pairs[kept].keys[0].start, "")] if kept else []
    return splices + [
        Splice(pairs[at - 1].value.end, pairs[at].value.end, "")
        for at in range(kept + 1, len(pairs))
        if gone[at]
    ]


def _has_comment(outline: Outline, node: Node) -> bool:
    """Whether a comment stands within the value (and not just a # within a text)."""
    if node.kind == "scalar":
        return False
    inner = [*node.items, *(pair.value for pair in node.pairs)]
    at, between = node.start, ""
    for part in inner:
        between += outline.text[at : part.start]
        at = part.end
    between += outline.text[at : node.end]
    return "#" in between or any(_has_comment(outline, part) for part in inner)
