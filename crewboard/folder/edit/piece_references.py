"""Names of pieces and of their tasks in the component files, written anew where a table of pieces
gets another short name; and a list of pieces spelled as a person would."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, NamedTuple

from crewboard.folder.edit.references import names_at, references, respell
from crewboard.folder.edit.texts import Texts
from crewboard.folder.read.fault import KeyPath
from crewboard.folder.read.files import component_path
from crewboard.plan.piece import pieces_named
from crewboard.plan.plan import Plan

PIECE_LISTS = ("each", "pieces")


class PieceName(NamedTuple):
    """A name in a task's `each` or `pieces`: "ribs", "ribs 1 to 9", "roof/ribs/3"."""

    task: str  # the id of the task as it is written
    path: KeyPath
    written: str
    pieces: tuple[str, ...]  # the ids that it stands for
    is_table: bool  # whether it names all of a kind, however many they are


def piece_names(stem: str, values: Mapping[str, Any], plan: Plan) -> Iterator[PieceName]:
    """All names of pieces in one component's file."""
    tasks = values.get("tasks")
    for name, table in tasks.items() if isinstance(tasks, dict) else ():
        for key in PIECE_LISTS if isinstance(table, dict) else ():
            for place, written in names_at(table.get(key)):
                named = pieces_named(written, stem, plan.pieces, plan.several)
                is_table = f"{stem}/{written}" in plan.several or written in plan.several
                path = ("tasks", name, key, *place)
                yield PieceName(f"{stem}/{name}", path, written, named, is_table)


def names_of_pieces(plan: Plan, texts: Texts) -> Iterator[tuple[str, PieceName]]:
    """All names of pieces in the folder, each with its file."""
    for component in plan.components.values():
        if not component.part_of:
            file = component_path(component.id)
            for name in list(piece_names(component.id, texts.values(file), plan)):
                yield file, name


def rename_pieces(old: str, new: str, plan: Plan, texts: Texts) -> None:
    """`old` is a table of pieces or a component with all of its own: full names stay full, bare
    names bare, and what names a task by its piece follows."""
    inside = (old, f"{old}/")
    for file, name in list(names_of_pieces(plan, texts)):
        if name.pieces and all(p == old or p.startswith(inside[1]) for p in name.pieces):
            stem = file.rpartition("/")[2].removesuffix(".toml")
            texts.set(file, name.path, _renamed(name.written, stem, old, new))
    if "/" in old:
        _rename_in_order(old, new, plan, texts)


def _renamed(written: str, stem: str, old: str, new: str) -> str:
    """The full form is looked at last, as it is when the name is read."""
    own = f"{stem}/"
    forms = [(old.removeprefix(own), new.removeprefix(own))] if old.startswith(own) else []
    for before, after in (*forms, (old, new)):
        rest = written.removeprefix(before)
        if rest != written and rest[:1] in ("", "/", " "):
            return after + rest
    return written


def _rename_in_order(old: str, new: str, plan: Plan, texts: Texts) -> None:
    """ "fit/ribs/3" in `after` names the task that is done to one piece."""
    known = plan.order_ids()
    for component in plan.components.values():
        if component.part_of:
            continue
        file = component_path(component.id)
        for reference in list(references(component.id, texts.values(file), known)):
            task = plan.tasks.get(reference.names)
            if task is None or not task.series:
                continue
            piece = plan.pieces[task.pieces[0]]
            if piece.id == old or piece.several == old:
                renamed = new.partition("/")[2] + piece.short.removeprefix(old.partition("/")[2])
                spelled = reference.written.removesuffix(piece.short) + renamed
                respell(reference, spelled, file, texts)


def relisted_pieces(old: object, wanted: Iterable[str], stem: str) -> list[str]:
    """A list of names of pieces: what stays is written as it was, what is new as short as a person
    would. `wanted` are full ids of pieces and tables, or names as they were written."""
    left = dict.fromkeys(wanted)
    kept: list[str] = []
    for _, written in names_at(old):
        for name in (f"{stem}/{written}", written):
            if name in left:
                kept.append(written)
                del left[name]
                break
    return kept + [name.removeprefix(f"{stem}/") for name in left]
