"""An act was refused: why, how to mend it, and, where that may be, to do it with a reason."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import ClassVar, NamedTuple

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, Static

from crewboard.order.admit.refusal import Refusal
from crewboard.telling.line import Line
from crewboard.telling.row import Row
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.dialogs.pick import Choice
from crewboard.terminal.matching import matches
from crewboard.terminal.widgets.prose import Prose
from crewboard.terminal.widgets.rows import Column, RowList

# What hinders the writing itself, not the act: the same can be tried again, or saved elsewhere.
OF_THE_DISK = frozenset({"disk", "changed", "cannot-keep"})


_AROUND = 17  # lines of the window beside the sentences, where a reason is asked for


class Answer(NamedTuple):
    """What was decided: `again`, `elsewhere`, or with a `reason` that `by` answers for."""

    again: bool = False
    elsewhere: bool = False
    reason: str = ""
    by: str = ""


class RefusalDialog(Dialog[Answer]):
    """Answers None where the act is left."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "elsewhere", "save elsewhere", show=False),
        Binding("enter", "enter", "OK", show=False),
        Binding("up", "person(-1)", "person before", show=False),
        Binding("down", "person(1)", "next person", show=False),
        Binding("pageup", "read(-1)", "read up", show=False),
        Binding("pagedown", "read(1)", "read on", show=False),
    ]

    def __init__(
        self, refused: Sequence[Refusal], people: Sequence[Choice] = (), by: str = ""
    ) -> None:
        disk = any(r.code in OF_THE_DISK for r in refused)
        super().__init__("Not saved" if disk else "Refused")
        self.refused = tuple(refused)
        self.yields = bool(refused) and all(r.yields for r in refused)
        self.lead = any(r.lead for r in refused)
        self.disk = disk
        self.people = tuple(people)
        self.by = by

    def inside(self) -> Iterable[Widget]:
        yield Prose(self._lines(), spare=_AROUND if self.yields else 8)
        if self.yields:
            yield Static(Content("the reason, for the logbook"), classes="label")
            yield Input(id="reason")
            who = "which lead answers for it" if self.lead else "who answers for it"
            yield Static(Content(f"{who} (arrows, or type the name)"), classes="label")
            yield Input(id="who")
            rows = RowList((Column(), Column(20)), self._rows(""), empty="nobody by that name")
            rows.can_focus = False
            rows.styles.height = min(6, max(1, len(self.people)))
            yield rows
        yield Static("", classes="wrong", id="wrong")

    def _lines(self) -> Iterable[Line]:
        mends = [refusal.mend for refusal in self.refused] + [""]
        for number, refusal in enumerate(self.refused):
            yield Line(refusal.says, "danger", 0, "Refused:" if not self.disk else "Not saved:")
            if refusal.mend and mends[number + 1] != refusal.mend:  # what mends several, once
                yield Line(refusal.mend, "must", 2, "What to do:")
        if self.disk:
            yield Line("What you typed is still here.", "plain")

    def foot(self) -> str:
        if self.yields:
            return "Enter save with the reason   PgDn scroll   Esc cancel"
        if self.disk:
            return "Enter try again   Ctrl+S save elsewhere   Esc cancel"
        return "Enter OK"

    def opened(self) -> None:
        if self.yields:
            self.query_one(RowList).go_to(self.by)
            self.query_one("#reason", Input).focus()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        event.stop()
        self.action_enter()

    def _rows(self, text: str) -> list[Row]:
        return [
            Row(c.id, (c.text, c.note), c.tone, body_tone="faint")
            for c in self.people
            if not text or matches(text, f"{c.text} {c.find}") is not None
        ]

    def on_input_changed(self, event: Input.Changed) -> None:
        if event.input.id == "who":
            self.query_one(RowList).fill(self._rows(event.value))

    def action_person(self, step: int) -> None:
        if self.yields:
            self.query_one(RowList).action_step(step)
        else:
            prose = self.query_one(Prose)
            prose.scroll_relative(y=step, animate=False)

    def action_read(self, step: int) -> None:
        prose = self.query_one(Prose)
        prose.scroll_relative(y=step * max(1, prose.size.height - 1), animate=False)

    def action_elsewhere(self) -> None:
        if self.disk:
            self.dismiss(Answer(elsewhere=True))

    def action_enter(self) -> None:
        if not self.yields:
            self.dismiss(Answer(again=True) if self.disk else None)
            return
        reason = self.query_one("#reason", Input)
        who = self.query_one("#who", Input)
        wrong = self.query_one("#wrong", Static)
        if not reason.value.strip():
            wrong.update(Content("a reason has to be written, for the logbook"))
            reason.focus()
        elif reason.has_focus and not self.by and not who.value:
            who.focus()  # the reason is there; now say who answers for it
        elif not self.query_one(RowList).at:
            wrong.update(Content("nobody by that name is in the crew"))
            who.focus()
        else:
            self.dismiss(Answer(reason=reason.value.strip(), by=self.query_one(RowList).at))
