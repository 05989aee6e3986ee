"""Names that point at components, parts and tasks: found, spelled, and written anew where a thing
of the plan gets another short name."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Mapping
from typing import Any, NamedTuple

from crewboard.folder.cannot import cannot
from crewboard.folder.edit.plan_edits import Rename, address_of
from crewboard.folder.edit.standing import must_be_free, must_be_known, must_be_unwritten
from crewboard.folder.edit.texts import Texts
from crewboard.folder.read.fault import KeyPath
from crewboard.folder.read.files import CREW, component_path
from crewboard.folder.toml.meant import value_at
from crewboard.logbook.logbook import Logbook
from crewboard.plan.plan import Plan


class Reference(NamedTuple):
    """One written name. `owner` is the id of what it stands in; `names` the id it points at."""

    owner: str
    path: KeyPath
    key: str  # "after", "during", "part" or "part_of"
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


def references(stem: str, values: Mapping[str, Any], known: Container[str]) -> Iterator[Reference]:
    """All names in one component's file, in its order. `known` are the ids there are."""
    yield from _of_one(stem, stem, (), values, ("after",), known)
    for family, keys in (("parts", ("after", "part_of")), ("tasks", ("after", "during", "part"))):
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
        for place, written in names_at(table.get(key)):
            names = pointed_at(written, stem, known)
            yield Reference(owner, (*path, key, *place), key, written, names)


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


_INSTEAD = {"task": "change its title instead"}


def rename(edit: Rename, plan: Plan, logbook: Logbook, texts: Texts) -> None:
    """Rename it and every name that points at it. Raises CannotChange, also where the logbook
    names it: a line of the logbook is never changed."""
    must_be_known(edit.thing, edit.id, plan)
    stem, slash, _ = edit.id.partition("/")
    new = f"{stem}/{edit.to}" if slash else edit.to
    instead = _INSTEAD.get(edit.thing, "change its name instead: the short name stays")
    match edit.thing:
        case "vehicle":
            raise cannot("vehicle", "the vehicle has no short name", "change its name instead")
        case "component" | "part" | "task":
            must_be_free(new, {*plan.components, *plan.tasks})
            must_be_unwritten(edit.thing, edit.id, logbook, instead)
            _in_components(edit.id, new, plan, texts)
        case "person":
            must_be_free(new, plan.crew)
            must_be_unwritten(edit.thing, edit.id, logbook, instead)
            for person in plan.crew.values():
                if person.needs_beside == edit.id:
                    texts.set(CREW, ("people", person.id, "needs_beside"), new)
        case "supply":
            must_be_free(new, plan.supplies)
            must_be_unwritten(edit.thing, edit.id, logbook, instead)
            _in_tasks(edit.id, new, plan, texts)
    old_place, new_place = address_of(edit.thing, edit.id), address_of(edit.thing, new)
    if old_place.path:
        texts.rename(old_place.file, list(map(str, old_place.path)), list(map(str, new_place.path)))
    else:
        texts.move(old_place.file, new_place.file)


def _in_components(old: str, new: str, plan: Plan, texts: Texts) -> None:
    """Full names stay full, bare names bare."""
    known = plan.components.keys() | plan.tasks.keys()
    for component in plan.components.values():
        if component.part_of:
            continue
        file = component_path(component.id)
        for reference in list(references(component.id, texts.values(file), known)):
            if reference.written == old or reference.written.startswith(f"{old}/"):
                if reference.names == reference.written:
                    texts.set(file, reference.path, new + reference.written.removeprefix(old))
            elif reference.names == old:
                texts.set(file, reference.path, new.rpartition("/")[2])


def _in_tasks(old: str, new: str, plan: Plan, texts: Texts) -> None:
    for task in plan.tasks.values():
        if old in task.supplies:
            place = address_of("task", task.id)
            path = (*place.path, "supplies")
            written = value_at(texts.values(place.file), path)
            names = [new if supply == old else supply for supply in written]
            texts.set(place.file, path, new if isinstance(written, str) else names)
        if old in task.amounts:
            amounts = {new if supply == old else supply: n for supply, n in task.amounts.items()}
            texts.set(place.file, (*place.path, "amounts"), amounts)
