"""A note: what it is about, and as many lines as it takes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import ClassVar, NamedTuple

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, Static, TextArea

from crewboard.legible import legible
from crewboard.plan.as_typed import names
from crewboard.terminal.dialogs.dialog import Dialog


class About(NamedTuple):
    """One thing that a note can be about, in words: "the task Prime the frame", "the day"."""

    words: str
    tasks: tuple[str, ...] = ()
    component: str = ""
    piece: str = ""


class NoteText(NamedTuple):
    """A note as it was written."""

    about: About
    text: str
    pictures: tuple[str, ...] = ()


class NoteDialog(Dialog[NoteText]):
    """Answers the note, None when left or empty. Where the folder has pictures, there is a line
    for them. `refused` is a note that could not be kept, to go on with."""

    keys: ClassVar[str] = "Enter save   Ctrl+J line   Esc cancel"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,ctrl+s", "save", "save", show=False, priority=True),
        Binding("ctrl+j", "new_line", "new line", show=False, priority=True),
        Binding("tab", "about_next", "about", show=False, priority=True),
        Binding("shift+tab", "picture", "picture", show=False, priority=True),
        Binding("escape", "leave", "leave", show=False, priority=True),
    ]

    def __init__(
        self, abouts: Sequence[About], *, pictures: bool, refused: NoteText | None = None
    ) -> None:
        super().__init__("Note", wide=True)
        self.abouts, self.with_pictures = tuple(abouts), pictures
        self._before = refused or NoteText(abouts[0], "")
        self.about = self.abouts.index(self._before.about)

    def inside(self) -> Iterable[Widget]:
        yield Static(self._about(), id="about")
        yield TextArea(self._before.text, soft_wrap=True, show_line_numbers=False)
        if self.with_pictures:
            yield Static(Content("pictures, with commas between"), classes="label")
            pictures = ", ".join(self._before.pictures)
            yield Input(pictures, id="pictures", placeholder="pictures/2026/sill.jpg")

    def opened(self) -> None:
        self.query_one(TextArea).focus()

    def foot(self) -> str:
        more = "Tab about   " if len(self.abouts) > 1 else ""
        picture = "Shift+Tab pictures   " if self.with_pictures else ""
        return f"{more}{picture}{self.keys}"

    def unkept(self) -> list[str]:
        text = self.query_one(TextArea).text.strip()
        return [f"{self.asks}:", text] if text else []

    def _about(self) -> Content:
        return Content(f"about: {legible(self.abouts[self.about].words)}")

    def action_about_next(self) -> None:
        self.about = (self.about + 1) % len(self.abouts)
        self.query_one("#about", Static).update(self._about())

    def action_picture(self) -> None:
        area = self.query_one(TextArea)
        there = self.query_one("#pictures", Input) if self.with_pictures else area
        (area if there.has_focus else there).focus()

    def action_new_line(self) -> None:
        self.query_one(TextArea).insert("\n")

    def action_leave(self) -> None:
        if self.unkept():
            sentence = "What you wrote here is not saved yet."
            self.leave_unkept(sentence)
        else:
            self.dismiss(None)

    def action_save(self) -> None:
        """Once the text has taken all that was typed before this key."""
        self.query_one(TextArea).call_later(self._save)

    def _save(self) -> None:
        text = self.query_one(TextArea).text.strip()
        pictures = self.query_one("#pictures", Input).value if self.with_pictures else ""
        note = NoteText(self.abouts[self.about], text, names(pictures))
        self.dismiss(note if text else None)
