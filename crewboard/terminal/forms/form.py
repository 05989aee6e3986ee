"""A form: fields to type in and to pick in, kept all together."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any, ClassVar

from textual import events, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input, Static

from crewboard.folder.edit.plan_edits import Key
from crewboard.legible import legible
from crewboard.order.admit.refusal import Refusal
from crewboard.telling.line import GAP, Line, step_by_step
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.cells import cell_len
from crewboard.terminal.dialogs.dialog import Dialog, Panel
from crewboard.terminal.forms.fields import Field, FieldLine
from crewboard.terminal.forms.picked import Unfit
from crewboard.terminal.forms.reading import Wrong
from crewboard.terminal.widgets.prose import Prose

Keep = Callable[[Mapping[Key, Any]], Sequence[Refusal]]
Insist = Callable[[Mapping[Key, Any], str, str], Sequence[Refusal]]
"""Saves the answers all the same: with the reason, and with who answers for it."""


class Press(Static, can_focus=True):
    """A word that is pressed with Enter or the mouse."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,space", "press", "press", show=False),
        Binding("left,up", "screen.step(-1)", "back", show=False),
        Binding("right,down", "screen.step(1)", "on", show=False),
    ]

    class Pressed(Message):
        def __init__(self, word: str) -> None:
            super().__init__()
            self.word = word

    def __init__(self, word: str) -> None:
        super().__init__(Content(word), classes="press")
        self.word = word

    def action_press(self) -> None:
        self.post_message(self.Pressed(self.word))

    def on_click(self) -> None:
        self.action_press()


