"""Release a bend from its form: what it came to and where it will lie, or that later."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from crewboard.folder.edit.plan_edits import Key
from crewboard.logbook.acts import Act, Bent, Released
from crewboard.logbook.fields import fields_of
from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.holds.running import StandingHold
from crewboard.order.holds.words import quoted_hold
from crewboard.order.reckoning.released import bend_said, forms_by_now
from crewboard.plan.as_typed import Unread
from crewboard.telling.line import Line
from crewboard.telling.reckoning import form_by_now
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.dialog import Panel
from crewboard.terminal.doing.entry_form import blank, record_here
from crewboard.terminal.forms.fields import Field, Typed
from crewboard.terminal.forms.form import Form

_ASKED = ("came_to", "stored", "days", "form", "chord", "species", "thickness", "plies")
_WHY = "why"


async def release_bend(app: BoardApp, hold: StandingHold, known: Bent, intro: str) -> bool:
    """Ask what the bend came to, and write that with the release; whether it was released. What it
    came to may be left empty: it is measured later, and written as a bend of its own."""
    by_name = {field.name: field for field in fields_of(Bent)}
    day = app.now().date()
    label = "why early" if hold.stage == "running" else "what you found"
    blanks: list[Field] = [
        Typed(_WHY, label),
        *(blank(app, by_name[name], getattr(known, name), day) for name in _ASKED),
    ]
    bends: list[Bent] = []
    nothing = Bent("", "", "", "", task=known.task, piece=known.piece)

    def keep(answers: Mapping[Key, Any], despite: str = "", by: str = "") -> Sequence[Refusal]:
        said = {str(key): value for key, value in answers.items()}
        why = said.pop(_WHY, "")
        try:
            bend = bend_said(nothing, said)
        except Unread as unread:
            return [Refusal("bend", unread.sentence, unread.hint)]
        if bend is None and said.get("stored"):
            why = "; ".join(filter(None, (why, f"stored {said['stored']}")))
        bends[:] = [bend] if bend is not None else []
        acts: list[Act] = [Released(hold.id, why), *bends]
        return record_here(app, *acts, despite=despite, by=by)

    name = quoted_hold(app.board.plan, hold)
    form = Form(f"Release: {name}", blanks, keep, whole=True, intro=intro, insist=keep)
    if await app.push_screen_wait(form) is not True:
        return False
    app.tell(f"released: {name}")
    if told := _next(app.board, bends):
        await app.push_screen_wait(Panel("The form of the next bend", told))
    return True


def _next(board: Board, bends: list[Bent]) -> list[Line]:
    """What the form of the next bend is by now."""
    forms = (form for bend in bends for form in forms_by_now(board, bend.species))
    return [Line(form_by_now(board, form)) for form in forms]
