"""Another short name for a thing of the plan, wherever the plan names it."""

from __future__ import annotations

from crewboard.folder.cannot import cannot
from crewboard.folder.edit.piece_references import rename_pieces
from crewboard.folder.edit.plan_edits import Rename, address_of
from crewboard.folder.edit.references import Reference, names_at, references, respell
from crewboard.folder.edit.standing import must_be_free, must_be_known, must_be_unwritten
from crewboard.folder.edit.texts import Texts
from crewboard.folder.read.files import CREW, component_path
from crewboard.folder.toml.meant import value_at
from crewboard.logbook.logbook import Logbook
from crewboard.plan.plan import Plan

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
            must_be_free(new, plan.order_ids())
            must_be_unwritten(edit.thing, edit.id, logbook, instead)
            _in_components(edit.id, new, plan, texts)
            if edit.thing == "component":
                rename_pieces(edit.id, new, plan, texts)
        case "piece":
            if edit.id not in plan.several and plan.pieces[edit.id].several:
                sentence = "one of several is known by its number"
                raise cannot("numbered", sentence, "change its name instead")
            must_be_free(new, {*plan.several, *plan.pieces})
            must_be_unwritten(edit.thing, edit.id, logbook, instead)
            rename_pieces(edit.id, new, plan, texts)
        case "jig":
            must_be_free(new, plan.vehicle.jigs)
            _in_tasks("uses", edit.id, new, plan, texts)
        case "person":
            must_be_free(new, plan.crew)
            must_be_unwritten(edit.thing, edit.id, logbook, instead)
            for person in plan.crew.values():
                if person.needs_beside == edit.id:
                    texts.set(CREW, ("people", person.id, "needs_beside"), new)
        case "supply":
            must_be_free(new, plan.supplies)
            must_be_unwritten(edit.thing, edit.id, logbook, instead)
            _in_tasks("supplies", edit.id, new, plan, texts)
            _amounts(edit.id, new, plan, texts)
    old_place, new_place = address_of(edit.thing, edit.id), address_of(edit.thing, new)
    if old_place.path:
        texts.rename(old_place.file, list(map(str, old_place.path)), list(map(str, new_place.path)))
    else:
        texts.move(old_place.file, new_place.file)


def _in_components(old: str, new: str, plan: Plan, texts: Texts) -> None:
    """Full names stay full, bare names bare."""
    known = plan.order_ids()
    for component in plan.components.values():
        if component.part_of:
            continue
        file = component_path(component.id)
        for reference in list(references(component.id, texts.values(file), known)):
            name = _renamed(reference, component.id, old, new)
            if name != reference.written:
                respell(reference, name, file, texts)


def _renamed(reference: Reference, stem: str, old: str, new: str) -> str:
    """Also a name of what lies below the old one: a task of the component, one of a series."""
    written, own = reference.written, f"{stem}/"
    before, after = old, new
    if reference.names != written:  # a bare name
        if not old.startswith(own) or not reference.names:
            return written
        before, after = old.removeprefix(own), new.removeprefix(own)
    if written == before or written.startswith(f"{before}/"):
        return after + written.removeprefix(before)
    return written


def _in_tasks(key: str, old: str, new: str, plan: Plan, texts: Texts) -> None:
    """A list of a task that names supplies or jigs."""
    for task in plan.all_written().values():
        if old in getattr(task, key):
            place = address_of("task", task.id)
            path = (*place.path, key)
            written = value_at(texts.values(place.file), path)
            names = [new if name == old else name for _, name in names_at(written)]
            texts.set(place.file, path, new if isinstance(written, str) else names)


def _amounts(old: str, new: str, plan: Plan, texts: Texts) -> None:
    for task in plan.all_written().values():
        if old in task.amounts:
            place = address_of("task", task.id)
            amounts = {new if supply == old else supply: n for supply, n in task.amounts.items()}
            texts.set(place.file, (*place.path, "amounts"), amounts)
