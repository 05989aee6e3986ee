"""Pictures of the folder one after the other: drawn where the terminal can, else opened on the
desktop."""

from __future__ import annotations

from asyncio import to_thread
from collections.abc import Iterable, Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget
from textual.widgets import Static

from crewboard.folder.intake.to_show import ToShow, to_show
from crewboard.folder.read.own_file import WrongFile
from crewboard.telling.line import Line
from crewboard.telling.pictures import PictureTold
from crewboard.terminal.desktop import has_desktop, open_file
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.picture_cells import CannotDraw, can_draw, drawn
from crewboard.terminal.widgets.prose import Prose

_COLOURS = ("256", "truecolor")  # fewer make no picture
_LESS = 6  # lines of the window that the picture leaves to the box and its edges


class PicturesDialog(Dialog[None]):
    """Left and right go from one to the next, Enter opens the file on the desktop."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("right", "next", "next", show=False),
        Binding("left", "before", "before", show=False),
        Binding("enter", "open", "open", show=False),
    ]

    def __init__(self, pictures: Sequence[PictureTold], root: str) -> None:
        super().__init__("Pictures", wide=True)
        self.pictures, self.root, self.at = tuple(pictures), root, 0
        self.found: ToShow | WrongFile | None = None

    def inside(self) -> Iterable[Widget]:
        yield Static(id="picture")
        yield Prose(id="words")

    def foot(self) -> str:
        others = "arrows others   " if len(self.pictures) > 1 else ""
        return f"{others}{'Enter open   ' if has_desktop() else ''}Esc cancel"

    def opened(self) -> None:
        self._turn_to(0)

    def fit(self) -> None:
        self._turn_to(self.at)

    def action_next(self) -> None:
        self._turn_to(min(self.at + 1, len(self.pictures) - 1))

    def action_before(self) -> None:
        self._turn_to(max(self.at - 1, 0))

    def action_open(self) -> None:
        if isinstance(self.found, ToShow):
            why = open_file(self.found.path)
            self.board_app.tell(why or "opened on the desktop", warning=bool(why))

    def _turn_to(self, at: int) -> None:
        self.at = at
        self.run_worker(self._show(), exclusive=True)

    async def _show(self) -> None:
        """Look at the file, draw it where that can be, and say what is on record of it."""
        told = self.pictures[self.at]
        self.found = to_show(self.root, told.file)
        number = f" ({self.at + 1} of {len(self.pictures)})" if len(self.pictures) > 1 else ""
        lines = [Line(f"{told.file}{number}", "strong"), *told.lines]
        why = await self._drawn(self.found, len(lines))
        self.query_one("#picture").display = not why
        if why:
            lines.append(Line(why, "warning"))
        self.query_one("#words", Prose).tell(lines)

    async def _drawn(self, found: ToShow | WrongFile, lines_below: int) -> str:
        """Draw it; why it is not drawn, in a sentence."""
        if isinstance(found, WrongFile):
            return str(found)
        if why := self._why_not_here(found):
            return f"{why}; {_elsewhere()}"
        room = self.size.height - lines_below - _LESS
        width = min(self.size.width - 8, 106)
        try:
            pixels = await to_thread(drawn, found.path, width, max(4, room))
        except CannotDraw as cannot:
            return f"{cannot}; {_elsewhere()}"
        self.query_one("#picture", Static).update(pixels)
        return ""

    def _why_not_here(self, found: ToShow) -> str:
        if not found.sort.is_picture:
            return f"this is a {found.sort.word}, which no terminal shows"
        if self.board_app.plain or self.app.console.color_system not in _COLOURS:
            return "this terminal has too few colours for a picture"
        if not can_draw():
            return 'what draws pictures is not installed here (pip install "crewboard[pictures]")'
        return ""


def _elsewhere() -> str:
    return "Enter opens it" if has_desktop() else "there is no desktop here to open it on"
