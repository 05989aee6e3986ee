"""The tasks of a component in one table: a row each, typed one after the other, saved at once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import partial
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from crewboard.folder.edit.as_written import written_table
from crewboard.folder.edit.plan_edits import Change
from crewboard.legible import legible
from crewboard.order.admit.refusal import Refusal
from crewboard.order.said import component_name, how_many
from crewboard.telling.line import GAP, Line, step_by_step
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.dialog import Dialog, Panel
from crewboard.terminal.forms.reading import Wrong
from crewboard.terminal.planning.task_rows import (
    AFTER,
    HINTS,
    NAMES,
    TITLE,
    InTable,
    RowEdit,
    TypedRows,
    WrongCell,
    proposed,
    shown_cells,
)
from crewboard.terminal.planning.written import ask_about_words, change_here, changed_meanwhile
from crewboard.terminal.widgets.cell_table import CellColumn, CellTable

COLUMNS = tuple(map(CellColumn, NAMES, (0, 9, 8, 7, 14)))


async def task_table(app: BoardApp, component_id: str) -> str:
    """Type a component's tasks; the id of the last one that is new, empty where none is."""
    table = TaskTable(app, component_id)
    if not await app.push_screen_wait(table):
        return ""
    app.tell(f"{how_many(table.kept, 'task')} saved in the plan; u undoes")
    ask_about_words(app, table.touched_ids)
    return table.touched_ids[-1]


class TaskTable(Dialog[bool]):
    """Answers True when kept, None when left. `touched_ids` are the tasks that were kept."""

    keys: ClassVar[str] = "Tab next cell   Enter next row   Ctrl+S save   Esc cancel"
    typed_in: ClassVar[bool] = True
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "keep", "save", show=False, priority=True),
    ]

    def __init__(self, app: BoardApp, component_id: str) -> None:
        plan = app.board.plan
        super().__init__(f"Tasks of {component_name(plan, component_id)}", wide=True)
        self.component = component_id
        tasks = [t for t in plan.all_written().values() if t.component == component_id]
        numbers = {task.id: number for number, task in enumerate(tasks)}
        self.stand = []
        for task in tasks:
            written = written_table(app.workbench.folder, "task", task.id)
            cells = shown_cells(task, written, numbers, plan)
            self.stand.append(InTable(task, written, cells))
        rows = [standing.cells for standing in self.stand]
        self.table = CellTable(COLUMNS, rows, partial(proposed, len(rows)))
        self.touched_ids: list[str] = []

    @property
    def kept(self) -> int:
        """How many tasks are new or were changed."""
        return len(self.touched_ids)

    def inside(self) -> Iterable[Widget]:
        yield self.table
        yield Static(id="cell")

    def opened(self) -> None:
        self.table.focus()

    @property
    def typed(self) -> TypedRows:
        return TypedRows(self.table.filled, self.stand, self.component, self.board_app.board.plan)

    # --- saying --------------------------------------------------------------------------------

    def on_cell_table_retyped(self) -> None:
        self._tell(*self._of_the_cell())

    def _of_the_cell(self) -> tuple[str, bool]:
        """What the cell takes, or what is meant by what is typed in it; whether it is wrong."""
        row, column = self.table.row, self.table.column
        typed, text = self.table.rows[row][column], self.table.filled[row][column]
        if column == AFTER and text.strip():
            try:
                sentence = f"comes after {self.typed.in_words(row, text)}"
            except Wrong as wrong:
                return str(wrong), False  # it may be half typed yet
            return (sentence if typed else f"{sentence}; else type what, or Delete"), False
        if text != typed:
            return f"{NAMES[column]}: as in the row above; else type it, or Delete", False
        return f"{NAMES[column]}: {HINTS[column]}", False

    def _tell(self, sentence: str, is_wrong: bool) -> None:
        line = self.query_one("#cell", Static)
        line.set_class(is_wrong, "wrong")
        line.update(Content(legible(sentence)))

    # --- keeping and leaving -------------------------------------------------------------------

    @property
    def touched(self) -> bool:
        stand = [list(standing.cells) for standing in self.stand]
        return [row for row in self.table.rows if any(row)] != stand

    def unkept(self) -> list[str]:
        rows = [", ".join(filter(None, row)) for row in self.table.rows if any(row)]
        return [f"{self.asks}:", *rows] if self.touched else []

    def action_keep(self) -> None:
        """Keep, but only once the table has taken all that was typed before this key."""
        self.table.call_later(self._keep)

    def _keep(self) -> None:
        try:
            edits = self.typed.edits()
        except WrongCell as wrong:
            self._show_wrong(wrong)
            return
        if not edits:
            self.dismiss(None)
        elif refused := self._refused(edits):
            self._show_wrong(self._which(edits, refused), refused)
        else:
            self.touched_ids = list(dict.fromkeys(one.edit.id for one in edits))
            self.dismiss(True)

    def _refused(self, edits: Sequence[RowEdit]) -> Sequence[Refusal]:
        app = self.board_app
        for row, edit in edits:
            if row < len(self.stand) and isinstance(edit, Change):
                shown, folder = self.stand[row].table, app.workbench.folder
                if new := changed_meanwhile(folder, "task", edit.id, shown, edit.values):
                    return new
        name = component_name(app.board.plan, self.component)
        return change_here(app, [one.edit for one in edits], f"the tasks of {name}")

    def _which(self, edits: Sequence[RowEdit], refused: Sequence[Refusal]) -> WrongCell:
        """The row whose edit is the first that cannot be made."""
        trial = self.board_app.workbench.trial
        good, bad = 0, len(edits)
        while bad - good > 1:
            middle = (good + bad) // 2
            if trial(*(one.edit for one in edits[:middle])):
                bad = middle
            else:
                good = middle
        row, edit = edits[bad - 1]
        only_after = isinstance(edit, Change) and set(edit.values) == {"after"}
        column = AFTER if only_after or any(r.steps for r in refused) else TITLE
        first = refused[0]
        return WrongCell(row, column, first.says + (f"; {first.mend}" if first.mend else ""))

    def _show_wrong(self, wrong: WrongCell, refused: Sequence[Refusal] = ()) -> None:
        self.table.wrong.add((wrong.row, wrong.column))
        self.table.go_to(wrong.row, wrong.column)
        self.call_after_refresh(self._tell, f"Not saved: {wrong}", True)
        steps = [refusal for refusal in refused if refusal.steps]
        if steps:
            lines = [Line(f"{steps[0].says}:", "danger"), *step_by_step(steps[0].steps), GAP]
            self.app.push_screen(Panel("Not saved", lines[:-1]))

    def action_leave(self) -> None:
        if self.touched:
            sentence = "What you typed here is not saved yet."
            self.leave_unkept(sentence)
        else:
            self.dismiss(None)
