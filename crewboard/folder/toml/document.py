"""Replacing one value through tomlkit's document, which keeps the comment beside it.

tomlkit does this one edit right in every layout that was tried. What it was seen to spoil (lists
with comments, tables added or taken away, dotted keys) is done by splices instead; both kinds of
edit pass the same proof.
"""

from __future__ import annotations

from typing import Any

from crewboard.folder.cannot import NotForTomlkit
from crewboard.folder.toml.outline import Outline, Splice
from crewboard.folder.toml.scan import KeyPath
from crewboard.folder.toml.values import toml_value


def replacing_splices(outline: Outline, path: KeyPath, value: Any) -> list[Splice]:
    """The splice that tomlkit's own edit comes to: nothing but the value may have changed.

    Raises NotForTomlkit where the value is none that it is asked for, or where it changed more,
    CannotSpell for a value that TOML cannot hold.
    """
    node = outline.nodes.get(path)
    if node is None or node.kind != "scalar" or isinstance(value, dict | list | tuple):
        raise NotForTomlkit("not one value in the place of another")
    if isinstance(value, str) and ("\n" in value or outline.text[node.start] == "'"):
        raise NotForTomlkit("a text whose quoting is kept by hand")
    toml_value(value)  # tomlkit writes numbers that other readers refuse
    old = outline.text[outline.start :]
    new = _edited(old, path, value)
    start, end = node.start - outline.start, node.end - outline.start
    tail = len(old) - end
    if new[:start] != old[:start] or new[len(new) - tail :] != old[end:]:
        raise NotForTomlkit("more than the value would change")
    return [Splice(node.start, node.end, new[start : len(new) - tail])]


def _edited(text: str, path: KeyPath, value: Any) -> str:
    import tomlkit  # 40 ms to import: only for an edit of the plan
    from tomlkit.exceptions import TOMLKitError

    try:
        document = tomlkit.parse(text)
        around: Any = document
        for key in path[:-1]:
            around = around[key]
        around[path[-1]] = value
        return document.as_string()
    except (TOMLKitError, LookupError, ValueError, TypeError, RecursionError) as error:
        raise NotForTomlkit(f"tomlkit cannot edit this text: {error}") from None
