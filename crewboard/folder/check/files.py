"""Files that are not where they should be: pictures, lost links, files with no place here."""

from __future__ import annotations

import os
from collections.abc import Iterator

from crewboard.folder.edit.as_written import written_table
from crewboard.folder.edit.plan_edits import address_of
from crewboard.folder.edit.references import names_at
from crewboard.folder.read.copies import FOLD, copy_in_words, same_but_for_capitals
from crewboard.folder.read.fault import Fault, KeyPath, Remark, brief, nearest
from crewboard.folder.read.files import (
    COMPONENTS,
    DAYS,
    ONE_OF_A_KIND,
    component_path,
    file_of,
    key_path,
    month_of,
    role_of,
)
from crewboard.folder.read.folder import Folder
from crewboard.folder.read.own_file import wrong_file
from crewboard.logbook.logged import NotARow, parse_row


def pictures(folder: Folder) -> Iterator[Remark]:
    """Pictures that are missing, or that lead out of the folder, also through a link."""
    plan = folder.plan
    root = os.fspath(folder.root)
    named = [(c.id, c.pictures) for c in plan.components.values()]
    named += [(task.id, task.pictures) for task in plan.all_written().values()]
    placed = [(owner, key_path(owner, plan.components), names) for owner, names in named]
    for owner, table, names in [*placed, *_of_pieces(folder)]:
        for number, name in enumerate(names):
            if (wrong := wrong_file(root, name)) is not None:
                path: KeyPath = (*table, "pictures", number)
                yield Remark(file_of(owner), path, "picture", *wrong)


def _of_pieces(folder: Folder) -> Iterator[tuple[str, KeyPath, tuple[str, ...]]]:
    """The pictures that each table of pieces names, and each of several for itself."""
    plan = folder.plan
    for some_id in dict.fromkeys(p.several or p.id for p in plan.pieces.values() if p.pictures):
        path = address_of("piece", some_id).path
        table = written_table(folder, "piece", some_id)
        yield some_id, path, tuple(name for _, name in names_at(table.get("pictures")))
        for number, own in table.items():
            if isinstance(own, dict):
                names = tuple(name for _, name in names_at(own.get("pictures")))
                yield some_id, (*path, number), names


def lost_links(folder: Folder) -> Iterator[Remark]:
    """Links named like our files that lead to no file: to nowhere, or in a circle."""
    for path in _toml_files(folder):
        full = folder.path(path)
        if os.path.islink(full) and not os.path.exists(full):
            hint = "delete it, or mend where it leads"
            yield Remark(path, (), "lost-link", "the link leads nowhere", hint)


def odd_files(folder: Folder) -> Iterator[Remark]:
    """TOML files beside ours that nothing reads: a name typed wrongly, most likely."""
    copies = folder.plan_copies
    for path in _toml_files(folder):
        place = path.rpartition("/")[0]
        if role_of(path) != "other" or (place and not f"{place}/".startswith(COMPONENTS)):
            continue
        if path in copies:
            continue
        near = nearest(path, ONE_OF_A_KIND) if not place else ""
        hint = near if near.startswith("did") else "components stand right in components/"
        yield Remark(path, (), "odd-file", "nothing reads this file", hint)


def copies_of_the_plan(folder: Folder) -> Iterator[Remark]:
    """Copies of the plan's files, and names that differ only in capital letters."""
    copies = folder.plan_copies
    for path, original in copies.items():
        yield Remark(path, (), "copy", copy_in_words(path, original), FOLD)
    for stem, first in same_but_for_capitals(folder.component_files).items():
        path, other = component_path(stem), component_path(first)
        if path not in copies:
            sentence = f"on many computers this is the same file as {other}"
            hint = f"give it another name: crewboard fold DIR {path} --as NAME"
            yield Remark(path, (), "capitals", sentence, hint)


def odd_rows(folder: Folder) -> Iterator[Fault]:
    """Lines of the data logger's months that are no rows: they are passed over."""
    for path in folder.paths("readings"):
        for number, line in enumerate(folder.data(path).decode("utf-8", "replace").splitlines(), 1):
            sentence = "" if not line.strip() or line.startswith("#") else _wrong_row(path, line)
            if sentence:
                yield Fault(path, number, 1, "no-row", brief(sentence), "mend it, or remove it")


def _wrong_row(path: str, line: str) -> str:
    try:
        return "" if f"{parse_row(line).at:%Y-%m}" == month_of(path) else "of another month"
    except NotARow as error:
        return str(error)


def copies_aside(folder: Folder) -> Iterator[Remark]:
    """Copies of day files under names that are not read: an editor's or a sync tool's own."""
    from crewboard.folder.disk.conflicts import conflict_copies

    read = {*folder.paths("stray"), *folder.paths("day")}
    for copy in conflict_copies(folder.path(DAYS)):
        path = os.path.relpath(copy.path, folder.root).replace(os.sep, "/")
        if path not in read:
            sentence = f"this may be another copy of the day {copy.date}"
            hint = "crewboard fold shows what only it has"
            yield Remark(path, (), "copy-aside", sentence, hint)


def _toml_files(folder: Folder) -> Iterator[str]:
    """Names ending in .toml, by path relative to the folder; links to folders are not followed."""
    ahead = [""]
    while ahead:
        prefix = ahead.pop()
        try:
            with os.scandir(folder.path(prefix)) as entries:
                for entry in entries:
                    if entry.name.startswith("."):
                        continue
                    if entry.is_dir(follow_symlinks=False):
                        ahead.append(f"{prefix}{entry.name}/")
                    elif entry.name.lower().endswith(".toml"):
                        yield prefix + entry.name
        except OSError:
            continue
