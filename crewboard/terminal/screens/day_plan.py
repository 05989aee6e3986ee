"""Day plan: who does what and when, proposed; the lead fixes parts of it and asks again."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.types import CSSPathType
from textual.widget import Widget
from textual.worker import Worker, WorkerState

from crewboard.order.board import Board
from crewboard.order.day_plan.plan_day import EFFORT, plan_day
from crewboard.order.day_plan.proposal import DayPlan, Fixed, Wish
from crewboard.telling.day_plan import day_plan_lines, day_plan_rows
from crewboard.telling.line import Line
from crewboard.terminal.doing.others import Other, one_of
from crewboard.terminal.page import PageWithBeside
from crewboard.terminal.widgets.prose import rows_and_beside
from crewboard.terminal.widgets.rows import Column, RowList

COLUMNS = (Column(13), Column(), Column(9, wide_only=True))


class DayPlanPage(PageWithBeside):
    """Propose, fix, leave out, ask again. Nothing here is written anywhere."""

    CSS_PATH: ClassVar[CSSPathType | None] = "day_plan.tcss"
    word = "Plan a day"
    explains: ClassVar[tuple[str, ...]] = (
        "A proposal for the day: who does what and when, in half hours, as the best use of the "
        "people who are here or said that they come. What goes first weighs most. Skills, "
        "certificates, under-18s, how many a task needs, who needs somebody beside them, places "
        "that one job takes, hazards that must not be near each other and fire watches that must "
        "end before the shop closes are kept to.",
        "Space fixes a row as it is: the same people, the same beginning. Delete leaves a task "
        "out. o says for whom to plan. After each the rest is proposed anew; o takes all of it "
        "back. Ctrl+R plans again as things stand now.",
        "It is a proposal and nothing more: begin and sign-in are done on the Work day page, where "
        "the safety checks are asked for. A plan authorises nothing.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space", "mark", "fix", id="fix", tooltip="fix the row as it is, or free it again"),
        Binding("delete", "remove", "leave out", id="leave", tooltip="leave it out of the day"),
        Binding(
            *("o", "other", "other: for whom, as before"),
            id="other",
            tooltip="say for whom to plan; take back what was fixed or left out",
        ),
        Binding("ctrl+r", "again", "run again", id="again", tooltip="plan as things stand now"),
    ]
    effort: ClassVar[float] = EFFORT

    class Planned(Message):
        """A plan for a board's day."""

        def __init__(self, board: Board, plan: DayPlan) -> None:
            super().__init__()
            self.board = board
            self.plan = plan

    def __init__(self) -> None:
        super().__init__()
        self.wish = Wish()
        self.plan: DayPlan | None = None
        self.of_board: Board | None = None
        self.planning = False

    def body(self) -> Iterable[Widget]:
        yield rows_and_beside(RowList(COLUMNS, empty="planning ...", wide_from=68, id="plan"))

    def show(self, board: Board) -> None:  # noqa: ARG002
        if self.plan is None and not self.planning:
            self.action_again()
        self._tell()

    def _day_board(self) -> Board:
        """The board now; where the shop is closed, that of its next opening."""
        board = self.board
        if board.opening is not None and board.at.time() < board.opening.closes:
            return board
        opens = board.plan.vehicle.work_days.next_after(board.at)
        return board if opens is None else self.board_app.workbench.board(opens)

    # --- planning ------------------------------------------------------------------------------

    def action_again(self) -> None:
        self.planning = True
        self._propose(self._day_board(), self.wish)
        self._tell()

    @work(thread=True, exclusive=True, exit_on_error=False)
    def _propose(self, board: Board, wish: Wish) -> None:
        self.post_message(self.Planned(board, plan_day(board, wish, self.effort)))

    def on_day_plan_page_planned(self, message: Planned) -> None:
        self.plan, self.of_board = message.plan, message.board
        self.planning = False
        self._tell()

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        if event.worker.name == "_propose" and event.state is WorkerState.ERROR:
            self.planning = False
            self.board_app.tell(f"the planning broke off: {event.worker.error}", warning=True)
            self._tell()

    # --- showing -------------------------------------------------------------------------------

    def _tell(self) -> None:
        if self.plan is not None and self.of_board is not None and self.is_mounted:
            rows = self.query_one("#plan", RowList)
            rows.fill(day_plan_rows(self.of_board, self.plan, self.wish))
            self.tell_beside()

    def beside(self) -> list[Line]:
        if self.plan is None or self.of_board is None:
            return []
        lines = day_plan_lines(self.of_board, self.plan, self.chosen)
        if self.planning:
            lines.insert(0, Line("a better plan is being looked for", "must", 0, "planning:"))
        elif self._has_changed():
            lines.insert(
                0, Line("the plan or the logbook has changed: Ctrl+R plans anew", "caution")
            )
        return lines

    def _has_changed(self) -> bool:
        then, now = self.of_board, self.board
        if then is None:
            return False
        shown = (then.plan, then.logbook, then.unreadable)
        return shown != (now.plan, now.logbook, now.unreadable)

    @property
    def chosen(self) -> str:
        return self.query_one("#plan", RowList).at

    def on_row_list_opened(self, event: RowList.Opened) -> None:
        self.board_app.open_task(event.row_id)

    # --- the lead's part -----------------------------------------------------------------------

    def action_mark(self) -> None:
        task = self.chosen
        if any(other.task == task for other in self.wish.fixed):
            rest = tuple(other for other in self.wish.fixed if other.task != task)
            self._wish(self.wish._replace(fixed=rest))
            return
        placed = next((p for p in self.plan.placed if p.task == task), None) if self.plan else None
        fixed = Fixed(task)
        if placed is not None:
            fixed = Fixed(task, placed.people, placed.start.time())
        if task:
            left_out = tuple(other for other in self.wish.left_out if other != task)
            self._wish(self.wish._replace(fixed=(*self.wish.fixed, fixed), left_out=left_out))

    def action_remove(self) -> None:
        task = self.chosen
        if task in self.wish.left_out:
            rest = tuple(other for other in self.wish.left_out if other != task)
            self._wish(self.wish._replace(left_out=rest))
        elif task:
            fixed = tuple(other for other in self.wish.fixed if other.task != task)
            left_out = (*self.wish.left_out, task)
            self._wish(self.wish._replace(fixed=fixed, left_out=left_out))

    @work
    async def action_other(self) -> None:
        others = (
            Other("for whom", "the people of the plan", self._people),
            Other("as before", "nothing fixed, nothing left out", self._take_back),
        )
        await one_of(self.board_app, others)

    async def _take_back(self) -> None:
        self._wish(Wish())

    async def _people(self) -> None:
        from crewboard.terminal.dialogs.choose import crew_choices
        from crewboard.terminal.dialogs.pick import PickSeveral

        marked = self.plan.people if self.plan else ()
        board = self.of_board or self.board
        people = await self.app.push_screen_wait(
            PickSeveral("For whom to plan", crew_choices(board), marked=marked)
        )
        if people is not None:
            self._wish(self.wish._replace(people=people))

    def _wish(self, wish: Wish) -> None:
        self.wish = wish
        self.action_again()
