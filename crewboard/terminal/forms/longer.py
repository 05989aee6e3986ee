"""A sheet to write a longer text on."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.types import CSSPathType
from textual.widget import Widget
from textual.widgets import TextArea

from crewboard.legible import legible
from crewboard.terminal.dialogs.confirm import Confirm
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.forms.reading import restored
from crewboard.terminal.forms.styles import STYLES


class WriteText(Dialog[str]):
    """Answers the text, None when left."""

    CSS_PATH: ClassVar[CSSPathType | None] = STYLES
    keys: ClassVar[str] = "Ctrl+S keeps the text   Esc leaves it as it was"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "keep", "keep", show=False, priority=True),
        Binding("escape", "leave", "leave", show=False, priority=True),
    ]

    def __init__(self, title: str, text: str) -> None:
        super().__init__(title, wide=True)
        self.text = text

    def inside(self) -> Iterable[Widget]:
        yield TextArea(legible(self.text, lines=True), soft_wrap=True, show_line_numbers=False)

    def on_mount(self) -> None:
        area = self.query_one(TextArea)
        area.move_cursor(area.document.end)
        area.focus()

    def action_leave(self) -> None:
        if restored(self.query_one(TextArea).text, self.text) == self.text:
            self.dismiss(None)
        else:
            self._ask_and_leave()

    @work(exclusive=True)
    async def _ask_and_leave(self) -> None:
        lines = ["What you wrote here is not kept yet."]
        sure = Confirm("Leave the text?", lines, yes="leave it", no="go on writing")
        if await self.app.push_screen_wait(sure):
            self.dismiss(None)

    def action_keep(self) -> None:
        """Keep, but only once the text has taken all that was typed before this key."""
        self.query_one(TextArea).call_later(self._keep_text)

    def _keep_text(self) -> None:
        self.dismiss(restored(self.query_one(TextArea).text, self.text).rstrip())
