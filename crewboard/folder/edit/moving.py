"""A task that goes to another component: its lines move, and every name of it follows."""

from __future__ import annotations

from crewboard.folder.cannot import cannot
from crewboard.folder.edit.piece_references import PIECE_LISTS
from crewboard.folder.edit.plan_edits import Move, address_of
from crewboard.folder.edit.references import (
    KEYED,
    names_at,
    pointed_at,
    references,
    respell,
    shortest,
)
from crewboard.folder.edit.standing import must_be_free, must_be_known, must_be_unwritten
from crewboard.folder.edit.texts import Texts
from crewboard.folder.read.files import component_path
from crewboard.folder.toml.meant import value_at
from crewboard.logbook.logbook import Logbook
from crewboard.plan.plan import Plan


def move(edit: Move, plan: Plan, logbook: Logbook, texts: Texts) -> None:
    """Take the task out of its file and write it into the other. Raises CannotChange, also where
    the logbook names it: a line of the logbook is never changed."""
    must_be_known("task", edit.id, plan)
    if edit.to not in plan.components:
        raise cannot("unknown-component", f'there is no component "{edit.to}"')
    must_be_free(edit.new_id, plan.order_ids())
    must_be_unwritten("task", edit.id, logbook, "set it aside here, and write a new one there")
    old, new = address_of("task", edit.id), address_of("task", edit.new_id)
    _rename_elsewhere(edit, plan, texts)
    texts.carry(old.file, old.path, new.file)
    _respell(edit, plan, texts)


def _respell(edit: Move, plan: Plan, texts: Texts) -> None:
    """What the task's lines name is named as their new file has to say it: what was a bare name in
    the old one is none there."""
    here, (there, _, part) = edit.id.partition("/")[0], edit.to.partition("/")
    place, known = address_of("task", edit.new_id), plan.order_ids()
    table = value_at(texts.values(place.file), place.path)
    for key in ("after", "during"):
        for at, name in names_at(table.get(key)):
            meant = pointed_at(name, here, known) or name
            texts.set(place.file, (*place.path, key, *at), shortest(meant, there, known))
    for key in PIECE_LISTS:
        for at, name in names_at(table.get(key)):
            meant = _full_piece(name, here, plan).removeprefix(f"{there}/")
            texts.set(place.file, (*place.path, key, *at), meant)
    for key in KEYED:
        inner = table.get(key)
        for name in inner if isinstance(inner, dict) else ():
            meant = shortest(pointed_at(name, here, known) or name, there, known)
            path = [*map(str, place.path), key]
            texts.rename(place.file, [*path, name], [*path, meant])
    if part:
        texts.set(place.file, (*place.path, "part"), part)
    elif "part" in table:
        texts.take_out(place.file, (*place.path, "part"))


def _full_piece(written: str, stem: str, plan: Plan) -> str:
    """ "ribs 1 to 9" of the file `stem` as any other file says it."""
    first = written.partition(" ")[0]
    own = f"{stem}/{first}"
    is_own = own in plan.several or own in plan.pieces
    return f"{stem}/{written}" if is_own else written


def _rename_elsewhere(edit: Move, plan: Plan, texts: Texts) -> None:
    """What names the task, or what is done to one piece by it, names it where it is then."""
    known = (plan.order_ids() - {edit.id}) | {edit.new_id}
    for component in plan.components.values():
        if component.part_of:
            continue
        file = component_path(component.id)
        for reference in list(references(component.id, texts.values(file), plan.order_ids())):
            inside = reference.names == edit.id or reference.names.startswith(f"{edit.id}/")
            if inside and reference.owner != edit.id:
                name = edit.new_id + reference.names.removeprefix(edit.id)
                respell(reference, shortest(name, component.id, known | {name}), file, texts)
