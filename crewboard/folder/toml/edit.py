"""Changing one thing in a plan file; comments, order, quoting and line ends stay as they are.

Each edit cuts only the lines that it means out of the text. Then the new text is decoded and
compared with the value that was meant: where they differ nothing is handed out.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, NoReturn

from crewboard.folder.cannot import CannotEdit, CannotPlace, CannotSpell, NoSuchPlace, NotForTomlkit
from crewboard.folder.toml.decode import parse_text
from crewboard.folder.toml.document import replacing_splices
from crewboard.folder.toml.meant import (
    exists,
    prunings,
    renamed,
    same,
    value_at,
    with_value,
    without,
)
from crewboard.folder.toml.outline import Outline, Splice, spliced
from crewboard.folder.toml.scan import KeyPath
from crewboard.folder.toml.sections import new_table_splices
from crewboard.folder.toml.shapes import (
    key_splices,
    removal_splices,
    setting_splices,
    whole_value_splices,
)
from crewboard.folder.toml.text import BrokenText
from crewboard.folder.toml.values import Value
from crewboard.legible import legible

_UNSAFE = "this text is laid out in a way that cannot be changed safely: edit it by hand"


def set_value(text: str, keypath: Sequence[str | int], value: Value) -> str:
    """The text with the value at the key path; missing tables are made within their parent.

    `text` is the file's, with line ends and byte-order mark as they stand. Lists and tables are
    changed item by item, so what stays in them keeps its layout. Raises `CannotEdit`.
    """
    path, old = tuple(keypath), _read(text)
    meant = _meant(lambda: with_value(old, path, value), path)
    if exists(old, path) and same(value_at(old, path), value):
        return text
    outline = Outline(text)
    return _first_proved(
        text,
        [meant],
        lambda: replacing_splices(outline, path, value),
        lambda: setting_splices(outline, old, path, value),
        lambda: whole_value_splices(outline, path, value),
    )


def remove(text: str, keypath: Sequence[str | int]) -> str:
    """The text without the key (or table, or item) at the path. Raises `CannotEdit`.

    A comment on the same line goes with it; comment lines above it stay.
    """
    path, old = tuple(keypath), _read(text)
    if not path:
        raise CannotEdit("nothing was named to be removed")
    meant = _meant(lambda: without(old, path), path)
    outline = Outline(text)
    return _first_proved(
        text,
        list(prunings(meant, path[:-1])),
        lambda: removal_splices(outline, old, path),
    )


def add_table(text: str, keypath: Sequence[str | int], values: Mapping[str, Value]) -> str:
    """The text with a new table behind its siblings, one blank line between.

    A number at the path's end adds to a list of tables (``[[parts]]``) and is its length up to
    now. Raises `CannotEdit`, also where something of that name is there already.
    """
    path, old = tuple(keypath), _read(text)
    if exists(old, path):
        raise CannotEdit(f"{_named(path)} is there already")
    meant = _meant(lambda: with_value(old, path, dict(values)), path)
    outline = Outline(text)
    return _first_proved(
        text,
        [meant],
        lambda: new_table_splices(outline, path, values),
        lambda: setting_splices(outline, old, path, dict(values)),
    )


def remove_table(text: str, keypath: Sequence[str | int]) -> str:
    """The text without the table at the path and the tables below it. Raises `CannotEdit`.

    Comments between its lines go with it; comment lines above its header stay, since they may
    be about more than this table.
    """
    path, old = tuple(keypath), _read(text)
    if not isinstance(_meant(lambda: value_at(old, path), path), dict):
        raise CannotEdit(f"{_named(path)} is not a table")
    return remove(text, path)


def rename_table(text: str, old: Sequence[str | int], new: Sequence[str | int]) -> str:
    """The text with the table (or key) `old` called as in `new`, which has the same parent.

    Wherever the name leads to it: in its header, in headers below it, in dotted keys. What names
    it as a value (``after = ["old"]``) is the caller's to change. Raises `CannotEdit`.
    """
    path, target, data = tuple(old), tuple(new), _read(text)
    if not path or path[:-1] != target[:-1] or not isinstance(target[-1], str):
        raise CannotEdit("a table can be renamed only where it stands")
    if path == target:
        return text
    if exists(data, target):
        raise CannotEdit(f"{_named(target)} is there already")
    name = target[-1]
    meant = _meant(lambda: renamed(data, path, name), path)
    outline = Outline(text)
    return _first_proved(text, [meant], lambda: key_splices(outline, path, name))


def _read(text: str) -> dict[str, Any]:
    data = parse_text(text.removeprefix("\ufeff"))
    if isinstance(data, BrokenText):
        raise CannotEdit(f"the file is broken in line {data.line}: {data.sentence}")
    return data


def _meant(value: Any, path: KeyPath) -> Any:
    try:
        return value()
    except NoSuchPlace:
        _no_such_place(path)


def _no_such_place(path: KeyPath) -> NoReturn:
    raise CannotEdit(f"{_named(path)} is not there")


def _first_proved(text: str, meant: list[Any], *ways: Any) -> str:
    """The first way's text that decodes to one of the values meant."""
    reasons = list[str]()
    for way in ways:
        try:
            splices: list[Splice] = way()
        except CannotSpell as error:
            raise CannotEdit(error.sentence) from None
        except NotForTomlkit:
            continue
        except CannotPlace as error:
            reasons.append(str(error))
            continue
        new = spliced(text, splices)
        decoded = parse_text(new.removeprefix("\ufeff"))
        if any(same(decoded, value) for value in meant):
            return new
    raise CannotEdit(reasons[0] if reasons else _UNSAFE)


def _named(path: KeyPath) -> str:
    return legible(".".join(map(str, path)))
