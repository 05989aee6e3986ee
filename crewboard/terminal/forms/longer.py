"""A longer text: its line in the form, and the sheet that it is written on."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget
from textual.widgets import TextArea

from crewboard.legible import legible
from crewboard.order.said import how_many
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.forms.fields import FieldLine, Shown
from crewboard.terminal.forms.reading import restored


class Longer(Shown):
    """A text of several lines, written on a sheet of its own."""

    def shown(self) -> str:
        first, *rest = str(self.now).split("\n")
        return f"{first} (and {how_many(len(rest), 'more line')})" if rest else first

    async def change(self, line: FieldLine) -> None:
        written = await line.app.push_screen_wait(WriteText(self.label, self.now))
        if written is not None:
            self.now = written

    def clear(self, line: FieldLine) -> None:
        """A long text is not lost by one key."""

    def answer(self) -> Any:
        return self.now if self.now.strip() else None


class WriteText(Dialog[str]):
    """Answers the text, None when left."""

    keys: ClassVar[str] = "Ctrl+S save   Esc cancel"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "keep", "save", show=False, priority=True),
        Binding("escape", "leave", "cancel", show=False, priority=True),
    ]

    def __init__(self, title: str, text: str) -> None:
        super().__init__(title, wide=True)
        self.text = text

    def inside(self) -> Iterable[Widget]:
        yield TextArea(legible(self.text, lines=True), soft_wrap=True, show_line_numbers=False)

    def opened(self) -> None:
        area = self.query_one(TextArea)
        area.move_cursor(area.document.end)
        area.focus()

    def action_leave(self) -> None:
        if restored(self.query_one(TextArea).text, self.text) == self.text:
            self.dismiss(None)
        else:
            sentence = "What you wrote here is not saved yet."
            self.leave_unkept(sentence)

    def action_keep(self) -> None:
        """Keep, but only once the text has taken all that was typed before this key."""
        self.query_one(TextArea).call_later(self._keep_text)

    def _keep_text(self) -> None:
        self.dismiss(restored(self.query_one(TextArea).text, self.text).rstrip())
