"""Lines to read, and rows with what there is to read of one beside them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar, NamedTuple

from rich.segment import Segment
from rich.style import Style
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.geometry import Size
from textual.strip import Strip
from textual.widget import Widget

from crewboard.legible import legible
from crewboard.telling.line import Line, Tone
from crewboard.terminal.cells import cell_len, wrapped
from crewboard.terminal.tones import tones_of
from crewboard.terminal.widgets.line_view import LineView


class _Laid(NamedTuple):
    """One line on the screen."""

    lead: str
    text: str
    lead_tone: Tone
    tone: Tone
    bold: bool


class Prose(LineView, can_focus=True):
    """A page of `Line`s."""

    DEFAULT_CSS = (
        "Prose { height: 1fr; min-width: 1; scrollbar-size-vertical: 1; overflow-x: hidden; }"
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "scroll_up", "up", show=False),
        Binding("down", "scroll_down", "down", show=False),
        Binding("pageup", "page_up", "page up", show=False),
        Binding("pagedown,space", "page_down", "page down", show=False),
        Binding("home", "scroll_home", "first", show=False),
        Binding("end", "scroll_end", "last", show=False),
    ]

    def __init__(
        self,
        lines: Iterable[Line] = (),
        *,
        spare: int = 8,
        id: str | None = None,
        classes: str | None = None,
    ) -> None:
        """`spare` lines stay free for what stands around it where its height is `auto`."""
        super().__init__(id=id, classes=classes)
        self.lines: tuple[Line, ...] = tuple(lines)
        self.spare = spare
        self._laid: list[_Laid] = []

    def tell(self, lines: Iterable[Line], *, from_top: bool = True) -> None:
        """Show other lines."""
        new = tuple(lines)
        if new == self.lines:
            return
        self.lines = new
        before = self._laid
        self._lay(self.size.width)
        if self.styles.is_auto_height:
            self.refresh(layout=True)
        if from_top:
            self.scroll_to(y=0, animate=False)
        top = self.scroll_offset.y
        for at in range(top, top + self.size.height):
            if before[at : at + 1] != self._laid[at : at + 1]:
                self.refresh_lines(at)

    def go_to_text(self, text: str) -> bool:
        """Scroll to the next line that holds the text; False where none does."""
        wanted = text.casefold()
        count = len(self._laid)
        start = self.scroll_offset.y
        for ahead in range(count):
            at = (start + ahead) % count
            if wanted and wanted in f"{self._laid[at].lead}{self._laid[at].text}".casefold():
                self.scroll_to(y=at, animate=False)
                return True
        return False

    def action_page_up(self) -> None:
        self.scroll_page_up(animate=False)

    def action_page_down(self) -> None:
        self.scroll_page_down(animate=False)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002
        """As high as the text, as far as the window allows: used where the height is `auto`."""
        self._lay(width)
        return max(1, min(len(self._laid), viewport.height - self.spare))

    def on_resize(self) -> None:
        self._lay(self.size.width)
        self.refresh()

    def _lay(self, full_width: int) -> None:
        width = max(1, full_width - 1)
        self._laid = []
        for line in self.lines:
            lead = " " * line.indent + (f"{legible(line.word)} " if line.word else "")
            text = legible(line.text, lines=True).expandtabs(4)
            room = width - line.indent
            parts = wrapped(text, max(8, width - cell_len(lead)))
            if cell_len(lead) > width - 12:  # no room beside the word
                self._laid.append(_Laid(lead, "", line.tone, line.tone, line.bold))
                lead, parts = " " * line.indent, wrapped(text, max(1, room))
            tone: Tone = "plain" if line.word else line.tone
            for number, part in enumerate(parts):
                before = lead if number == 0 else " " * cell_len(lead)
                self._laid.append(_Laid(before, part, line.tone, tone, line.bold))
        self.reach(full_width, max(1, len(self._laid)))

    def render_line(self, y: int) -> Strip:
        width, base = self.size.width, self.rich_style
        at = y + self.scroll_offset.y
        if width <= 0 or at >= len(self._laid):
            return Strip.blank(max(0, width), base)
        laid = self._laid[at]
        lead = base + Style(color=tones_of(self.app)[laid.lead_tone], bold=True)
        body = base + Style(color=tones_of(self.app)[laid.tone], bold=laid.bold or None)
        return Strip([Segment(laid.lead, lead), Segment(laid.text, body)]).adjust_cell_length(
            width, base
        )


class Beside(Prose, can_focus=False):
    """The keys stay with the rows, which it follows."""

    def __init__(self) -> None:
        super().__init__(id="beside")


def rows_and_beside(rows: Widget) -> Container:
    """Both, side by side or one above the other as the page's stylesheet says."""
    return Container(rows, Beside(), id="split")
