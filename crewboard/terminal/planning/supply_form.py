"""The form of a supply."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from crewboard.folder.edit.as_written import written_table
from crewboard.folder.edit.plan_edits import Add, Change, Key, PlanEdit, Remove
from crewboard.folder.read.files import id_from
from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.said import supply_name
from crewboard.plan.plan import Plan
from crewboard.plan.supply import Supply
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.forms.fields import Field, Typed, YesNo
from crewboard.terminal.forms.form import Form
from crewboard.terminal.forms.picked import SomeOf
from crewboard.terminal.forms.reading import (
    A_DAY,
    day,
    needed,
    number,
    span,
    typed_day,
    typed_number,
)
from crewboard.terminal.planning.choices import task_choices
from crewboard.terminal.planning.written import (
    change_here,
    changed_meanwhile,
    take_out_here,
)

TASKS = "~tasks"  # no key of the supplies' file: the tasks' own files name what they need


async def ask_supply(app: BoardApp, supply_id: str) -> str:
    """Edit a supply, or write a new one; its id, empty where it was left."""
    supply = app.board.plan.supplies.get(supply_id)
    kept_as = [supply_id]
    folder = app.workbench.folder
    shown = written_table(folder, "supply", supply_id)

    def keep(answers: Mapping[Key, Any]) -> Sequence[Refusal]:
        values = dict(answers)
        has_tasks, tasks = TASKS in values, values.pop(TASKS, None) or ()
        edits: list[PlanEdit] = []
        if supply is None:
            kept_as[0] = id_from(values["name"], app.board.plan.supplies)
            edits.append(Add("supply", kept_as[0], values))
        elif new := changed_meanwhile(folder, "supply", supply_id, shown, values):
            return new
        elif values:
            edits.append(Change("supply", supply_id, values))
        if has_tasks:
            edits += _for_tasks(app.board.plan, kept_as[0], tasks)
        return change_here(app, edits, "the supplies")

    title = f"Edit: {supply.name}" if supply else "A new supply"
    fields = _fields(app.board, supply)
    if not await app.push_screen_wait(Form(title, fields, keep, whole=supply is None)):
        return ""
    app.tell("saved in supplies.toml")
    return kept_as[0]


async def remove_supply(app: BoardApp, supply_id: str) -> None:
    """Take out a supply that no task needs and the logbook does not name."""
    name = supply_name(app.board.plan, supply_id)
    edit, lines = Remove("supply", supply_id), [f"{name} is removed from supplies.toml."]
    await take_out_here(app, edit, lines, f"removing {name}")


def _needing(plan: Plan, supply_id: str) -> tuple[str, ...]:
    """The tasks, as they are written, that name the supply."""
    return tuple(task.id for task in plan.all_written().values() if supply_id in task.supplies)


def _for_tasks(plan: Plan, supply_id: str, wanted: Sequence[str]) -> list[PlanEdit]:
    """What makes just these tasks name the supply; an amount goes with the name of it."""
    edits: list[PlanEdit] = []
    for task in plan.all_written().values():
        if (task.id in wanted) == (supply_id in task.supplies):
            continue
        values: dict[Key, object] = {"supplies": (*task.supplies, supply_id)}
        if task.id not in wanted:
            values["supplies"] = tuple(one for one in task.supplies if one != supply_id)
            if supply_id in task.amounts:
                left = {one: n for one, n in task.amounts.items() if one != supply_id}
                values["amounts"] = left
        edits.append(Change("task", task.id, values))
    return edits


def _fields(board: Board, supply: Supply | None) -> list[Field]:
    shown = supply or Supply("", "")
    lead = str(shown.lead_time) if shown.lead_time else ""
    return [
        Typed("name", "name", shown.name, needed),
        Typed("quantity", "quantity", shown.quantity, hint="40 boards of 3 m"),
        SomeOf(
            TASKS,
            "for tasks",
            _needing(board.plan, supply.id) if supply else (),
            lambda: task_choices(board),
        ),
        YesNo("in_stock", "in stock", shown.in_stock),
        Typed("lead_time", "lead time", lead, span, "6 weeks"),
        Typed("ordered", "ordered on", typed_day(shown.ordered), day, A_DAY),
        Typed("due", "due on", typed_day(shown.due), day, "2026-06-13"),
        Typed("price", "price", typed_number(shown.price), number),
        Typed("source", "from", shown.source),
        Typed("note", "note", shown.note),
    ]
