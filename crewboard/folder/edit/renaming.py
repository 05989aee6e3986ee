"""Another short name for something of the plan, everywhere in the plan."""

from __future__ import annotations

from crewboard.folder.cannot import cannot
from crewboard.folder.edit.plan_edits import Rename, address_of
from crewboard.folder.edit.references import references
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
        for each in list(references(component.id, texts.values(file), known)):
            if each.written == old or each.written.startswith(f"{old}/"):
                if each.names == each.written:
                    texts.set(file, each.path, new + each.written.removeprefix(old))
            elif each.names == old:
                texts.set(file, each.path, new.rpartition("/")[2])


def _in_tasks(old: str, new: str, plan: Plan, texts: Texts) -> None:
    for task in plan.tasks.values():
        if old in task.supplies:
            place = address_of("task", task.id)
            path = (*place.path, "supplies")
            written = value_at(texts.values(place.file), path)
            names = [new if each == old else each for each in written]
            texts.set(place.file, path, new if isinstance(written, str) else names)
        if old in task.amounts:
            amounts = {new if each == old else each: n for each, n in task.amounts.items()}
            texts.set(place.file, (*place.path, "amounts"), amounts)
