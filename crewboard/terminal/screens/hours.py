"""Hours of the whole crew for a day, typed into one table."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date
from typing import ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.widget import Widget

from crewboard.logbook.acts import WorkedOn
from crewboard.order.board import Board
from crewboard.order.hours.elsewhere import told_elsewhere
from crewboard.order.hours.guests import Worker
from crewboard.order.safety.checks import checks_of
from crewboard.order.safety.unchecked import SAYS as WITHOUT_A_CHECK
from crewboard.order.said import component_name, day_in_words, how_many, listed, on_in_words
from crewboard.telling.line import Line, Tone
from crewboard.terminal.dialogs.dialog import Confirm
from crewboard.terminal.doing.hours_columns import ask_column, ask_guest
from crewboard.terminal.doing.others import Other, one_of
from crewboard.terminal.doing.which_day import ask_day
from crewboard.terminal.hours_of_day import (
    OTHER,
    Cell,
    HoursOfDay,
    in_order,
    people_of_day,
    totals,
    worked_on_that_day,
    worker_name,
)
from crewboard.terminal.page import Page
from crewboard.terminal.widgets.hours_table import HoursTable
from crewboard.terminal.widgets.prose import Prose

_OTHER_WORDS = "other work, told in a note: sweeping up, a talk, fetching timber"


class HoursPage(Page):
    """The table; below it what the current column is, and what does not fit."""

    CSS_PATH = "hours.tcss"
    word = "Hours"
    explains: ClassVar[tuple[str, ...]] = (
        "Person-hours of everybody on everything of the day. Type a number (2, 2.5, 2,5 or 2:30): "
        "Enter goes to the next person, Tab to the next column, arrows anywhere.",
        "a adds a column: a task, a component, a piece, or a kind of other work that vehicle.toml "
        "names (driving, meetings). Guests who were signed in have rows; Ctrl+G adds one.",
        "Nothing is written before you save; then all of it is written at once. Hours that stood "
        "in the logbook are corrected by a new entry, the old one stays readable.",
        "o fills the empty cells with the time from when each began a task until they left it, "
        "breaks and all: look it over before you save.",
        "A total with a ? is more than the person was in the shop. It is asked, not refused.",
        "h turns to any other day, so that a day can be written down at home.",
    )
    AUTO_FOCUS = "HoursTable"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "save", "save", id="save", tooltip="write the hours into the logbook"),
        Binding("a", "add", "add a column", id="add", tooltip="for what was worked on"),
        Binding(
            *("o", "other", "other: fill in, guest"),
            id="other",
            tooltip="fill empty cells with the time from begin to end; a row for a guest",
        ),
        Binding(
            "ctrl+g", "guest", "guest", show=False, id="guest", tooltip="add a row for a guest"
        ),
        Binding("h", "hours", "hours of another day", id="hours", tooltip="turn to another day"),
        Binding("escape", "back", "back", id="back"),
    ]

    def __init__(self, day: date, columns: Iterable[WorkedOn] = (), at: str = "") -> None:
        """`at`: the task in whose column the cursor stands first, where it has one."""
        super().__init__()
        self.day, self.at = day, at
        self.added: list[WorkedOn] = list(columns)
        self.guests: list[Worker] = []
        self.typed: dict[Cell, float | None] = {}

    def body(self) -> Iterable[Widget]:
        yield HoursTable()
        yield Prose(id="asks")

    @property
    def table(self) -> HoursTable:
        return self.query_one(HoursTable)

    def show(self, board: Board) -> None:
        table, plan = self.table, board.plan
        first = not table.people
        self._take_typed()
        self.book = HoursOfDay(board, self.day)
        self.others = self.board_app.workbench.elsewhere(self.day)
        here, rest = people_of_day(board, self.day)
        here += [guest for guest in self.guests if guest not in here]
        columns = [*worked_on_that_day(board, self.day), *self.added]
        columns = in_order(plan, [*columns, *(cell.on for cell in self.typed)])
        people = [*here, *rest]
        cells = [Cell(worker, on) for worker in people for on in columns]
        table.hours = {cell: self.book.logged(cell) or None for cell in cells} | self.typed
        names = {worker: worker_name(plan, worker) for worker in people}
        table.lay_out(names, len(here), {on: on_in_words(plan, on) for on in columns})
        if first and self.at and (at := WorkedOn(self.at)) in columns:
            table.go_to_column(at)
        elif first:
            table.refresh()
        self._tell()

    def _take_typed(self) -> None:
        """Keep what was typed when the board changes under it."""
        if hasattr(self, "book"):
            changed = self.book.changed(self.table.hours)
            self.typed = {cell: hours or None for cell, hours in changed.items()}

    # --- what is told --------------------------------------------------------------------------

    def on_hours_table_changed(self) -> None:
        self._tell()

    def _tell(self) -> None:
        table, plan = self.table, self.board.plan
        by_person, _ = totals(table.hours.items())
        questions = self.book.questions(by_person)
        table.questioned = frozenset(questions)
        lines = [Line(f"{day_in_words(self.day)}: {self._to_save()}", self._tone())]
        if table.cell is not None:
            lines.append(Line(self._meaning(table.cell.on), "strong", 0, "column:"))
        lines += [
            Line(f'"{text}" is no number of hours: write 2, 2.5 or 2:30', "danger", 0, "wrong:")
            for text in table.wrong.values()
        ]
        lines += [
            Line(f"{worker_name(plan, worker)}: {question}; is that right?", "warning", 0, "?")
            for worker, question in questions.items()
        ]
        lines += [Line(marked, "warning") for marked in self._without_checks()]
        lines += self._elsewhere()
        self.query_one("#asks", Prose).tell(lines)
        table.refresh()

    def _elsewhere(self) -> Iterable[Line]:
        """Who of the people with hours was on another vehicle that day."""
        by_person, _ = totals(self.table.hours.items())
        for worker, hours in by_person.items():
            told = told_elsewhere(self.board.plan, worker, self.others.days)
            if told and hours:
                yield Line(f"{worker_name(self.board.plan, worker)} {told} that day", "caution")
        yield from (Line(sentence, "warning") for _, sentence in self.others.unread)

    def _to_save(self) -> str:
        changed = len(self.book.changed(self.table.hours))
        return f"{changed} to save: Ctrl+S saves" if changed else "nothing new to save"

    def _tone(self) -> Tone:
        return "must" if self.book.changed(self.table.hours) else "faint"

    def _without_checks(self) -> Iterable[str]:
        """Tasks whose new hours will be marked, because a check before them is not signed."""
        changed = {cell.on for cell, hours in self.book.changed(self.table.hours).items() if hours}
        for on in self.table.columns:
            if on in changed and on.task in self.board.plan.tasks:
                unsigned = [a for a in checks_of(self.board, on.task, when="before") if a.open]
                if unsigned:
                    titles = listed(dict.fromkeys(asked.check.short for asked in unsigned))
                    yield f"{self._meaning(on)}: {WITHOUT_A_CHECK} ({titles})"

    def _meaning(self, on: WorkedOn) -> str:
        """The whole name of a column, with its component."""
        if on == OTHER:
            return _OTHER_WORDS
        plan = self.board.plan
        name = on_in_words(plan, on)
        task, piece = plan.tasks.get(on.task), plan.pieces.get(on.piece)
        home = task.component if task else piece.component if piece else ""
        if home:
            return f"{name}, {component_name(plan, home)}"
        return f"{name}, other work" if on.other else name

    # --- the keys ------------------------------------------------------------------------------

    @work
    async def action_add(self) -> None:
        self.table.leave_cell()
        column = await ask_column(self.board_app, self.table.columns)
        if column is not None:
            self.added.append(column)
            self.show(self.board)
            self.table.go_to_column(column)

    @work
    async def action_guest(self) -> None:
        await self._ask_guest()

    async def _ask_guest(self) -> None:
        self.table.leave_cell()
        guest = await ask_guest(self.board_app, self.table.people)
        if guest is not None:
            self.guests.append(guest)
            self.show(self.board)
            self.table.go_to_row(guest)

    @work
    async def action_other(self) -> None:
        filled = Other("fill in", "empty cells, with the time from begin to end", self._fill_in)
        guest = Other("guest", "add a row for a guest", self._ask_guest)
        await one_of(self.board_app, [filled, guest])

    async def _fill_in(self) -> None:
        """Propose for each empty cell the time that somebody was on the task; nothing is saved."""
        self.table.leave_cell()
        empty = {
            cell: hours
            for cell, hours in self.book.proposed().items()
            if not self.table.hours.get(cell) and cell not in self.table.wrong
        }
        self.table.hours |= empty
        self._tell()
        asked = "breaks are still in it: look it over" if empty else "begin and end say no more"
        self.board_app.tell(f"filled: {how_many(len(empty), 'cell')}; {asked}")

    @work
    async def action_hours(self) -> None:
        day = await ask_day(self.board_app, self.day)
        if day is not None and day != self.day:
            self.leave(lambda: self.app.switch_screen(HoursPage(day)))

    def action_save(self) -> None:
        table = self.table
        table.leave_cell()
        if table.wrong:
            self.board_app.tell("mend what is no number of hours first", warning=True)
            return
        entries = self.book.to_write(table.hours, self.board_app.now())
        if not entries:
            self.app.pop_screen()
            return
        self.board_app.record(entries, then=lambda _: self._saved(len(entries)))

    def _saved(self, entries: int) -> None:
        self.typed = {}
        self.board_app.tell(f"hours saved: {how_many(entries, 'entry', 'entries')}")
        if self.is_current:
            self.app.pop_screen()

    def unkept(self) -> list[str]:
        self.table.leave_cell()
        self._take_typed()
        typed = [*self.typed.items(), *self.table.wrong.items()]
        plan = self.board.plan
        lines = [
            f"{worker_name(plan, cell.worker)}, {self._meaning(cell.on)}: {hours or 0}"
            for cell, hours in typed
        ]
        return [f"Hours of {day_in_words(self.day)}:", *lines] if lines else []

    def action_back(self) -> None:
        self.leave(self.app.pop_screen)

    def leave(self, then: Callable[[], object]) -> None:
        self._ask_and_leave(then)

    @work
    async def _ask_and_leave(self, then: Callable[[], object]) -> None:
        self.table.leave_cell()
        changed = len(self.book.changed(self.table.hours)) + len(self.table.wrong)
        if changed:
            unsaved = f"{changed} typed and not saved."
            ask = Confirm("Cancel the hours?", [unsaved], yes="throw away")
            if not await self.app.push_screen_wait(ask):
                return
        then()