class Form(Dialog[bool]):
    """Answers True when kept, None when left.

    `keep` is given what was changed (with `whole`, all that is not empty) and answers what stands
    against it; then the form stays as it is and says so. A text in the place of a field heads
    those below it.
    """

    keys: ClassVar[str] = "Tab, arrows next   Enter pick   Ctrl+S save   Esc cancel"
    deed: ClassVar[str] = "save"
    refuses: ClassVar[str] = "Not saved"
    widest_label: ClassVar[int] = 26  # cells
    more_keys: ClassVar[tuple[tuple[str, str], ...]] = (
        ("Tab, arrows", "next field, or the one before"),
        ("Enter", "opens the list of a field; else goes to the next field"),
        ("Space", "turns yes and no; y and n say which"),
        ("Delete", "empties a field that is picked from a list"),
        ("Ctrl+S", "save: everything in the form at once"),
        ("Esc", "cancel: nothing is written; it asks first where something was changed"),
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "keep", "save", show=False, priority=True),
        Binding("down", "step(1)", "next", show=False),
        Binding("up", "step(-1)", "back", show=False),
    ]

    def __init__(
        self,
        title: str,
        fields: Sequence[Field | str],
        keep: Keep,
        *,
        whole: bool = False,
        intro: str = "",
        insist: Insist | None = None,
    ) -> None:
        super().__init__(title, wide=True)
        self.insist = insist
        self.rows = tuple(fields)
        self.fields = [row for row in fields if isinstance(row, Field)]
        self.keep, self.whole, self.intro = keep, whole, intro

    def inside(self) -> Iterable[Widget]:
        if self.intro:
            yield Static(Content(legible(self.intro, lines=True)), classes="intro")
        yield _Fields(self.rows)
        yield Prose(id="wrong")
        yield Horizontal(Press(self.deed), Press("cancel"), id="ends")

    def opened(self) -> None:
        self.query_one("#wrong").display = False
        self.query_one("#wrong").can_focus = False
        self.fields[0].control().focus()
        longest = max(cell_len(field.label) for field in self.fields)
        for label in self.query(".field Static.label"):
            label.styles.width = min(self.widest_label, longest + 1)
        self._show_asked()
        self.fit()
        if self.intro:  # how many lines it takes is known once it is laid out
            self.call_after_refresh(self.fit)

    def fit(self) -> None:
        """The fields take what the window leaves, so that the foot is always seen."""
        wrong = self.query_one("#wrong")
        intro = sum((static.size.height or 2) + 1 for static in self.query(".intro"))
        taken = 7 + intro + (wrong.size.height + 1 if wrong.display else 0)
        room = int(self.app.size.height * 0.92) - taken
        self.query_one("#fields").styles.max_height = max(3, room)

    # --- what is asked for ---------------------------------------------------------------------

    def _show_asked(self) -> None:
        """Show the fields that are asked for as the others stand, and those that say something."""
        said = {field.key: field.said for field in self.fields}
        for field in self.fields:
            line = field.control().parent
            if field.only is not None and isinstance(line, Widget):
                other = said.get(field.only.field)
                line.display = bool(field.said) or field.only.fits(other)

    def on_input_changed(self) -> None:
        self._show_asked()

    def on_field_line_picked_now(self, message: FieldLine.PickedNow) -> None:
        message.stop()
        self._show_asked()

    def foot(self) -> str:
        at = self.focused
        yes_no = isinstance(at, FieldLine) and not at.field.opens
        return self.keys.replace("Enter pick", "Space yes/no") if yes_no else self.keys

    def on_descendant_focus(self, event: events.DescendantFocus) -> None:  # noqa: ARG002
        self.query_one("#foot", Static).update(Content(self.foot()))

    # --- moving --------------------------------------------------------------------------------

    def action_step(self, step: int) -> None:
        if step > 0:
            self.focus_next()
        else:
            self.focus_previous()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        event.stop()
        self.action_step(1)

    # --- keeping and leaving -------------------------------------------------------------------

    @property
    def touched(self) -> bool:
        return any(field.touched for field in self.fields)

    def unkept(self) -> list[str]:
        typed = [f"{field.label}: {field.shown()}" for field in self.fields if field.touched]
        return [f"{self.asks}:", *typed] if typed else []

    def answers(self) -> dict[Key, Any] | None:
        """What is to be kept; None where a field cannot be read, which is then said."""
        answers: dict[Key, Any] = {}
        for field in self.fields:
            if not field.touched and not self.whole:
                continue
            try:
                answer = field.answer()
            except Wrong as wrong:
                field.control().focus()
                self.say([Refusal("wrong", f"{field.label}: {wrong}")])
                return None
            if field.touched or answer not in (None, ()):
                answers[field.key] = answer
        return answers

    def action_keep(self) -> None:
        """Keep, but only once the field has taken all that was typed before this key."""
        (self.focused or self).call_later(self._keep_answers)

    def _keep_answers(self) -> None:
        answers = self.answers()
        if answers is None:
            return
        if not answers and not self.whole:
            self.dismiss(None)
            return
        refused = self.keep(answers)
        if refused and self.insist is not None and all(refusal.yields for refusal in refused):
            self._ask_why(self.insist, answers, refused)
        else:
            self._end(refused)

    def _end(self, refused: Sequence[Refusal]) -> None:
        if refused:
            self.say(refused)
        else:
            self.dismiss(True)

    @work(exclusive=True)
    async def _ask_why(
        self, insist: Insist, answers: Mapping[Key, Any], refused: Sequence[Refusal]
    ) -> None:
        """What hardly can be is kept with a reason that somebody answers for."""
        from crewboard.terminal.dialogs.choose import crew_choices
        from crewboard.terminal.dialogs.refusal import RefusalDialog

        app = self.app
        assert isinstance(app, BoardApp)
        dialog = RefusalDialog(refused, crew_choices(app.board), app.by)
        answer = await app.push_screen_wait(dialog)
        if answer is not None and answer.reason:
            self._end(insist(answers, answer.reason, answer.by))

    def say(self, refused: Sequence[Refusal]) -> None:
        """Say what stands against it, above the foot; a loop is told step by step on a panel."""
        wrong = self.query_one("#wrong", Prose)
        lines: list[Line] = []
        loops: list[Line] = []
        for refusal in refused:
            lines.append(Line(refusal.says, "danger", 0, f"{self.refuses}:"))
            if refusal.mend:
                lines.append(Line(refusal.mend, "must", 2, "What to do:"))
            if refusal.steps:
                loops += [Line(f"{refusal.says}:", "danger"), *step_by_step(refusal.steps), GAP]
        if loops:
            self.app.push_screen(Panel(self.refuses, loops[:-1]))
        lines = list(dict.fromkeys(lines))
        wrong.display = bool(lines)
        wrong.tell(lines)
        self.call_after_refresh(self.fit)

    def on_unfit(self, message: Unfit) -> None:
        message.stop()
        self.say(message.refusals)

    def on_press_pressed(self, message: Press.Pressed) -> None:
        message.stop()
        if message.word == self.deed:
            self.action_keep()
        else:
            self.action_leave()

    def action_leave(self) -> None:
        if self.touched:
            sentence = "What you changed here is not saved yet."
            self.leave_unkept(sentence)
        else:
            self.dismiss(None)


class _Fields(VerticalScroll, can_focus=False):
    """The fields, one a line, each behind its label."""

    def __init__(self, rows: Iterable[Field | str]) -> None:
        super().__init__(id="fields")
        self._rows = tuple(rows)

    def compose(self) -> ComposeResult:
        for row in self._rows:
            if isinstance(row, str):
                yield Static(Content(row), classes="group")
            else:
                with Horizontal(classes="field"):
                    yield Static(Content(legible(row.label)), classes="label")
                    yield row.control()
