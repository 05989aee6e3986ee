"""Start a hold by hand: a delivery waited for, a decision, something that has to dry."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from crewboard.folder.edit.plan_edits import Key
from crewboard.logbook.acts import HoldStarted
from crewboard.order.admit.refusal import Refusal
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.doing.entry_form import record_here
from crewboard.terminal.forms.fields import Field, Typed, YesNo
from crewboard.terminal.forms.form import Form
from crewboard.terminal.forms.picked import OneOf
from crewboard.terminal.forms.reading import span
from crewboard.terminal.planning.choices import RELEASES, kind_choices, order_choices


async def start_hold(app: BoardApp) -> None:
    """Start a hold by hand, on a task or on a component."""
    board = app.board
    fields: list[Field] = [
        OneOf("on", "on", "", lambda: order_choices(board), needed=True),
        OneOf("hold", "kind", "", kind_choices, needed=True),
        Typed("lasts", "lasts", "", span, "36 hours, 2 days, 1 month; empty: until released"),
        OneOf("release", "ends", "", lambda: RELEASES),
        YesNo("leave_alone", "leave alone", False),
        Typed("why", "why", "", hint="what has to set, arrive or be decided"),
    ]

    def keep(answers: Mapping[Key, Any]) -> Sequence[Refusal]:
        on = answers["on"]
        return record_here(
            app,
            HoldStarted(
                answers["hold"],
                on if on in board.plan.tasks else "",
                on if on in board.plan.components else "",
                answers.get("lasts"),
                answers.get("release", ""),
                bool(answers.get("leave_alone")),
                answers.get("why", ""),
            ),
        )

    if await app.push_screen_wait(Form("Start a hold", fields, keep, whole=True)):
        app.tell("the hold is running")
