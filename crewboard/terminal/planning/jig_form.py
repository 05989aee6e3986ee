"""The shop's jigs, forms and stands: a line in the settings, and the form of one of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from crewboard.folder.edit.as_written import written_table
from crewboard.folder.edit.plan_edits import Add, Change, Key, PlanEdit, Remove
from crewboard.folder.read.files import id_from
from crewboard.order.admit.refusal import Refusal
from crewboard.plan.vehicle import Jig
from crewboard.telling.line import Line
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.pick import Choice, PickOne
from crewboard.terminal.forms.fields import Field, FieldLine, Shown, Typed
from crewboard.terminal.forms.form import Form
from crewboard.terminal.forms.picked import NEW
from crewboard.terminal.forms.reading import count, needed
from crewboard.terminal.planning import choices
from crewboard.terminal.planning.written import change_here, changed_meanwhile, take_out_here

_REMOVE = "~remove"


class Jigs(Shown):
    """The jigs that there are; Enter edits one or adds another, which is saved at once."""

    def __init__(self, app: BoardApp) -> None:
        super().__init__("jigs", "jigs", ())
        self.app = app

    def shown(self) -> str:
        return ", ".join(jig.name for jig in self.app.board.plan.vehicle.jigs.values())

    async def change(self, line: FieldLine) -> None:  # noqa: ARG002
        listed = choices.jig_choices(self.app.board)
        picked = await self.app.push_screen_wait(
            PickOne("Jigs, forms and stands", [*listed, Choice(NEW, "another jig ...")])
        )
        if picked == NEW:
            await edit_jig(self.app, "")
        elif picked is not None:
            name = self.app.board.plan.vehicle.jigs[picked].name
            ways = [Choice(picked, "edit"), Choice(_REMOVE, "remove", "from the plan")]
            way = await self.app.push_screen_wait(PickOne(name, ways))
            if way == _REMOVE:
                await _remove_jig(self.app, picked, name)
            elif way is not None:
                await edit_jig(self.app, picked)


async def edit_jig(app: BoardApp, jig_id: str) -> None:
    """Edit a jig, or write a new one where the id is empty."""
    jigs = app.board.plan.vehicle.jigs
    jig = jigs.get(jig_id)
    folder = app.workbench.folder
    shown = written_table(folder, "jig", jig_id) if jig else {}

    def keep(answers: Mapping[Key, Any]) -> Sequence[Refusal]:
        edit: PlanEdit
        if jig is None:
            edit = Add("jig", id_from(answers["name"], app.board.plan.vehicle.jigs), answers)
        elif new := changed_meanwhile(folder, "jig", jig_id, shown, answers):
            return new
        else:
            edit = Change("jig", jig_id, answers)
        return change_here(app, [edit], "the shop's jigs")

    title = f"Edit: {jig.name}" if jig else "A new jig, form or stand"
    if await app.push_screen_wait(Form(title, _fields(jig), keep, whole=jig is None)):
        app.tell("saved in vehicle.toml")


def _fields(jig: Jig | None) -> list[Field]:
    number = str(jig.number) if jig and jig.number > 1 else ""
    return [
        Typed("name", "name", jig.name if jig else "", needed, "bending form"),
        Typed("count", "how many", number, count, "empty: one"),
        Typed("kept", "kept", jig.kept if jig else "", hint="the loft"),
    ]


async def _remove_jig(app: BoardApp, jig_id: str, name: str) -> None:
    line = Line(f'"{name}" is removed from vehicle.toml. u puts it back.', "warning")
    await take_out_here(app, Remove("jig", jig_id), [line], f'removing "{name}"')
