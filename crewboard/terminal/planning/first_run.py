"""A folder without a vehicle: a few questions, and the first files are made."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from datetime import time
from typing import Any

from crewboard.folder.cannot import NotKept
from crewboard.folder.edit.new import USUAL_COMPONENTS, NewVehicle, new_folder
from crewboard.folder.edit.plan_edits import Key
from crewboard.folder.read.files import VEHICLE
from crewboard.order.admit.refusal import Refusal
from crewboard.plan.hold import Conditions
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.pick import Choice
from crewboard.terminal.forms.fields import Field, Typed, YesNo
from crewboard.terminal.forms.form import Form
from crewboard.terminal.forms.picked import SomeOf
from crewboard.terminal.forms.reading import clock, day_rules, needed, words
from crewboard.terminal.planning.hold_fields import degrees_range, read_range

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

    name = os.path.basename(os.path.abspath(app.workbench.folder.root))
    intro = f"The folder holds no {VEHICLE} yet. All of this can be changed later."
    form = Form(f"A new vehicle in {name}", _fields(), keep, whole=True, intro=intro)
    if await app.push_screen_wait(form):
        app.action_open("vehicle")
        app.tell("the folder is made: k types the tasks of the component under the cursor")


def _answered(answers: Mapping[Key, Any]) -> NewVehicle:
    warm, damp = answers.get("warm", (None, None)), answers.get("damp", (None, None))
    return NewVehicle(
        answers.get("name", ""),
        answers.get("what", ""),
        answers.get("every", ()),
        answers.get("opens", _USUAL.opens),
        answers.get("closes", _USUAL.closes),
        answers.get("people", ()),
        (*answers.get("components", ()), *answers.get("own", ())),
        answers.get("emergency", ""),
        answers.get("places", ()),
        Conditions(*warm, *damp),
        bool(answers.get("adults")),
        answers.get("jurisdiction", ""),
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
        Typed("emergency", "emergency call", hint="the number, and what to tell them"),
        Typed("places", "places", "", words, "bench, pit, yard"),
        degrees_range("warm", "shop {} from-to", (None, None), "metric"),
        Typed("damp", "shop humidity %", "", read_range, "-85, 30-70"),
        SomeOf(
            "components",
            "components",
            tuple(usual.id for usual in USUAL_COMPONENTS),
            lambda: [Choice(u.id, u.name, _after(u.after)) for u in USUAL_COMPONENTS],
        ),
        Typed("own", "components too", "", words, "your own, with commas: cab, tailboard"),
        Typed("jurisdiction", "whose law", "", hint="US, GB, EU or another: its law comes first"),
    ]


def _after(before: Sequence[str]) -> str:
    names = {usual.id: usual.name.lower() for usual in USUAL_COMPONENTS}
    return f"after {', '.join(names[component] for component in before)}" if before else ""


def _hour(moment: time) -> str:
    return f"{moment.hour}:{moment.minute:02}"
