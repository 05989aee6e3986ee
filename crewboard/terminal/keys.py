"""The keys that act on what the cursor is on, the same on every page: on a task, on the plan, on a
person.

Where tasks are marked the keys for tasks take all of them at once. A page lets its rows be marked
by `MARK_KEYS` among its `BINDINGS` and by `Row.tasks` of its rows: the task of a row, or all those
that a folded series stands for. Of a folded series that is not marked the keys ask which of its
pieces are meant.
"""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from typing import TYPE_CHECKING

from textual.binding import Binding

from crewboard.order.said import how_many
from crewboard.telling.series import to_take_up
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.jot_keys import JOT_KEYS, JotKeys
from crewboard.terminal.meant import Meant
from crewboard.terminal.page import Page
from crewboard.terminal.widgets.rows import RowList

if TYPE_CHECKING:
    from crewboard.terminal.doing.jot import Of

OTHER_KEY = Binding(
    "o",
    "other",
    "other",
    id="other",
    tooltip="reopen, set aside, hours left, a near miss or an injury",
)
PICTURES_KEY = Binding(
    "z",
    "pictures",
    "pictures",
    show=False,
    id="pictures",
    tooltip="pictures and recordings: take them in from a phone, and sort them",
)
HOURS_KEY = Binding(
    "h", "hours", "hours", id="hours", tooltip="hours of the whole crew in one table"
)
RECKON_KEY = Binding(
    *("equals_sign", "reckon", "reckon"),
    show=False,
    key_display="=",
    id="reckon",
    tooltip="reckon: bends, boards, coats, air, nails, for what the cursor is on",
)
THEN_KEY = Binding(
    "t", "then", "then", id="then", tooltip="what comes next: what finishing it frees"
)
TASK_KEYS: list[Binding] = [
    Binding("b", "begin", "begin", id="begin", tooltip="begin the task: pick who works on it"),
    Binding("f", "finish", "finish", id="finish", tooltip="finish the task; its hold starts"),
    Binding("c", "checks", "check", id="checks", tooltip="sign the safety checks of the task"),
    Binding("l", "look", "look", id="look", tooltip="look at a hold: release or extend it"),
    Binding("w", "why", "why", id="why", tooltip="why the task is ready, waiting or on hold"),
    THEN_KEY,
    OTHER_KEY,
    *JOT_KEYS,
    RECKON_KEY,
    Binding("n", "note", "note", id="note", tooltip="write a note, on the task or on the day"),
]
MARK_KEYS: list[Binding] = [
    Binding(
        *("space", "mark", "mark"),
        show=False,
        id="mark",
        tooltip="mark the row: begin, finish, check, hours, note and other then take all marked",
    ),
]


