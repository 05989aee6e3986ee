"""Ask for a line of text, or for a time span."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, Static

from crewboard.legible import legible
from crewboard.plan.duration import Duration, NotADuration, parse_duration
from crewboard.terminal.dialogs.dialog import Dialog, T


class _Asking(Dialog[T]):
    """One input; what is wrong with it is said below, and what was typed stays."""

    AUTO_FOCUS = "Input"

    def __init__(
        self, title: str, label: str = "", *, value: str = "", intro: str = "", hint: str = ""
    ) -> None:
        super().__init__(title)
        self.label, self.value, self.intro, self.hint = label, value, intro, hint

    def inside(self) -> Iterable[Widget]:
        if self.intro:
            yield Static(Content(legible(self.intro, lines=True)), classes="intro")
        if self.label:
            yield Static(Content(legible(self.label)), classes="label")
        yield Input(self.value, placeholder=self.hint, select_on_focus=False)
        yield Static("", classes="wrong", id="wrong")

    def on_input_submitted(self, event: Input.Submitted) -> None:
        event.stop()
        self.accept(event.value)

    def accept(self, text: str) -> None:
        raise NotImplementedError

    def say_wrong(self, sentence: str) -> None:
        self.query_one("#wrong", Static).update(Content(legible(sentence)))


class AskLine(_Asking[str]):
    """Answers the text without blanks at its ends, None when left.

    `check` gives a sentence where the text will not do.
    """

    def __init__(
        self,
        title: str,
        label: str = "",
        *,
        value: str = "",
        intro: str = "",
        hint: str = "",
        needed: bool = True,
        check: Callable[[str], str | None] | None = None,
    ) -> None:
        super().__init__(title, label, value=value, intro=intro, hint=hint)
        self.needed, self.check = needed, check

    def accept(self, text: str) -> None:
        text = text.strip()
        if self.needed and not text:
            return self.say_wrong("something has to be written here")
        wrong = self.check(text) if self.check else None
        if wrong:
            return self.say_wrong(wrong)
        self.dismiss(text)
        return None


class AskSpan(_Asking[Duration]):
    """Answers a time span: "36 hours", "2 days", "1 month"."""

    def __init__(self, title: str, label: str = "", *, value: str = "", intro: str = "") -> None:
        super().__init__(title, label, value=value, intro=intro, hint="36 hours, 2 days, 1 month")

    def accept(self, text: str) -> None:
        try:
            span = parse_duration(text)
        except NotADuration as error:
            return self.say_wrong(str(error))
        self.dismiss(span)
        return None
