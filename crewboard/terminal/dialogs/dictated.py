"""A text from elsewhere, pasted, and beside it the findings that its lines become."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static, TextArea

from crewboard.legible import legible
from crewboard.telling.dictated import Dictated, amiss
from crewboard.telling.line import Line
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.widgets.prose import Prose


class DictatedDialog(Dialog[list[Dictated]]):
    """Answers the findings, all of them or None; `cut` reads the text, `tells` puts what it reads
    in words."""

    keys: ClassVar[str] = "Ctrl+S save   Esc cancel"
    typed_in: ClassVar[bool] = True
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "save", "save", show=False, priority=True),
        Binding("escape", "leave", "leave", show=False, priority=True),
    ]

    def __init__(
        self,
        cut: Callable[[str], list[Dictated]],
        tells: Callable[[list[Dictated]], Iterable[Line]],
    ) -> None:
        super().__init__("Findings, a line each", wide=True)
        self.cut, self.tells = cut, tells

    def inside(self) -> Iterable[Widget]:
        yield Static(Content(legible(_HOW)), classes="intro")
        yield TextArea(soft_wrap=True, show_line_numbers=False)
        yield Static(Content("what is saved"), classes="label")
        yield Prose(id="preview")
        yield Static("", classes="wrong", id="wrong")

    def opened(self) -> None:
        self.query_one(TextArea).styles.height = "1fr"
        self.query_one(Prose).styles.height = "1fr"
        self.query_one("#box").styles.height = "90%"
        self.query_one(TextArea).focus()

    def on_text_area_changed(self) -> None:
        self.query_one(Prose).tell(self.tells(self._read()), from_top=False)
        self.query_one("#wrong", Static).update("")

    def _read(self) -> list[Dictated]:
        return self.cut(self.query_one(TextArea).text)

    def unkept(self) -> list[str]:
        text = self.query_one(TextArea).text.strip()
        return [f"{self.asks}:", text] if text else []

    def action_save(self) -> None:
        """Once the text has taken all that was typed before this key."""
        self.query_one(TextArea).call_later(self._save)

    def _save(self) -> None:
        lines: Sequence[Dictated] = self._read()
        if why := amiss(list(lines)):
            self.query_one("#wrong", Static).update(Content(legible(why)))
        else:
            self.dismiss(list(lines))


_HOW = 'Paste or type: "ribs 3: the foot is soft". A line without a name is of the vehicle.'
