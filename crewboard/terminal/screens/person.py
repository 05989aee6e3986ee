"""One person's sheet on a screen of its own."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget

from crewboard.order.board import Board
from crewboard.telling.person import person_lines
from crewboard.terminal.keys import PERSON_KEYS, PersonKeys
from crewboard.terminal.widgets.prose import Prose


class PersonPage(PersonKeys):
    """Read one person's sheet, and edit it."""

    word = "Person"
    explains: ClassVar[tuple[str, ...]] = (
        "Everything known of one person: skills, certificates with the word good, lapses soon or "
        "LAPSED, the next work days, and hours by year, month and task.",
        "e edits the person, c adds or renews a certificate; both are saved in crew.toml.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("i", "in_or_out", "in or out", id="in", tooltip="sign the person in, or out"),
        *PERSON_KEYS,
        Binding("escape", "back", "back", id="back"),
    ]

    def __init__(self, who: str) -> None:
        super().__init__()
        self.who = who

    def body(self) -> Iterable[Widget]:
        yield Prose(id="sheet")

    def show(self, board: Board) -> None:
        lines = person_lines(board, self.who, plain=self.board_app.plain)
        self.query_one(Prose).tell(lines, from_top=False)

    @property
    def chosen_person(self) -> str:
        return self.who

    def reveal(self, who: str) -> None:
        self.who = who
        self.show(self.board)

    def find(self, text: str) -> None:
        """Nothing to filter here: a find goes to the first line that holds the text."""
        self.query_one(Prose).go_to_text(text)
