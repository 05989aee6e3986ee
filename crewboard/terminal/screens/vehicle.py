"""The vehicle: its components as a tree, how far each is, and what comes after what."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.types import CSSPathType
from textual.widget import Widget

from crewboard.order.board import Board
from crewboard.telling.line import Line
from crewboard.telling.row import Row
from crewboard.telling.series import series_lines
from crewboard.telling.task import comes_after, short_sheet
from crewboard.telling.vehicle import Tree, component_lines
from crewboard.terminal.keys import PLAN_KEYS, TASK_KEYS, PlanKeys, TaskKeys
from crewboard.terminal.page import PageWithBeside
from crewboard.terminal.widgets.prose import rows_and_beside
from crewboard.terminal.widgets.rows import Column, RowList

COLUMNS = (
    Column(10),
    Column(),
    Column(9, right=True, tone="faint"),
    Column(8, right=True, tone="faint"),
)
DEEPEST = 8  # levels beyond which a branch is no longer set in further


class VehiclePage(PlanKeys, TaskKeys, PageWithBeside):
    """Open and close branches, read and edit what they hold."""

    CSS_PATH: ClassVar[CSSPathType | None] = "vehicle.tcss"
    word = "Vehicle"
    explains: ClassVar[tuple[str, ...]] = (
        "The vehicle as a tree: main components, their parts, their tasks. Beside each component "
        "stands how many of its tasks are finished and how many hours went into it; set-aside "
        "tasks do not count.",
        "A component's state is the liveliest of its tasks: under way before ready, ready before "
        "held, held before waiting. Right arrow opens a branch, left arrow closes it or goes up.",
        "With e and a the plan is edited: what is kept goes into the component's file, where "
        "comments and order stay as they were. An order of work that would go round in a loop is "
        "refused, and the loop is named.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("right", "unfold", "open", show=False, tooltip="open the branch"),
        Binding("left", "fold", "close", show=False, tooltip="close the branch, or go up"),
        Binding("space", "turn", "open or close", show=False, tooltip="open or close the branch"),
        Binding("plus", "unfold_all", "open all", show=False, key_display="+", tooltip="open all"),
        Binding("minus", "fold_all", "close all", show=False, key_display="-", tooltip="close all"),
        *PLAN_KEYS,
        Binding("d", "days", "days", id="days", tooltip="the vehicle, its work days, the shop"),
        *TASK_KEYS,
    ]

    def __init__(self) -> None:
        super().__init__()
        self.opened: set[str] = set()
        self._finding = ""

    def body(self) -> Iterable[Widget]:
        yield rows_and_beside(RowList(COLUMNS, empty="no components yet: a adds one", id="tree"))

    def show(self, board: Board) -> None:
        self.vehicle = Tree(board)
        self._fill()

    def _fill(self, at: str | None = None) -> None:
        rows = self.query_one("#tree", RowList)
        rows.query_text = self._finding
        if self._finding:
            rows.fill(self.vehicle.all_tasks(), at=at)
        else:
            rows.fill([self._in_tree(row) for row in self.vehicle.rows(self.opened)], at=at)
        self.tell_beside()

    def _in_tree(self, row: Row) -> Row:
        """The row set in as deep as it lies, with the sign of an open or a closed branch."""
        opened, closed = ("-", "+") if self.board_app.plain else ("▾", "▸")
        sign = " " if row.folded is None else closed if row.folded else opened
        state, name, *rest = row.cells
        return row._replace(cells=(state, f"{'  ' * min(row.depth, DEEPEST)}{sign} {name}", *rest))

    def find(self, text: str) -> None:
        """While something is typed every task is looked at, also in closed branches."""
        self._finding = text
        self._fill()

    # --- branches ------------------------------------------------------------------------------

    @property
    def chosen(self) -> str:
        """The id under the cursor, of a component or a task."""
        return self.query_one("#tree", RowList).at

    @property
    def chosen_hold(self) -> str:
        from crewboard.terminal.doing.hold import hold_on

        return hold_on(self.board, self.chosen)

    @property
    def chosen_task(self) -> str:
        return self.chosen if self.chosen in self.board.plan.tasks else ""

    def action_unfold(self) -> None:
        if self.chosen in self.board.plan.components or self.chosen in self.board.plan.series:
            self.opened.add(self.chosen)
            self._fill()

    def action_fold(self) -> None:
        chosen = self.chosen
        if chosen in self.opened:
            self.opened.discard(chosen)
            self._fill()
        elif chosen and (above := self._above(chosen)):
            self.query_one("#tree", RowList).go_to(above)

    def _above(self, some_id: str) -> str:
        """What a row lies in: a piece's task in its series, a task in its component."""
        plan = self.board.plan
        if (task := plan.written(some_id)) is None:
            return plan.components[some_id].part_of
        return task.id if task.id != some_id else task.component

    def action_turn(self) -> None:
        if self.chosen in self.opened:
            self.action_fold()
        else:
            self.action_unfold()

    def action_unfold_all(self) -> None:
        self.opened = set(self.board.plan.components)  # a series is opened by itself
        self._fill()

    def action_fold_all(self) -> None:
        under = self.board.plan.home_of(self.chosen) if self.chosen else ""
        self.opened.clear()
        self._fill(at=self.board.plan.main_of(under).id if under else None)

    def reveal(self, some_id: str) -> None:
        """Open the branches above something and put the cursor on it."""
        above = self._above(some_id)
        while above:
            self.opened.add(above)
            above = self._above(above)
        self._fill(at=some_id)

    def on_row_list_opened(self, event: RowList.Opened) -> None:
        if event.row_id in self.board.plan.tasks:
            self.board_app.open_task(event.row_id)
        else:
            self.action_turn()

    def action_days(self) -> None:
        from crewboard.terminal.planning.vehicle_form import edit_vehicle

        self.run_worker(edit_vehicle(self.board_app))

    # --- beside --------------------------------------------------------------------------------

    def beside(self) -> list[Line]:
        plan, some_id = self.board.plan, self.chosen
        if some_id in plan.tasks:
            after = comes_after(self.board, task_id=some_id)
            return [*short_sheet(self.board, some_id), *after]
        if some_id in plan.series:
            after = comes_after(self.board, task_id=some_id)
            return [*series_lines(self.board, some_id), *after]
        if some_id not in plan.components:
            return []
        return component_lines(self.board, self.vehicle, some_id)