class TaskKeys(JotKeys):
    """A page on which `chosen_task` is the id of the task that the keys are for."""

    @property
    def chosen_task(self) -> str:
        """The id of the chosen task, empty where none is."""
        raise NotImplementedError

    @property
    def chosen_hold(self) -> str:
        """The id of the hold on or before the chosen task, empty where none is."""
        from crewboard.terminal.doing.hold import hold_on

        return hold_on(self.board_app.board, self.chosen_task)

    @property
    def chosen_holds(self) -> tuple[str, ...]:
        """Those that stand in one row, where there are several."""
        return (self.chosen_hold,)

    # --- marking -------------------------------------------------------------------------------

    @property
    def task_rows(self) -> RowList | None:
        """The list whose rows can be marked."""
        lists = self.query(RowList)
        return lists.first() if lists else None

    @property
    def meant(self) -> Meant:
        """The tasks that the keys are for: those marked, else those of the row under the cursor."""
        rows = self.task_rows
        if rows is not None and rows.marks:
            return Meant(rows.marks, marked=True)
        if self.chosen_task:
            return Meant((self.chosen_task,))
        return Meant(rows.row.tasks if rows is not None and rows.row is not None else ())

    def action_mark(self) -> None:
        rows = self.task_rows
        if rows is None or rows.row is None or not rows.row.tasks:
            return
        rows.mark(to_take_up(self.board, rows.row.tasks))
        if rows.marks:
            self.board_app.tell(f"{how_many(len(rows.marks), 'task')} marked; Esc unmarks")

    def action_back(self) -> None:
        rows = self.task_rows
        if rows is not None and rows.marks:
            rows.unmark()
        else:
            super().action_back()

    def _do(self, act: Callable[[BoardApp, Meant], Awaitable[bool]]) -> None:
        self.board_app.run_worker(self._done(act, self.meant))

    async def _done(self, act: Callable[[BoardApp, Meant], Awaitable[bool]], meant: Meant) -> None:
        """Once it is written nothing is marked any more."""
        rows = self.task_rows
        if await act(self.board_app, meant) and rows is not None:
            rows.unmark()

    # --- the keys ------------------------------------------------------------------------------

    def action_look(self) -> None:
        from crewboard.terminal.doing.hold import look_at_hold

        self.board_app.run_worker(look_at_hold(self.board_app, *self.chosen_holds))

    def action_why(self) -> None:
        if self._read:
            self.board_app.why(self._read)

    def action_then(self) -> None:
        if self._read:
            self.board_app.what_then(self._read)

    @property
    def _read(self) -> str:
        """The task or series of which something is to be read."""
        if self.chosen_task or len(self.meant.tasks) == 1:
            return self.chosen_task or self.meant.tasks[0]
        row = self.task_rows.row if self.task_rows is not None else None
        return self.board.plan.tasks[row.tasks[0]].series if row and row.tasks else ""

    def action_begin(self) -> None:
        from crewboard.terminal.doing.begin import begin

        self._do(begin)

    def action_finish(self) -> None:
        from crewboard.terminal.doing.finish import finish

        self._do(finish)

    def action_checks(self) -> None:
        from crewboard.terminal.doing.sign_checks import sign_checks

        self._do(sign_checks)

    def action_note(self) -> None:
        from crewboard.terminal.doing.other import note

        self._do(note)

    @property
    def jotted_of(self) -> Of | None:
        from crewboard.terminal.doing.jot import of_holds, of_tasks

        meant = self.meant
        known = [one for one in self.chosen_holds if one in self.board.holds]
        if not any(task in self.board.plan.tasks for task in meant.tasks) and known:
            return of_holds(self.board, known)
        return of_tasks(self.board, meant.tasks, marked=meant.marked)

    def action_reckon(self) -> None:
        from crewboard.terminal.doing.reckon import For, reckon

        held = self.board.holds.get(self.chosen_hold)
        task = self._read or next(iter(self.meant.tasks), "") or (held.task if held else "")
        self.board_app.run_worker(reckon(self.board_app, For(task)))

    def action_pictures(self) -> None:
        from crewboard.terminal.screens.sorting import SortingPage

        self.app.push_screen(SortingPage())

    def action_other(self) -> None:
        from crewboard.terminal.doing.other import other

        self._do(other)

    def action_hours(self) -> None:
        """The day's table; where several tasks are meant, the hours that were worked on all."""
        if len(self.meant.tasks) > 1:
            from crewboard.terminal.doing.hours_on import hours_on

            self._do(hours_on)
            return
        self.board_app.run_worker(self._hours())

    async def _hours(self) -> None:
        from crewboard.terminal.doing.which_day import which_day
        from crewboard.terminal.screens.hours import HoursPage

        task = next(iter(self.meant.tasks), "")
        if day := await which_day(self.board_app):
            self.app.push_screen(HoursPage(day, at=task))


PLAN_KEYS: list[Binding] = [
    Binding("e", "edit", "edit", id="edit", tooltip="edit what the cursor is on"),
    Binding("a", "add", "add", id="add", tooltip="add a task, a part or a component"),
    Binding("delete", "remove", "remove", show=False, id="remove", tooltip="remove it"),
]


class PlanKeys(Page):
    """A page on which `chosen` is the id of the component, part or task under the cursor."""

    @property
    def chosen(self) -> str:
        raise NotImplementedError

    def reveal(self, some_id: str) -> None:
        """Show what was just kept, where the page can."""

    def action_edit(self) -> None:
        if self.chosen:
            self.board_app.run_worker(self._edit(self.chosen))

    def action_add(self) -> None:
        self.board_app.run_worker(self._add(self.chosen))

    def action_remove(self) -> None:
        from crewboard.terminal.planning.edit import remove

        if self.chosen:
            self.board_app.run_worker(remove(self.board_app, self.chosen))

    async def _edit(self, some_id: str) -> None:
        from crewboard.terminal.planning.edit import edit

        if kept := await edit(self.board_app, some_id):
            self.reveal(kept)

    async def _add(self, near: str) -> None:
        from crewboard.terminal.planning.edit import add

        if kept := await add(self.board_app, near):
            self.reveal(kept)


DAYS_KEY = Binding(
    "d", "days", "days", id="days", tooltip="work days to come: who comes, or it is called off"
)
IN_OR_OUT_KEY = Binding("i", "in_or_out", "in/out", id="in", tooltip="sign people in and out")
PERSON_KEYS: list[Binding] = [
    IN_OR_OUT_KEY,
    Binding("e", "edit", "edit", id="edit", tooltip="edit the person"),
]


class PersonKeys(Page):
    """A page on which `chosen_person` is the id of the person that the keys are for."""

    @property
    def chosen_person(self) -> str:
        raise NotImplementedError

    def reveal(self, who: str) -> None:
        """Show the person, where the page can."""

    def action_in_or_out(self) -> None:
        """The list of who is here, with the cursor on the person."""
        from crewboard.terminal.doing.sign_in import sign_in

        self.board_app.run_worker(sign_in(self.board_app, who=self.chosen_person))

    def action_edit(self) -> None:
        if self.chosen_person:
            self.board_app.run_worker(self._edit(self.chosen_person))

    async def _edit(self, who: str) -> None:
        from crewboard.terminal.planning.person_form import edit_person

        if kept := await edit_person(self.board_app, who):
            self.reveal(kept)
