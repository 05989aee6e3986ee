"""Copies of the plan's files, and names that only their capitals keep from being read."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from typing import Any

from crewboard.folder.cannot import CannotChange, CannotFold
from crewboard.folder.disk.read import read_file
from crewboard.folder.edit.fold_days import day_steps
from crewboard.folder.edit.fold_steps import (
    FoldAsked,
    FoldedCopy,
    FoldStep,
    Write,
    moved,
    put_instead,
    unread,
)
from crewboard.folder.edit.plan_edits import Rename
from crewboard.folder.read.files import COMPONENTS, DAYS, READINGS, component_path, is_id
from crewboard.folder.read.folder import Folder
from crewboard.folder.toml.decode import parse_toml
from crewboard.folder.toml.meant import same
from crewboard.folder.toml.text import BrokenText


def plan_steps(root: str) -> Iterator[FoldStep]:
    """What becomes of each copy where nobody has to be asked: one that says the same goes, one
    whose original is not there takes its place, one that says otherwise stays."""
    yield from _folder_steps(root)
    for path, original in Folder(root).plan_copies.items():
        yield from _read_step(root, path, original)


def one_of_the_plan(root: str, path: str, data: bytes, asked: FoldAsked) -> FoldStep:
    """What becomes of one file. Raises CannotFold."""
    folder = Folder(root)
    if asked.name:
        return _component_of_its_own(folder, path, asked.name, data)
    original = folder.plan_copies.get(path, "")
    if not original:
        hint = "name a copy, or say --aside, --as NAME or --day DATE"
        raise CannotFold(f'"{path}" is not known as a copy of another file; {hint}')
    if asked.instead:
        return put_instead(root, path, original, data)
    return _step(root, path, original, data)


def _folder_steps(root: str) -> Iterator[FoldStep]:
    """Folders that only their capitals keep from being read: renamed where there is none of the
    right name, otherwise what is in them goes there."""
    for name in sorted(os.listdir(root)):
        right = f"{name.lower()}/"
        if name == name.lower() or right not in (COMPONENTS, DAYS, READINGS):
            continue
        if not os.path.isdir(os.path.join(root, name)):
            continue
        here, there = os.path.join(root, name), os.path.join(root, right)
        if not os.path.lexists(there) or os.path.samefile(here, there):
            yield FoldStep(FoldedCopy(f"{name}/", right, does="moved"), renamed=True)
        elif right == DAYS:
            yield from day_steps(root, name)
        else:
            yield from _into(root, name, right)


def _into(root: str, folder: str, right: str) -> Iterator[FoldStep]:
    for name in sorted(os.listdir(os.path.join(root, folder))):
        path = f"{folder}/{name}"
        if os.path.isfile(os.path.join(root, path)):
            yield from _read_step(root, path, right + name)


def _read_step(root: str, path: str, original: str) -> Iterator[FoldStep]:
    try:
        data = read_file(os.path.join(root, path))
        if data is not None:
            yield _step(root, path, original, data)
    except OSError as error:
        yield unread(path, original, error)


def _step(root: str, path: str, original: str, data: bytes) -> FoldStep:
    result = FoldedCopy(path, original)
    if _same_file(root, path, original):
        return FoldStep(result._replace(does="moved"), renamed=True)
    before = read_file(os.path.join(root, original))
    if before is None or not before.strip():
        return moved(path, original, before, data)
    ours, theirs = parse_toml(before), parse_toml(data)
    if isinstance(theirs, BrokenText):
        return FoldStep(result._replace(cannot=f"it cannot be read: {theirs.sentence}"))
    if isinstance(ours, BrokenText):
        return FoldStep(result._replace(cannot=f"{original} cannot be read: {ours.sentence}"))
    otherwise = tuple(_otherwise(ours, theirs))
    if otherwise:
        return FoldStep(result._replace(clashing=otherwise))
    return FoldStep(result._replace(does="the same"), (Write(path, data, None),))


def _otherwise(ours: Mapping[str, Any], theirs: Mapping[str, Any]) -> Iterator[str]:
    """Where the two say different things: "name", "tasks.lay"."""
    for key in dict.fromkeys((*ours, *theirs)):
        one, other = ours.get(key), theirs.get(key)
        if isinstance(one, dict) and isinstance(other, dict):
            inner = dict.fromkeys((*one, *other))
            yield from (f"{key}.{k}" for k in inner if not same(one.get(k), other.get(k)))
        elif not same(one, other):
            yield key


def _component_of_its_own(folder: Folder, path: str, name: str, data: bytes) -> FoldStep:
    """The file is no copy but another component: it gets that short name, everywhere."""
    stem = path.removeprefix(COMPONENTS).removesuffix(".toml")
    if not path.startswith(COMPONENTS):
        raise CannotFold(f'"{path}" does not lie among the components')
    if not is_id(name):
        raise CannotFold(f'"{name}" cannot name a component; use letters, digits and hyphens')
    taken = {other.casefold() for other in folder.plan.components} - {stem.casefold()}
    if name.casefold() in taken:
        raise CannotFold(f'there is a component "{name}" already')
    if stem in folder.plan.components:
        return _renamed(folder, stem, name)
    step = moved(path, component_path(name), None, _with_own_name(folder, name, data))
    return step._replace(writes=(step.writes[0], Write(path, data, None)))


def _with_own_name(folder: Folder, stem: str, data: bytes) -> bytes:
    """Without the name of another component, by which it would be taken for a copy again."""
    from crewboard.folder.toml.edit import set_value

    values = parse_toml(data)
    names = {component.name for component in folder.plan.components.values()}
    if isinstance(values, BrokenText) or values.get("name") not in names:
        return data
    words = stem.replace("-", " ").replace("_", " ")
    return set_value(data.decode(), ("name",), words[:1].upper() + words[1:]).encode()


def _renamed(folder: Folder, stem: str, name: str) -> FoldStep:
    from crewboard.folder.edit.change import file_changes

    try:
        changes = file_changes(folder, [Rename("component", stem, name)])
    except CannotChange as cannot:
        raise CannotFold(str(cannot)) from None
    writes = tuple(
        Write(change.path_in(folder.root), change.before, change.after) for change in changes
    )
    return FoldStep(FoldedCopy(component_path(stem), component_path(name), does="moved"), writes)


def _same_file(root: str, path: str, original: str) -> bool:
    """Where capital letters make no difference, both names are one file."""
    try:
        return os.path.samefile(os.path.join(root, path), os.path.join(root, original))
    except OSError:
        return False
