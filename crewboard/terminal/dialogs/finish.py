"""Finish a task: when, with what note, and which clock that starts."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import datetime
from typing import NamedTuple

from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, Static

from crewboard.plan import as_typed
from crewboard.plan.as_typed import Unread
from crewboard.telling.line import Line
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.widgets.prose import Prose


class FinishedAt(NamedTuple):
    """When the work was finished, and what is to be noted with it."""

    at: datetime
    note: str


class FinishDialog(Dialog[FinishedAt]):
    """`tells` gives the lines for a moment: which hold starts then, and what it stops."""

    AUTO_FOCUS = "#at"

    def __init__(
        self, title: str, now: datetime, tells: Callable[[datetime], Sequence[Line]]
    ) -> None:
        super().__init__(title)
        self.now, self.tells = now, tells

    def inside(self) -> Iterable[Widget]:
        yield Prose(self.tells(self.now))
        yield Static(Content("finished at (hours:minutes, today)"), classes="label")
        yield Input(f"{self.now:%H:%M}", id="at", select_on_focus=True)
        yield Static(Content("note"), classes="label")
        yield Input(id="note", placeholder="what is worth keeping")
        yield Static("", classes="wrong", id="wrong")

    def foot(self) -> str:
        return "Enter finishes it   Tab next   Esc leaves it"

    def on_input_changed(self, event: Input.Changed) -> None:
        if event.input.id == "at" and (at := moment_on(self.now, event.value)) is not None:
            self.query_one(Prose).tell(self.tells(at))

    def on_input_submitted(self, event: Input.Submitted) -> None:
        event.stop()
        at = moment_on(self.now, self.query_one("#at", Input).value)
        wrong = self.query_one("#wrong", Static)
        if at is None:
            wrong.update(Content("write a time such as 15:40"))
        elif at > self.now:
            wrong.update(Content("that is later than it is now"))
        else:
            self.dismiss(FinishedAt(at, self.query_one("#note", Input).value.strip()))


def moment_on(now: datetime, text: str) -> datetime | None:
    """The time of day, such as "15:40" or "15.40", on the day of `now`; None where it is none.

    The present minute means now, to the second.
    """
    try:
        clock = as_typed.clock(text)
    except Unread:
        return None
    at = datetime.combine(now.date(), clock)
    return now if at == now.replace(second=0, microsecond=0) else at
