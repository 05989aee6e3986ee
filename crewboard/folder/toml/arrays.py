"""Changing the items of an array so that its layout and comments stay."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from crewboard.folder.toml.outline import Outline, Splice
from crewboard.folder.toml.scan import Node
from crewboard.folder.toml.values import toml_value


def array_splices(
    outline: Outline,
    node: Node,
    old: Sequence[Any],
    new: Sequence[Any],
    change: Callable[[Node, Any, Any], list[Splice]],
) -> list[Splice]:
    """Turn the array's items from `old` into `new`; `change` turns one item into another."""
    from difflib import SequenceMatcher

    spelled_old, spelled_new = list(map(toml_value, old)), list(map(toml_value, new))
    matches = SequenceMatcher(None, spelled_old, spelled_new, autojunk=False)
    splices = list[Splice]()
    for kind, first, last, start, stop in matches.get_opcodes():
        if kind == "equal":
            continue
        paired = min(last - first, stop - start)
        for at in range(paired):
            splices += change(node.items[first + at], old[first + at], new[start + at])
        if start + paired < stop:
            splices += _inserted(outline, node, first + paired, new[start + paired : stop])
        if first + paired < last:
            splices += _removed(outline, node, first + paired, last)
    return splices


def _inserted(outline: Outline, node: Node, at: int, values: Sequence[Any]) -> list[Splice]:
    text = outline.text
    spelled = [toml_value(value) for value in values]
    if at == 0:
        if not node.items:
            return [Splice(node.end - 1, node.end - 1, ", ".join(spelled))]
        start = node.items[0].start
        between = f",{_line_break(outline, start)}" if _first_on_line(outline, start) else ", "
        return [Splice(start, start, "".join(value + between for value in spelled))]
    anchor = node.items[at - 1]
    comma = _comma_after(text, anchor.end, node.end)
    rest_from = anchor.end if comma is None else comma + 1
    if not (_first_on_line(outline, anchor.start) and _rest_is_blank(outline, rest_from)):
        return [Splice(anchor.end, anchor.end, "".join(f", {value}" for value in spelled))]
    indent = text[outline.line_start(anchor.start) : anchor.start]
    end = outline.line_end(rest_from)
    if comma is not None:
        lines = "".join(f"{indent}{value},{outline.newline}" for value in spelled)
        return [Splice(end, end, lines)]
    lines = f",{outline.newline}".join(f"{indent}{value}" for value in spelled)
    return [Splice(anchor.end, anchor.end, ","), Splice(end, end, lines + outline.newline)]


def _removed(outline: Outline, node: Node, first: int, stop: int) -> list[Splice]:
    items = node.items
    if all(_alone(outline, item, node.end) for item in items[first:stop]):
        return [
            Splice(outline.line_start(item.start), outline.line_end(item.end), "")
            for item in items[first:stop]
        ]
    if first > 0:
        return [Splice(items[first - 1].end, items[stop - 1].end, "")]
    if stop < len(items):
        return [Splice(items[0].start, items[stop].start, "")]
    return [Splice(node.start + 1, node.end - 1, "")]


def _alone(outline: Outline, item: Node, limit: int) -> bool:
    comma = _comma_after(outline.text, item.end, limit)
    rest_from = item.end if comma is None else comma + 1
    return _first_on_line(outline, item.start) and _rest_is_blank(outline, rest_from)


def _comma_after(text: str, at: int, limit: int) -> int | None:
    """The comma behind an item, where nothing but blanks stands between them."""
    while at < limit and text[at] in " \t":
        at += 1
    return at if text[at : at + 1] == "," else None


def _first_on_line(outline: Outline, at: int) -> bool:
    return not outline.text[outline.line_start(at) : at].strip(" \t")


def _rest_is_blank(outline: Outline, at: int) -> bool:
    rest = outline.text[at : outline.line_end(at)].strip()
    return not rest or rest.startswith("#")


def _line_break(outline: Outline, at: int) -> str:
    return outline.newline + outline.text[outline.line_start(at) : at]
