"""Edits of the plan, said in the plan's terms (`carry_out` makes them in the files' texts).

`values` use the files' own keys (a tuple leads into a table: ("hold", "lasts")) with the plan's
own types; what comes before is said by full ids and written as short as a person would.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Literal, NamedTuple

from crewboard.folder.read.fault import KeyPath
from crewboard.folder.read.files import CREW, SUPPLIES, VEHICLE, component_path
from crewboard.plan.plan import Plan

Thing = Literal["vehicle", "component", "part", "task", "piece", "jig", "person", "supply"]
Key = str | tuple[str, ...]


class Add(NamedTuple):
    """Something new: `id` is full ("deck/lay-boards"), of the vehicle there is only one."""

    thing: Thing
    id: str
    values: Mapping[Key, object]


class Change(NamedTuple):
    """Other values; None takes a key away, keys that are not named stay as they are."""

    thing: Thing
    id: str
    values: Mapping[Key, object]


class Remove(NamedTuple):
    """Take it out. Tasks that came after a removed task come after what that one came after."""

    thing: Thing
    id: str


class Rename(NamedTuple):
    """Another short name, everywhere in the plan. `to` is the name without its component."""

    thing: Thing
    id: str
    to: str


class Move(NamedTuple):
    """A task to another component: `to` is the full id of a main component or a part."""

    id: str
    to: str

    @property
    def thing(self) -> Thing:
        return "task"

    @property
    def new_id(self) -> str:
        """Its id afterwards; a part's tasks are known by the main component."""
        return f"{self.to.partition('/')[0]}/{self.id.partition('/')[2]}"


class CallOff(NamedTuple):
    """The crew does not meet on that work day, and why; `why` None: it meets after all."""

    day: date
    why: str | None


PlanEdit = Add | Change | Remove | Rename | Move | CallOff


def dated(edits: Sequence[PlanEdit], day: date) -> list[PlanEdit]:
    """The edits, with the day on which they came for the tasks among them that are new."""
    return [
        edit._replace(values={**edit.values, "added": edit.values.get("added", day)})
        if isinstance(edit, Add) and edit.thing == "task"
        else edit
        for edit in edits
    ]


class Address(NamedTuple):
    """The file and the key path at which something stands."""

    file: str
    path: KeyPath


def address_of(thing: Thing, some_id: str) -> Address:
    """Where something of the plan stands, or would stand."""
    stem, _, name = some_id.partition("/")
    match thing:
        case "vehicle":
            return Address(VEHICLE, ())
        case "person":
            return Address(CREW, ("people", some_id))
        case "supply":
            return Address(SUPPLIES, ("supplies", some_id))
        case "component":
            return Address(component_path(stem), ())
        case "part":
            return Address(component_path(stem), ("parts", name))
        case "task":
            return Address(component_path(stem), ("tasks", name))
        case "piece":  # "roof/ribs" is the table, "roof/ribs/3" what is said of one of them alone
            return Address(component_path(stem), ("pieces", *name.split("/")))
        case "jig":
            return Address(VEHICLE, ("jigs", some_id))


def all_of(thing: Thing, plan: Plan) -> Mapping[str, object]:
    """Everything of that kind, by id."""
    match thing:
        case "vehicle":
            return {"": plan.vehicle}
        case "component":
            return {c.id: c for c in plan.components.values() if not c.part_of}
        case "part":
            return {c.id: c for c in plan.components.values() if c.part_of}
        case "task":
            return plan.all_written()
        case "piece":
            return {**plan.several, **plan.pieces}
        case "jig":
            return plan.vehicle.jigs
        case "person":
            return plan.crew
        case "supply":
            return plan.supplies
