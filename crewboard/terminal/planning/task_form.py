"""The form of a task, new or standing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, get_args

from crewboard.folder.edit.as_written import written_table
from crewboard.folder.edit.plan_edits import Add, Change, Key, Move, PlanEdit, Rename
from crewboard.folder.read.files import id_from
from crewboard.order.admit.refusal import Refusal
from crewboard.order.said import component_name
from crewboard.plan.hold import Conditions
from crewboard.plan.task import Changes, Task
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.pick import Choice
from crewboard.terminal.forms.fields import Field, Typed
from crewboard.terminal.forms.form import Form
from crewboard.terminal.forms.longer import Longer
from crewboard.terminal.forms.picked import OneOf, SomeOf
from crewboard.terminal.forms.reading import (
    A_DAY,
    Wrong,
    day,
    estimate,
    needed,
    people,
    typed_day,
    typed_estimate,
    typed_people,
    words,
)
from crewboard.terminal.planning import choices
from crewboard.terminal.planning.hold_fields import (
    degrees_range,
    hold_answered,
    hold_fields,
    read_range,
    typed_range,
)
from crewboard.terminal.planning.series_fields import (
    new_jigs,
    series_fields,
)
from crewboard.terminal.planning.written import (
    NAME,
    ask_about_words,
    change_here,
    changed_meanwhile,
    names_taken,
    own_hazards,
    written_order,
)

_CHANGES = tuple(
    Choice(word, f"it {word}", "asks for a picture first") for word in get_args(Changes)
)
_FACES = (
    Choice("hidden", "it coats faces that will be hidden"),
    Choice("shown", "it coats faces that show"),
    Choice("covers", "it covers faces up"),
)
HOME = "~home"  # the component or part to which it belongs
WARM, DAMP = "~warm", "~damp"  # the two fields of its conditions


class TaskForm:
    """Makes the form of one task and keeps what it says; `id` is the task's id once kept."""

    def __init__(self, app: BoardApp, stem: str, task: Task | None, part: str = "") -> None:
        self.app, self.stem, self.task = app, stem, task
        self.id = task.id if task else ""
        self.home = task.component if task else f"{stem}/{part}".strip("/")
        folder = app.workbench.folder
        self.table = written_table(folder, "task", task.id) if task else {}
        written_hold = self.table.get("hold")
        self.units = app.board.plan.vehicle.units
        self.hold = hold_fields(
            task.hold if task else None,
            written_hold if isinstance(written_hold, dict) else {},
            self.units,
        )

    def form(self) -> Form:
        name = component_name(self.app.board.plan, self.stem)
        title = f"Edit: {self.task.title}" if self.task else f"A new task in {name}"
        fields = [*self._what(), "Order of work", *self._order(), "Work", *self._work()]
        fields += ["Hold that follows the work", *self.hold]
        fields += [
            "Pieces and jigs",
            *series_fields(self.app.board, self.stem, self.task, self.table),
        ]
        fields += ["Dates and more", *self._more()]
        return Form(title, fields, self.keep, whole=self.task is None)

    # --- the fields ----------------------------------------------------------------------------

    def _what(self) -> list[Field | str]:
        task, board = self.task, self.app.board
        return [
            Typed("title", "title", task.title if task else "", needed),
            OneOf(HOME, "belongs to", self.home, lambda: choices.home_choices(board), needed=True),
            Longer("method", "how it is done", task.method if task else ""),
        ]

    def _order(self) -> list[Field]:
        board, own = self.app.board, self.id
        plan = board.plan
        before = {
            key: written_order(self.table, key, own, plan) if self.task else ()
            for key in ("after", "during")
        }
        return [
            SomeOf(
                "after",
                "comes after",
                before["after"],
                lambda: choices.order_choices(board, own),
                check=lambda wanted: self._tried("after", wanted),
            ),
            SomeOf(
                "during",
                "during hold of",
                before["during"],
                lambda: choices.hold_choices(board, own),
                check=lambda wanted: self._tried("during", wanted),
            ),
        ]

    def _work(self) -> list[Field]:
        task, board = self.task, self.app.board
        hours = typed_estimate(task.estimate if task else None)
        crew = typed_people(task.least_people, task.most_people) if task else ""
        own = own_hazards(self.app.workbench.folder)
        return [
            Typed("hours", "person-hours", hours, estimate, "low likely high, such as 4 6 12"),
            Typed("people", "people", crew, people, "least-most, such as 2-4"),
            SomeOf(
                "skills",
                "skills",
                task.skills if task else (),
                lambda: choices.skill_choices(board),
                new="another skill",
            ),
            SomeOf(
                "hazards",
                "hazards",
                task.hazards if task else (),
                lambda: choices.hazard_choices(board, own),
                tells=lambda wanted: choices.not_used(board, wanted),
            ),
            SomeOf(
                "supplies",
                "supplies",
                task.supplies if task else (),
                lambda: choices.supply_choices(board),
                new="another supply",
            ),
            OneOf(
                "place", "place", task.place if task else "", lambda: choices.place_choices(board)
            ),
        ]

    def _more(self) -> list[Field]:
        task = self.task
        limits = task.conditions if task else Conditions()
        finished = self.table.get("finished")
        pictures = ", ".join(task.pictures) if task else ""
        return [
            degrees_range(WARM, "while working {}", limits[:2], self.units),
            Typed(DAMP, "while working %", typed_range(limits[2:]), read_range, "-85, 30-70"),
            Typed("not_before", "not before", typed_day(task and task.not_before), day, A_DAY),
            Typed("due", "due", typed_day(task and task.due), day, A_DAY),
            Typed(
                "finished",
                "finished on",
                typed_day(finished),
                day,
                "only for work done before the logbook was kept",
            ),
            OneOf("changes", "old fabric", task.changes or "" if task else "", lambda: _CHANGES),
            OneOf("faces", "faces", task.faces or "" if task else "", lambda: _FACES),
            Typed("set_aside", "set aside", task.set_aside if task else "", hint="why"),
            Typed("pictures", "pictures", pictures, words, "drawings/deck.svg, photos/deck.jpg"),
            Typed(NAME, "short name", task.name if task else "", hint="made from the title"),
        ]

    # --- keeping -------------------------------------------------------------------------------

    def _tried(self, key: str, wanted: Sequence[str]) -> Sequence[Refusal]:
        """What stands against an order before the form is kept."""
        edit: PlanEdit = Change("task", self.id, {key: tuple(wanted)})
        if self.task is None:
            plan = self.app.board.plan
            new = f"{self.stem}/{id_from('new task', names_taken(self.stem, plan))}"
            edit = Add("task", new, {"title": "the new task", key: tuple(wanted)})
        return self.app.workbench.trial(edit)

    def keep(self, answers: Mapping[Key, Any]) -> Sequence[Refusal]:
        plan = self.app.board.plan
        values: dict[Key, Any] = {k: v for k, v in answers.items() if isinstance(k, str)}
        name, home = values.pop(NAME, None), values.pop(HOME, self.home)
        moves = home.partition("/")[0] != self.stem
        if home != self.home and not moves:
            values["part"] = home.partition("/")[2] or None
        self._put_conditions(values)
        if any(not isinstance(key, str) for key in answers):
            try:
                values["hold"] = hold_answered(self.hold)
            except Wrong as wrong:
                return [Refusal("wrong", f"hold: {wrong}")]
        folder = self.app.workbench.folder
        if self.task and (new := changed_meanwhile(folder, "task", self.id, self.table, values)):
            return new
        edits = self._new_supplies(values)
        edits += new_jigs(values, plan, self.task.uses if self.task else ())
        kept_as = self.id
        if self.task is None:
            stem, _, part = home.partition("/")
            short = name or id_from(values["title"], names_taken(stem, plan))
            kept_as = f"{stem}/{short}"
            edits.append(Add("task", kept_as, {**values, "part": part or None}))
        else:
            if values:
                edits.append(Change("task", self.task.id, values))
            if name and name != self.task.name:
                edits.append(Rename("task", self.task.id, name))
                kept_as = f"{self.stem}/{name}"
            if moves:
                edits.append(Move(kept_as, home))
                kept_as = Move(kept_as, home).new_id
        if not edits:
            return ()
        what = f'the plan of "{values.get("title") or (self.task.title if self.task else "")}"'
        refused = change_here(self.app, edits, what)
        if not refused:
            self.id = kept_as
            ask_about_words(self.app, [self.id])
        return refused

    def _put_conditions(self, values: dict[Key, Any]) -> None:
        """What the air must be while it is done: of two fields one value, where one was changed."""
        if WARM in values or DAMP in values:
            limits = self.task.conditions if self.task else Conditions()
            warm = values.pop(WARM, limits[:2]) or (None, None)
            damp = values.pop(DAMP, limits[2:]) or (None, None)
            values["conditions"] = Conditions(*warm, *damp) or None

    def _new_supplies(self, values: dict[Key, Any]) -> list[PlanEdit]:
        """A supply that was typed, not picked, is written into supplies.toml first."""
        known = set(self.app.board.plan.supplies)
        edits: list[PlanEdit] = []
        named: list[str] = []
        for supply in values.get("supplies") or ():
            if supply not in known and supply not in (self.task.supplies if self.task else ()):
                new = id_from(supply, known)
                known.add(new)
                edits.append(Add("supply", new, {"name": supply}))
                supply = new
            named.append(supply)
        if edits:
            values["supplies"] = tuple(named)
        return edits
