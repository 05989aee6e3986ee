"""The vehicle: its components as a tree, how far each is, and what comes after what."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.types import CSSPathType
from textual.widget import Widget

from crewboard.order.board import Board
from crewboard.plan.pieces_typed import AS_TYPED
from crewboard.telling.drawn import track
from crewboard.telling.line import Line
from crewboard.telling.pieces import PIECE_ROW, Pieces
from crewboard.telling.row import Row
from crewboard.telling.series import series_lines
from crewboard.telling.task import comes_after, short_sheet
from crewboard.telling.vehicle import Tree, component_lines
from crewboard.terminal.doing.others import Other
from crewboard.terminal.keys import (
    HOURS_KEY,
    MARK_KEYS,
    PLAN_KEYS,
    TASK_KEYS,
    PlanKeys,
    TaskKeys,
)
from crewboard.terminal.page import PageWithBeside
from crewboard.terminal.piece_keys import PIECES_KEY, PieceKeys, piece_of
from crewboard.terminal.widgets.prose import rows_and_beside
from crewboard.terminal.widgets.rows import Column, RowList

COLUMNS = (
    Column(9),
    Column(facts=True),
    Column(6, tone="faint", spare=True),
    Column(8, right=True, tone="faint"),
    Column(7, right=True, tone="faint"),
)

if TYPE_CHECKING:
    from crewboard.terminal.doing.jot import Of
DEEPEST = 8  # levels beyond which a branch is no longer set in further


class VehiclePage(PieceKeys, PlanKeys, TaskKeys, PageWithBeside):
    """Open and close branches, read and edit what they hold."""

    CSS_PATH: ClassVar[CSSPathType | None] = "vehicle.tcss"
    word = "Vehicle"
    explains: ClassVar[tuple[str, ...]] = (
        "The vehicle as a tree: main components, their parts, their tasks, in the order of the "
        "work; above them all of it in one line. What can be opened has a +. Beside each component "
        "stands how many of its tasks are finished and how many hours went into it; set-aside "
        "tasks do not count.",
        "A component's state is the liveliest of its tasks: under way before ready, ready before "
        "on hold, on hold before waiting. Right arrow opens a branch, left arrow closes it.",
        "The same work on several pieces is one row until it is opened: 4 of 6. b, f, h, c, n and "
        "o ask which of its pieces are meant; or mark some with Space, then they take all marked.",
        "Under its tasks stands of what a component is made: its pieces, several of a kind on one "
        "row until that is opened. p adds pieces, as many as you like on one line: "
        f"{AS_TYPED}. Enter shows all that is known of one.",
        "k puts the tasks of a component into one table: a row a task with title, hours, what "
        "it comes after (a row's number, or a few letters of a title), people, hold (2d cure). "
        "Tab goes to the next cell, Enter to the next row, and all of it is saved at once. What "
        "stands in brackets is proposed from the row above: type over it, or Delete. A list or a "
        "table that was copied elsewhere can be pasted.",
        "With e and a the plan is edited, and with o the settings of the vehicle itself: what is "
        "saved goes into the component's file, where comments and order stay as they were. An "
        "order of work that would go round in a loop is refused, and the loop is named.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("right", "unfold", "open", show=False, tooltip="open the branch"),
        Binding("left", "fold", "close", show=False, tooltip="close the branch, or go up"),
        *MARK_KEYS,
        Binding("plus", "unfold_all", "open all", show=False, key_display="+", tooltip="open all"),
        Binding("minus", "fold_all", "close all", show=False, key_display="-", tooltip="close all"),
        *PLAN_KEYS,
        Binding("k", "table", "tasks", id="table", tooltip="a component's tasks in one table"),
        PIECES_KEY,
        *TASK_KEYS,
        HOURS_KEY,
    ]

    def __init__(self) -> None:
        super().__init__()
        self.opened: set[str] = set()
        self._finding = ""

    def body(self) -> Iterable[Widget]:
        yield rows_and_beside(RowList(COLUMNS, empty="no components yet: a adds one", id="tree"))

    def show(self, board: Board) -> None:
        self.vehicle, self.pieces = Tree(board), Pieces(board)
        self._fill()

    def _fill(self, at: str | None = None) -> None:
        rows = self.query_one("#tree", RowList)
        rows.query_text = self._finding
        if self._finding:
            every = [*self.vehicle.all_tasks(), *self.pieces.all_rows()]
            rows.fill([_beside_tree(row) for row in every], at=at)
        else:
            tree = self.vehicle.rows(self.opened, pieces=self._piece_rows)
            rows.fill([self._in_tree(row) for row in tree], at=at)
        self.tell_beside()

    def _in_tree(self, row: Row) -> Row:
        """The row set in as deep as it lies, with the sign of an open or a closed branch."""
        if row.folded is None and self._can_fold(
            row.id
        ):  # a component of which only pieces are known
            row = row._replace(folded=row.id not in self.opened)
        if not row.id:
            return row
        sign = " " if row.folded is None else "+" if row.folded else "-"
        state, name, *rest = row.cells
        name = f"{'  ' * min(row.depth, DEEPEST)}{sign} {name}"
        how_far = track(row.share, 6, plain=self.board_app.plain) if row.share is not None else ""
        return row._replace(cells=(state, name, how_far, *rest))

    def _can_fold(self, row_id: str) -> bool:
        if row_id in self.board.plan.components:
            return not self.vehicle.is_empty(row_id) or row_id in self.pieces.tables
        return row_id in self.board.plan.series or piece_of(row_id) in self.board.plan.several

    @property
    def jotted_of(self) -> Of | None:
        from crewboard.terminal.doing.jot import Of

        plan, piece, here = self.board.plan, self.chosen_piece, self.chosen
        if piece:
            return Of(plan.several.get(piece, (piece,)), ask=piece in plan.several)
        if here in plan.components:
            return Of(component=here)
        return super().jotted_of

    def action_reckon(self) -> None:
        from crewboard.terminal.doing.reckon import For, reckon

        plan, piece, here = self.board.plan, self.chosen_piece, self.chosen
        if piece:
            of = For(piece=plan.several.get(piece, (piece,))[0])
        elif here in plan.components:
            of = For(component=here)
        else:
            super().action_reckon()
            return
        self.board_app.run_worker(reckon(self.board_app, of))

    def find(self, text: str) -> None:
        """While something is typed every task and piece is looked at, also in closed branches."""
        self._finding = text
        self._fill()

    # --- branches ------------------------------------------------------------------------------

    @property
    def chosen(self) -> str:
        """The id under the cursor, of a component or a task; empty on a piece."""
        return "" if piece_of(self._at) else self._at

    @property
    def chosen_piece(self) -> str:
        """The id of the piece, or of the table of several, under the cursor."""
        return piece_of(self._at)

    @property
    def _at(self) -> str:
        return self.query_one("#tree", RowList).at

    @property
    def chosen_hold(self) -> str:
        from crewboard.terminal.doing.hold import hold_on

        return hold_on(self.board, self.chosen)

    @property
    def chosen_task(self) -> str:
        return self.chosen if self.chosen in self.board.plan.tasks else ""

    def action_unfold(self) -> None:
        if self._can_fold(self._at):
            self.opened.add(self._at)
            self._fill()

    def action_fold(self) -> None:
        chosen = self._at
        if chosen in self.opened:
            self.opened.discard(chosen)
            self._fill()
        elif chosen and (above := self._above(chosen)):
            self.query_one("#tree", RowList).go_to(above)

    def _above(self, some_id: str) -> str:
        """What a row lies in: a piece in its kind, a piece's task in its series, a task in its
        component."""
        plan = self.board.plan
        if piece_of(some_id):
            return self.pieces.above(piece_of(some_id))
        if (task := plan.written(some_id)) is None:
            return plan.components[some_id].part_of
        return task.id if task.id != some_id else task.component

    def action_turn(self) -> None:
        if self._at in self.opened:
            self.action_fold()
        else:
            self.action_unfold()

    def action_mark(self) -> None:
        """Marks a task or all of a series; of anything else it opens or closes the branch."""
        if self.chosen_task or self.chosen in self.board.plan.series:
            super().action_mark()
        else:
            self.action_turn()

    def action_unfold_all(self) -> None:
        self.opened = set(self.board.plan.components)  # a series is opened by itself
        self._fill()

    def action_fold_all(self) -> None:
        under = self.board.plan.home_of(self.chosen) if self.chosen else self.piece_component
        self.opened.clear()
        self._fill(at=self.board.plan.main_of(under).id if under else None)

    def reveal(self, some_id: str) -> None:
        """Open the branches above something and put the cursor on it."""
        above = self._above(some_id)
        while above:
            self.opened.add(above)
            above = self._above(above)
        self._fill(at=some_id)

    def reveal_piece(self, some_id: str) -> None:
        self.reveal(PIECE_ROW + some_id)

    def _piece_rows(self, component_id: str, depth: int) -> list[Row]:
        return self.pieces.rows(component_id, self.opened, depth)

    def on_row_list_opened(self, event: RowList.Opened) -> None:
        if piece_of(event.row_id) in self.board.plan.pieces:
            from crewboard.terminal.screens.piece_sheet import PieceSheetPage

            self.app.push_screen(PieceSheetPage(piece_of(event.row_id)))
        elif event.row_id in self.board.plan.tasks:
            self.board_app.open_task(event.row_id)
        else:
            self.action_turn()

    def action_other(self) -> None:
        """What fits the tasks, and the vehicle's settings."""
        from crewboard.terminal.doing.other import other
        from crewboard.terminal.planning.vehicle_form import edit_vehicle

        says = "the vehicle, its work days, the shop"
        settings = Other("settings", says, partial(edit_vehicle, self.board_app))
        if self.meant.tasks:
            self._do(partial(other, last=[settings]))
        else:
            self._do(partial(other, first=[settings]))

    def action_table(self) -> None:
        """The tasks of the component that the cursor is on or in."""
        at = self.chosen or self.piece_component
        if at:
            self.run_worker(self._table(self.board.plan.home_of(at)))

    async def _table(self, component_id: str) -> None:
        from crewboard.terminal.planning.task_table import task_table

        if kept := await task_table(self.board_app, component_id):
            self.reveal(kept)

    # --- beside --------------------------------------------------------------------------------

    def beside(self) -> list[Line]:
        plan, some_id = self.board.plan, self.chosen
        if self.chosen_piece:
            return self.pieces.lines(self.chosen_piece)
        if some_id in plan.tasks:
            after = comes_after(self.board, task_id=some_id)
            return [*short_sheet(self.board, some_id), *after]
        if some_id in plan.series:
            after = comes_after(self.board, task_id=some_id)
            return [*series_lines(self.board, some_id), *after]
        if some_id not in plan.components:
            return []
        lines = component_lines(self.board, self.vehicle, some_id)
        return [*lines, *self.pieces.here(some_id)]


def _beside_tree(row: Row) -> Row:
    """A row found by its text, which stands in no tree: in the same columns."""
    state, name, *rest = row.cells
    return row._replace(cells=(state, name, "", *rest))
