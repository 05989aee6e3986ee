"""Names that point at components, parts and tasks: found and spelled."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Mapping
from typing import Any, NamedTuple

from crewboard.folder.cannot import cannot
from crewboard.folder.edit.texts import Texts
from crewboard.folder.read.fault import KeyPath

KEYED = ("enough", "within")  # tables whose keys name tasks


class Reference(NamedTuple):
    """One written name. `owner` is the id of what it stands in; `names` the id it points at."""

    owner: str
    path: KeyPath
    key: str  # "after", "during", "part", "part_of", or of a table "enough", "within"
    written: str
    names: str  # "" where it points at nothing


def pointed_at(written: str, stem: str, known: Container[str]) -> str:
    """The id that a name means in the file `stem`: its own things first; "" for none."""
    return next((full for full in (f"{stem}/{written}", written) if full in known), "")


def shortest(full: str, stem: str, known: Container[str]) -> str:
    """The id as a person would write it in the file `stem`: the bare name for its own things.

    Raises CannotChange where that file uses the name for something of its own.
    """
    short = full.removeprefix(f"{stem}/")
    if pointed_at(short, stem, known) in (full, ""):
        return short
    mend = f'call "{stem}/{short}" something else first'
    raise cannot("shadowed", f'in {stem}, "{short}" means a task or part of {stem}', mend)


_KEYS: dict[str, tuple[str, ...]] = {
    "parts": ("after", "part_of"),
    "tasks": ("after", "during", "part", *KEYED),
    "pieces": ("part",),
}


def references(stem: str, values: Mapping[str, Any], known: Container[str]) -> Iterator[Reference]:
    """All names in one component's file, in its order. `known` are the ids there are."""
    yield from _of_one(stem, stem, (), values, ("after",), known)
    for family, keys in _KEYS.items():
        tables = values.get(family)
        for name, table in tables.items() if isinstance(tables, dict) else ():
            if isinstance(table, dict):
                yield from _of_one(stem, f"{stem}/{name}", (family, name), table, keys, known)


def _of_one(
    stem: str,
    owner: str,
    path: KeyPath,
    table: Mapping[str, Any],
    keys: Iterable[str],
    known: Container[str],
) -> Iterator[Reference]:
    for key in keys:
        value = table.get(key)
        for place, written in _keys_of(value) if key in KEYED else names_at(value):
            names = pointed_at(written, stem, known)
            yield Reference(owner, (*path, key, *place), key, written, names)


def _keys_of(value: object) -> Iterator[tuple[tuple[str, ...], str]]:
    for name in value if isinstance(value, dict) else ():
        yield (name,), name


def respell(reference: Reference, name: str, file: str, texts: Texts) -> None:
    """Write the name anew where it stands: as a value, or as a key."""
    if reference.key in KEYED:
        path = list(map(str, reference.path))
        texts.rename(file, path, [*path[:-1], name])
    else:
        texts.set(file, reference.path, name)


def names_at(value: object) -> Iterator[tuple[tuple[int, ...], str]]:
    """The texts of a list with their places; a single text stands for a list of one."""
    if isinstance(value, str):
        yield (), value
    elif isinstance(value, list):
        for place, name in enumerate(value):
            if isinstance(name, str):
                yield (place,), name


def relisted(old: object, wanted: Iterable[str], stem: str, known: Container[str]) -> list[str]:
    """A list of names that means `wanted` (ids, or names as written), old spellings kept."""
    left = dict.fromkeys(wanted)
    kept: list[str] = []
    for _, written in names_at(old):
        full = pointed_at(written, stem, known)
        for name in (full, written):
            if name in left:
                kept.append(written)
                del left[name]
                break
    return kept + [shortest(full, stem, known) for full in left]
