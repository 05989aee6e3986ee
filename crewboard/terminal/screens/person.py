"""One person's sheet on a screen of its own."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.types import CSSPathType
from textual.widget import Widget

from crewboard.order.board import Board
from crewboard.telling.person import person_lines
from crewboard.terminal.keys import PERSON_KEYS, PersonKeys
from crewboard.terminal.widgets.prose import Prose


class PersonPage(PersonKeys):
    """Read one person's sheet, and edit it."""

    CSS_PATH: ClassVar[CSSPathType | None] = "person.tcss"
    word = "Person"
    explains: ClassVar[tuple[str, ...]] = (
        "Everything known of one person: skills, certificates with the word good, lapses soon or "
        "LAPSED, the next work days, and hours by year, month and task.",
        "e edits the person, a adds or renews a certificate; both are saved in crew.toml.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        *PERSON_KEYS,
        Binding("a", "add", "add a certificate", id="add", tooltip="add or renew a certificate"),
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

    def action_add(self) -> None:
        from crewboard.terminal.planning.person_form import renew

        self.board_app.run_worker(renew(self.board_app, self.who))

    def reveal(self, who: str) -> None:
        self.who = who
        self.show(self.board)

    def find(self, text: str) -> None:
        """Nothing to filter here: a find goes to the first line that holds the text."""
        self.query_one(Prose).go_to_text(text)
