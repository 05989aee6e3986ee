"""The form of a main component or of a part, new or standing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from crewboard.folder.edit.as_written import written_table
from crewboard.folder.edit.plan_edits import Add, Change, Key, PlanEdit, Rename, Thing
from crewboard.folder.read.files import id_from
from crewboard.order.admit.refusal import Refusal
from crewboard.order.said import component_name
from crewboard.plan.component import Component
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.forms.fields import Field, Typed
from crewboard.terminal.forms.form import Form
from crewboard.terminal.forms.longer import Longer
from crewboard.terminal.forms.picked import OneOf, SomeOf
from crewboard.terminal.forms.reading import needed, words
from crewboard.terminal.planning import choices
from crewboard.terminal.planning.written import (
    NAME,
    change_here,
    changed_meanwhile,
    written_order,
)

_STANDARD = "oiled, not varnished: the standard agreed on"


class ComponentForm:
    """`stem` is the main component for a part, empty for a main component."""

    def __init__(
        self, app: BoardApp, stem: str, component: Component | None, above: str = ""
    ) -> None:
        self.app, self.stem, self.component = app, stem, component
        self.thing: Thing = "part" if stem else "component"
        self.id = component.id if component else ""
        self.above = component.part_of if component else above
        folder = app.workbench.folder
        self.table = written_table(folder, self.thing, self.id) if component else {}

    def form(self) -> Form:
        component, board = self.component, self.app.board
        if component:
            title = f"Edit: {component.name}"
        elif self.stem:
            title = f"A new part of {component_name(board.plan, self.stem)}"
        else:
            title = "A new main component"
        before = written_order(self.table, "after", self.id, board.plan) if component else ()
        fields: list[Field] = [Typed("name", "name", component.name if component else "", needed)]
        if self.stem:
            part_of = self.above.removeprefix(self.stem).strip("/")
            fields.append(
                OneOf(
                    "part_of",
                    "part of",
                    part_of,
                    lambda: choices.part_choices(board, self.stem, self.id),
                )
            )
        fields += [
            SomeOf(
                "after",
                "comes after",
                before,
                lambda: choices.order_choices(board, self.id),
                check=self._tried,
            ),
            Longer("about", "about", component.about if component else ""),
            Typed("standard", "finish", component.standard if component else "", hint=_STANDARD),
            Typed(
                "pictures",
                "pictures",
                ", ".join(component.pictures) if component else "",
                words,
                "drawings/deck.svg",
            ),
            Typed(NAME, "short name", self._short(), hint="made from the name"),
        ]
        intro = "All tasks of what it comes after are finished before its first one begins."
        return Form(title, fields, self.keep, whole=component is None, intro=intro)

    def _short(self) -> str:
        return self.id.rpartition("/")[2]

    def _full(self, short: str) -> str:
        return f"{self.stem}/{short}" if self.stem else short

    def _tried(self, wanted: Sequence[str]) -> Sequence[Refusal]:
        if self.component is None:
            return ()  # nothing comes after what is not there yet
        return self.app.workbench.trial(Change(self.thing, self.id, {"after": tuple(wanted)}))

    def keep(self, answers: Mapping[Key, Any]) -> Sequence[Refusal]:
        plan = self.app.board.plan
        values = dict(answers)
        name = values.pop(NAME, None)
        edits: list[PlanEdit] = []
        if self.component is None:
            taken = {known.rpartition("/")[2] for known in plan.order_ids()}
            self.id = self._full(name or id_from(values["name"], taken))
            edits.append(Add(self.thing, self.id, values))
        else:
            folder = self.app.workbench.folder
            if new := changed_meanwhile(folder, self.thing, self.id, self.table, values):
                return new
            if values:
                edits.append(Change(self.thing, self.id, values))
            if name and name != self._short():
                edits.append(Rename(self.thing, self.id, name))
        if not edits:
            return ()
        refused = change_here(self.app, edits, "the plan of a component")
        if not refused and name and self.component:
            self.id = self._full(name)
        return refused
