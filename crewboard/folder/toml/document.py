"""Putting one value in the place of another, through tomlkit's document.

tomlkit finds the value, takes the new one and keeps what stands around it: the comment beside it,
its blanks, the line's end. How the new value is spelled is ours (`values`): tomlkit would change
the quotes and leave characters bare that steer an editor. It does this one edit right in every
layout that was tried. What it was seen to spoil is done by splices instead: lists with comments,
tables added or taken away, dotted keys, keys added in front of a comment. Both kinds of edit pass
the same proof (`edit._first_proved`), and this one must change nothing but the value.
"""

from __future__ import annotations

from typing import Any

from crewboard.folder.cannot import NotForTomlkit
from crewboard.folder.toml.outline import Outline, Splice
from crewboard.folder.toml.scan import KeyPath
from crewboard.folder.toml.sections import spelled


def replacing_splices(outline: Outline, path: KeyPath, value: Any) -> list[Splice]:
    """The splice that tomlkit's own edit comes to: nothing but the value may have changed.

    Raises NotForTomlkit where what stands there is not one value by itself, or where tomlkit
    changed more; CannotSpell for a value that TOML cannot hold.
    """
    node = outline.nodes.get(path)
    if node is None or node.kind != "scalar" or isinstance(value, dict | list | tuple):
        raise NotForTomlkit("not one value in the place of another")
    old = outline.text[outline.start :]
    new = _edited(old, path, spelled(outline, node, value))
    start, end = node.start - outline.start, node.end - outline.start
    tail = len(old) - end
    if new[:start] != old[:start] or new[len(new) - tail :] != old[end:]:
        raise NotForTomlkit("more than the value would change")
    return [Splice(node.start, node.end, new[start : len(new) - tail])]


def _edited(text: str, path: KeyPath, written: str) -> str:
    import tomlkit  # 40 ms to import: only for an edit of the plan
    from tomlkit.exceptions import TOMLKitError

    try:
        document = tomlkit.parse(text)
        around: Any = document
        for key in path[:-1]:
            around = around[key]
        around[path[-1]] = tomlkit.parse(f"value = {written}")["value"]
        return document.as_string()
    except (TOMLKitError, LookupError, ValueError, TypeError, RecursionError) as error:
        raise NotForTomlkit(f"tomlkit cannot edit this text: {error}") from None
