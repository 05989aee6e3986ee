"""Edits of the plan carried out in the texts of its files."""

from __future__ import annotations

from collections.abc import Mapping

from crewboard.folder.edit.piece_references import PIECE_LISTS, relisted_pieces
from crewboard.folder.edit.plan_edits import (
    Add,
    CallOff,
    Change,
    Key,
    Move,
    PlanEdit,
    Remove,
    Rename,
    Thing,
    address_of,
)
from crewboard.folder.edit.references import KEYED, pointed_at, relisted, shortest
from crewboard.folder.edit.spelling import as_toml
from crewboard.folder.edit.standing import must_be_free, must_be_known
from crewboard.folder.edit.texts import Texts
from crewboard.folder.toml.meant import exists, value_at
from crewboard.folder.toml.values import Value
from crewboard.logbook.logbook import Logbook
from crewboard.plan.plan import Plan

ORDER = ("after", "during")
_NOTHING: tuple[object, ...] = (None, (), {})  # a key with such a value is taken out


def carry_out(edit: PlanEdit, plan: Plan, logbook: Logbook, texts: Texts) -> None:
    """Make the edit in the texts. Raises CannotChange; then the texts are of no use any more."""
    match edit:
        case Add():
            _add(edit, plan, texts)
        case Change():
            must_be_known(edit.thing, edit.id, plan)
            _set_all(edit.thing, edit.id, edit.values, plan, texts)
        case CallOff():
            from crewboard.folder.edit.calling_off import call_off

            call_off(edit, plan, logbook, texts)
        case Remove():
            from crewboard.folder.edit.removing import remove

            remove(edit, plan, logbook, texts)
        case Move():
            from crewboard.folder.edit.moving import move

            move(edit, plan, logbook, texts)
        case Rename():
            from crewboard.folder.edit.renaming import rename

            rename(edit, plan, logbook, texts)


def _add(edit: Add, plan: Plan, texts: Texts) -> None:
    place = address_of(edit.thing, edit.id)
    must_be_free(edit.id, _taken(edit.thing, plan))
    if edit.thing in ("part", "task", "piece"):
        must_be_known("component", edit.id.partition("/")[0], plan)
    values = {key: value for key, value in edit.values.items() if value not in _NOTHING}
    if place.path:
        first = {
            key: _spelled(edit.thing, edit.id, (key,), None, value, plan)
            for key, value in values.items()
            if isinstance(key, str)
        }
        texts.add(place.file, list(map(str, place.path)), first)
        values = {key: value for key, value in values.items() if not isinstance(key, str)}
    else:
        texts.create(place.file)
    _set_all(edit.thing, edit.id, values, plan, texts)


def _taken(thing: Thing, plan: Plan) -> set[str]:
    match thing:
        case "vehicle":
            return {""}
        case "person":
            return set(plan.crew)
        case "supply":
            return set(plan.supplies)
        case "component" | "part" | "task":
            return plan.order_ids()
        case "piece":
            return {*plan.several, *plan.pieces}
        case "jig":
            return set(plan.vehicle.jigs)


def _set_all(
    thing: Thing, some_id: str, values: Mapping[Key, object], plan: Plan, texts: Texts
) -> None:
    place = address_of(thing, some_id)
    if thing == "piece" and not exists(texts.values(place.file), place.path):
        # One of several, of which nothing was said alone so far.
        said = {str(k): as_toml(v) for k, v in values.items() if v not in _NOTHING}
        texts.add(place.file, list(map(str, place.path)), said)
        return
    for key, value in values.items():
        inner = (key,) if isinstance(key, str) else key
        path = (*place.path, *inner)
        data = texts.values(place.file)
        old = value_at(data, path) if exists(data, path) else None
        if value in _NOTHING:
            if old is not None:
                texts.take_out(place.file, path)
            continue
        spelled = _spelled(thing, some_id, inner, old, value, plan)
        if spelled != [old]:  # after = "frame" says the same as after = ["frame"]
            texts.set(place.file, path, spelled)


def _spelled(
    thing: Thing, some_id: str, key: tuple[str, ...], old: object, value: object, plan: Plan
) -> Value:
    stem = some_id.partition("/")[0]
    if thing in ("component", "part", "task"):
        if key[0] in ORDER:
            assert isinstance(value, tuple | list)
            return relisted(old, value, stem, plan.order_ids())
        if key[0] in PIECE_LISTS:
            assert isinstance(value, tuple | list)
            return relisted_pieces(old, value, stem)
        if key[0] in KEYED and isinstance(value, Mapping):
            return _keyed(old, value, stem, plan)
    if thing in ("component", "part", "task", "piece") and key[0] in ("part", "part_of"):
        return str(value).removeprefix(f"{stem}/")
    return as_toml(value)


def _keyed(old: object, value: Mapping[str, object], stem: str, plan: Plan) -> Value:
    """A table whose keys are ids of tasks, each written as it was or as a person would."""
    known = plan.order_ids()
    names = old if isinstance(old, dict) else {}
    as_written = {pointed_at(name, stem, known): name for name in names}
    return {
        as_written.get(name) or shortest(name, stem, known): as_toml(inner)
        for name, inner in value.items()
    }
