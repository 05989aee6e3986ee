"""Hours of the whole crew for a day, typed into one table."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date
from typing import ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.widget import Widget

from crewboard.order.board import Board
from crewboard.order.safety.checks import checks_of
from crewboard.order.safety.unchecked import SAYS as WITHOUT_A_CHECK
from crewboard.order.said import day_in_words, how_many, listed, person
from crewboard.telling.line import Line
from crewboard.terminal.dialogs.choose import task_choices
from crewboard.terminal.dialogs.dialog import Confirm
from crewboard.terminal.dialogs.pick import Choice, PickOne
from crewboard.terminal.hours_of_day import (
    OTHER,
    HoursOfDay,
    people_of_day,
    tasks_of_day,
    totals,
)
from crewboard.terminal.page import Page
from crewboard.terminal.widgets.hours_table import HoursTable, letter
from crewboard.terminal.widgets.legend import Legend, Meaning
from crewboard.terminal.widgets.prose import Prose

_OTHER_ID = "(other)"
_OTHER_WORDS = "other work: sweeping up, a talk, fetching timber"


class HoursPage(Page):
    """The table, the tasks of its letters below, and what does not fit."""

    CSS_PATH = "hours.tcss"
    word = "Hours"
    explains: ClassVar[tuple[str, ...]] = (
        "Person-hours of everybody on every task of the day. Type a number (2, 2.5, 2,5 or 2:30): "
        "Enter goes to the next person, Tab to the next task, arrows anywhere.",
        "The letters over the columns are told below the table. Nothing is written before you "
        "save; then all of it is written at once. Hours that stood in the logbook are corrected by "
        "a new line, the old line stays readable.",
        "A total with a ? is more than the person was in the shop. It is asked, not refused.",
    )
    AUTO_FOCUS = "HoursTable"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("s,ctrl+s", "save", "save", id="save", tooltip="write the hours into the logbook"),
        Binding("a", "add_task", "add a task", id="add-task", tooltip="add a column for a task"),
        Binding("escape", "back", "back", id="back"),
    ]

    def __init__(self, day: date) -> None:
        super().__init__()
        self.day = day
        self.added: list[str] = []
        self.typed: dict[tuple[str, str], float | None] = {}

    def body(self) -> Iterable[Widget]:
        yield HoursTable()
        yield Legend(id="legend")
        yield Prose(id="asks")

    @property
    def table(self) -> HoursTable:
        return self.query_one(HoursTable)

    def show(self, board: Board) -> None:
        table = self.table
        first = not table.people
        self._take_typed()
        self.book = HoursOfDay(board, self.day)
        here, rest = people_of_day(board, self.day)
        tasks = tasks_of_day(board, self.day)
        tasks += [task for task in self.added if task not in tasks]
        tasks += [task for _, task in self.typed if task not in tasks and task in board.plan.tasks]
        tasks = sorted(dict.fromkeys(tasks), key=lambda t: t == OTHER)
        people = [*here, *rest]
        names = {who: person(board.plan, who) for who in people}
        cells = [(who, task) for who in people for task in tasks]
        table.hours = {cell: self.book.logged(cell) or None for cell in cells} | self.typed
        table.lay_out(people, len(here), names, tasks)
        if first:
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
        meanings = [Meaning(letter(n), self._meaning(task)) for n, task in enumerate(table.tasks)]
        current = table.tasks.index(table.cell[1]) if table.cell is not None else 0
        self.query_one(Legend).tell(meanings, current)
        by_person, _ = totals(table.hours.items())
        questions = self.book.questions(by_person)
        table.questioned = frozenset(questions)
        lines = [
            Line(f'"{text}" is no number of hours: write 2, 2.5 or 2:30', "danger", 0, "wrong:")
            for text in table.wrong.values()
        ]
        lines += [
            Line(f"{person(plan, who)}: {question}; is that right?", "warning", 0, "?")
            for who, question in questions.items()
        ]
        lines += [Line(marked, "warning") for marked in self._without_checks()]
        changed = len(self.book.changed(table.hours))
        if changed:
            lines.append(Line(f"{how_many(changed, 'cell')} to write: s saves", "must"))
        elif not lines:
            lines.append(Line(f"{day_in_words(self.day)}: as in the logbook", "faint"))
        self.query_one("#asks", Prose).tell(lines)
        table.refresh()

    def _without_checks(self) -> Iterable[str]:
        """Tasks whose new hours will be marked, because a check before them is not signed."""
        changed = {
            task for (_, task), hours in self.book.changed(self.table.hours).items() if hours
        }
        for task in self.table.tasks:
            if task in changed and task in self.board.plan.tasks:
                unsigned = [a for a in checks_of(self.board, task, when="before") if a.open]
                if unsigned:
                    ids = listed(dict.fromkeys(asked.check.id for asked in unsigned))
                    yield f"{self._meaning(task)}: {WITHOUT_A_CHECK} ({ids})"

    def on_legend_picked(self, event: Legend.Picked) -> None:
        self.table.go_to_column(self.table.tasks[event.number])
        self.table.focus()

    def _meaning(self, task: str) -> str:
        if task == OTHER:
            return _OTHER_WORDS
        known = self.board.plan.tasks.get(task)
        return known.title if known else task

    # --- the keys ------------------------------------------------------------------------------

    @work
    async def action_add_task(self) -> None:
        self.table.leave_cell()
        there = set(self.table.tasks)
        choices = [c for c in task_choices(self.board) if c.id not in there]
        if OTHER not in there:
            choices.append(Choice(_OTHER_ID, _OTHER_WORDS, "no task"))
        picked = await self.app.push_screen_wait(PickOne("Add a column for which task?", choices))
        if picked is not None:
            task = OTHER if picked == _OTHER_ID else picked
            self.added.append(task)
            self.show(self.board)
            self.table.go_to_column(task)

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

    def _saved(self, lines: int) -> None:
        self.typed = {}
        self.board_app.tell(f"hours kept: {how_many(lines, 'line')}")
        if self.is_current:
            self.app.pop_screen()

    def unkept(self) -> list[str]:
        self.table.leave_cell()
        self._take_typed()
        typed = [*self.typed.items(), *self.table.wrong.items()]
        lines = [
            f"{person(self.board.plan, who)}, {self._meaning(task)}: {hours or 0}"
            for (who, task), hours in typed
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
            unsaved = f"{how_many(changed, 'cell')} typed and not written."
            ask = Confirm("Leave the hours?", [unsaved], yes="throw them away", no="stay")
            if not await self.app.push_screen_wait(ask):
                return
        then()
