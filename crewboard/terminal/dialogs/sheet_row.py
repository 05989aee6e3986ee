"""One row of a filled sheet, with a box for each of its blanks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, Static

from crewboard.legible import legible
from crewboard.telling.filled_sheet import Filled
from crewboard.telling.morning_parts import Blank, MorningRow

# Blanks with which a row goes on in a new line.
_BREAKS = ("begun", "finished", "why")


class SheetRow(Vertical):
    """One row, with a box for each of its blanks."""

    def __init__(self, row: MorningRow) -> None:
        super().__init__()
        self.row = row
        self.boxes = {
            blank.key: Input(classes=f"-{blank.what}", select_on_focus=False)
            for blank in row.blanks
        }

    @property
    def typed(self) -> dict[str, str]:
        """What stands in its boxes, of those that are not empty."""
        return {key: box.value for key, box in self.boxes.items() if box.value.strip()}

    @property
    def called(self) -> str:
        """What the row is called where something is said of it."""
        texts = {key: box.value.strip() for key, box in self.boxes.items()}
        typed = texts.get("name") or texts.get("task") or ""
        return " ".join(filter(None, (self.row.first, self.row.text or typed)))

    def filled(self, place: int) -> Filled:
        return Filled(place, self.row, {key: box.value for key, box in self.boxes.items()})

    def compose(self) -> Iterable[Widget]:
        named = self.row.part in ("who is here", "shop") and bool(self.row.text)
        if not named and (says := self._says()):
            yield Static(Content(legible(says)), classes="says")
        for number, blanks in enumerate(self._lines()):
            with Horizontal(classes="blanks"):
                if named and not number:
                    yield Static(Content(legible(self.row.text)), classes="name")
                for blank in blanks:
                    if blank.says:
                        yield Static(Content(legible(blank.says)), classes="asks")
                    yield self.boxes[blank.key]

    def _says(self) -> str:
        title = " ".join(filter(None, (self.row.first, self.row.text)))
        return f"{title}  {self.row.more}".strip()

    def _lines(self) -> Iterator[list[Blank]]:
        line: list[Blank] = []
        for blank in self.row.blanks:
            if blank.key in _BREAKS and line:
                yield line
                line = []
            line.append(blank)
        yield line
