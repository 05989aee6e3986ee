"""A folder without a vehicle: a few questions, and the first files are made."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import time
from typing import Any

from crewboard.folder.cannot import NotKept
from crewboard.folder.edit.new import USUAL_COMPONENTS, NewVehicle, new_folder
from crewboard.folder.edit.plan_edits import Key
from crewboard.folder.read.files import VEHICLE
from crewboard.order.admit.refusal import Refusal
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.pick import Choice
from crewboard.terminal.forms.fields import Field, Typed, YesNo
from crewboard.terminal.forms.form import Form
from crewboard.terminal.forms.picked import SomeOf
from crewboard.terminal.forms.reading import clock, day_rules, needed, words

_USUAL = NewVehicle("")


async def first_run(app: BoardApp) -> None:
    """Ask, make the folder's first files, and show them."""

    def keep(answers: Mapping[Key, Any]) -> Sequence[Refusal]:
        try:
            new_folder(app.workbench.folder.root, _answered(answers))
        except NotKept as error:
            return [Refusal("disk", error.sentence, error.hint)]
        app.look()
        return ()

    intro = (
        f"{app.workbench.folder.root} holds no {VEHICLE} yet. A few answers make the first files; "
        "all of it can be changed later, here or by hand."
    )
    if await app.push_screen_wait(Form("A new vehicle", _fields(), keep, whole=True, intro=intro)):
        app.tell("the folder is made: F3 shows the vehicle, a adds its first task")


def _answered(answers: Mapping[Key, Any]) -> NewVehicle:
    return NewVehicle(
        answers.get("name", ""),
        answers.get("what", ""),
        answers.get("every", ()),
        answers.get("opens", _USUAL.opens),
        answers.get("closes", _USUAL.closes),
        answers.get("people", ()),
        answers.get("components", ()),
        bool(answers.get("adults")),
    )


def _fields() -> list[Field]:
    return [
        Typed("name", "its name", "", needed, "what the crew calls it"),
        Typed("what", "what it is", hint="a bread van with a wooden body"),
        Typed("every", "work days", ", ".join(_USUAL.work_days), day_rules, "wednesday"),
        Typed("opens", "opens at", _hour(_USUAL.opens), clock, "9:00"),
        Typed("closes", "closes at", _hour(_USUAL.closes), clock, "16:00"),
        Typed("people", "first people", "", words, "names with commas between; the first leads"),
        YesNo("adults", "all 18 or older", False),
        SomeOf(
            "components",
            "components",
            tuple(usual.id for usual in USUAL_COMPONENTS),
            lambda: [Choice(u.id, u.name, _after(u.after)) for u in USUAL_COMPONENTS],
            new="another component",
        ),
    ]


def _after(before: Sequence[str]) -> str:
    names = {usual.id: usual.name.lower() for usual in USUAL_COMPONENTS}
    return f"after {', '.join(names[component] for component in before)}" if before else ""


def _hour(moment: time) -> str:
    return f"{moment.hour}:{moment.minute:02}"
