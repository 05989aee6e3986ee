"""A task that goes to another component: its lines move, and every name of it follows."""

from __future__ import annotations

from crewboard.folder.cannot import cannot
from crewboard.folder.edit.piece_references import PIECE_LISTS, piece_names, relisted_pieces
from crewboard.folder.edit.plan_edits import Move, address_of
from crewboard.folder.edit.references import (
    KEYED,
    names_at,
    pointed_at,
    references,
    relisted,
    respell,
    shortest,
)
from crewboard.folder.edit.standing import must_be_free, must_be_known, must_be_unwritten
from crewboard.folder.edit.texts import Texts
from crewboard.folder.read.files import component_path
from crewboard.folder.toml.meant import value_at
from crewboard.folder.toml.values import Value
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
    table = dict(value_at(texts.values(old.file), old.path))
    said = _said_there(edit, table, plan)
    _rename_elsewhere(edit, plan, texts)
    texts.take_out(old.file, old.path)
    texts.add(new.file, list(map(str, new.path)), said)


def _said_there(edit: Move, table: dict[str, Value], plan: Plan) -> dict[str, Value]:
    """The task's table as the other file has to say it: what was a bare name here is none there."""
    here, (there, _, part) = edit.id.partition("/")[0], edit.to.partition("/")
    known = plan.order_ids()
    said: dict[str, Value] = {}
    for key, value in table.items():
        if key in ("after", "during"):
            meant = [pointed_at(name, here, known) or name for _, name in names_at(value)]
            said[key] = relisted(None, meant, there, known)
        elif key in PIECE_LISTS:
            values = {"tasks": {edit.id.partition("/")[2]: {key: value}}}
            named = [
                _full_piece(name.written, here, plan) for name in piece_names(here, values, plan)
            ]
            said[key] = relisted_pieces(None, named, there)
        elif key in KEYED and isinstance(value, dict):
            said[key] = {
                shortest(pointed_at(name, here, known) or name, there, known): inner
                for name, inner in value.items()
            }
        elif key != "part":
            said[key] = value
    return said | ({"part": part} if part else {})


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
