"""The crew: who is here, hours, skills, certificates and the days they lapse."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.timer import Timer
from textual.types import CSSPathType
from textual.widget import Widget

from crewboard.order.board import Board
from crewboard.telling.crew import crew_rows
from crewboard.telling.person import person_lines
from crewboard.terminal.keys import DAYS_KEY, PERSON_KEYS, PersonKeys
from crewboard.terminal.widgets.heads import Heads
from crewboard.terminal.widgets.prose import Prose, rows_and_beside
from crewboard.terminal.widgets.rows import Column, RowList

COLUMNS = (
    Column(11),
    Column(),
    Column(6, right=True),
    Column(7, right=True),
    Column(8, right=True),
)
HEADS = ("", "", "month", "year", "in all")


class CrewPage(PersonKeys):
    """Sign in and out, read and edit people."""

    CSS_PATH: ClassVar[CSSPathType | None] = "crew.tcss"
    word = "Crew"
    explains: ClassVar[tuple[str, ...]] = (
        "Everybody of the crew: who is here and since when, who is expected, and the hours of "
        "this month, this year and in all.",
        "Under a name stand certificates that have lapsed or lapse within two months. Enter opens "
        "the person's sheet with all certificates, skills, next work days, hours by month and "
        "task; a on it adds a certificate or renews one.",
        "What is edited here goes into crew.toml; the logbook keeps every hour, whoever left.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        *PERSON_KEYS,
        DAYS_KEY,
        Binding("a", "add", "add", id="add", tooltip="add a person to the crew"),
        Binding("delete", "remove", "remove", show=False, id="remove", tooltip="remove the person"),
    ]

    _soon: Timer | None = None

    def body(self) -> Iterable[Widget]:
        yield rows_and_beside(
            Vertical(
                Heads(COLUMNS, HEADS),
                RowList(COLUMNS, empty="nobody yet: a adds a person", id="people"),
                id="left",
            )
        )

    def show(self, board: Board) -> None:
        self.query_one("#people", RowList).fill(crew_rows(board))
        self._tell_beside()

    @property
    def chosen_person(self) -> str:
        return self.query_one("#people", RowList).at

    def reveal(self, who: str) -> None:
        self.query_one("#people", RowList).go_to(who)

    def on_row_list_moved(self) -> None:
        # A sheet sums up the whole logbook: it is laid out once the cursor rests.
        if self._soon is not None:
            self._soon.stop()
        self._soon = self.set_timer(0.05, self._tell_beside)

    def _tell_beside(self) -> None:
        if self.has_class("-wide") and self.chosen_person:
            lines = person_lines(self.board, self.chosen_person, plain=self.board_app.plain)
            self.query_one("#beside", Prose).tell(lines)

    def on_resize(self) -> None:
        self.call_after_refresh(self._tell_beside)

    def on_row_list_opened(self, event: RowList.Opened) -> None:
        from crewboard.terminal.screens.person import PersonPage

        self.app.push_screen(PersonPage(event.row_id))

    @work
    async def action_days(self) -> None:
        from crewboard.terminal.doing.days import days

        await days(self.board_app)

    @work
    async def action_add(self) -> None:
        from crewboard.terminal.planning.person_form import add_person

        if who := await add_person(self.board_app):
            self.reveal(who)

    @work
    async def action_remove(self) -> None:
        from crewboard.terminal.planning.person_form import remove_person

        if self.chosen_person:
            await remove_person(self.board_app, self.chosen_person)
