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
from crewboard.order.day_plan.taken_over import rests_on, running_plan
from crewboard.telling.day_plan import day_plan_lines, day_plan_rows, task_of_row
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
        "Each person's line is there to be read out; below it the day by the hour, and what found "
        "no place, by the reason: Enter opens a row of several tasks, or a task's sheet.",
        "Space fixes a row as it is: the same people, the same beginning. Delete leaves a task "
        "out. o says for whom to plan. After each the rest is proposed anew; o takes all of it "
        "back. Ctrl+R plans again as things stand now.",
        "Ctrl+S takes the plan over: it is written into the logbook, the Work day page says what "
        "is now and next by it, and begin offers its people. Whenever somebody comes or goes, or "
        "work ends early, the page keeps of it what it can and names what is otherwise; Ctrl+S "
        "takes that over in its place. o gives up the plan of the day.",
        "A plan authorises nothing: begin and sign-in are done on the Work day page, where the "
        "safety checks are asked for as ever.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space", "mark", "fix", id="fix", tooltip="fix the row as it is, or free it again"),
        Binding("delete", "remove", "leave out", id="leave", tooltip="leave it out of the day"),
        Binding(
            *("o", "other", "other: for whom"),
            id="other",
            tooltip="say for whom to plan; take back what was fixed or left out",
        ),
        Binding(
            *("ctrl+s", "keep", "take over"),
            id="take",
            tooltip="the day runs by this plan: it is written into the logbook",
        ),
        Binding("ctrl+r", "again", "run again", id="again", tooltip="plan as things stand now"),
    ]
    effort: ClassVar[float] = EFFORT

    class Proposed(Message):
        """A plan for a board's day."""

        def __init__(self, board: Board, plan: DayPlan) -> None:
            super().__init__()
            self.board, self.plan = board, plan

    def __init__(self) -> None:
        super().__init__()
        self.wish = Wish()
        self.plan: DayPlan | None = None
        self.of_board: Board | None = None
        self.planning = False
        self.opened: set[str] = set()
        self.taking = False

    def body(self) -> Iterable[Widget]:
        yield rows_and_beside(RowList(COLUMNS, empty="planning ...", wide_from=68, id="plan"))

    def show(self, board: Board) -> None:  # noqa: ARG002
        if not self.planning and (self.plan is None or self._is_overtaken()):
            self.action_again()
        self._tell()

    def _is_overtaken(self) -> bool:
        """Whether the day runs by a plan, and what that rests on is otherwise by now."""
        then, now = self.of_board, self._day_board()
        if then is None or self.taking or not (running_plan(now) or running_plan(then)):
            return False
        return rests_on(then) != rests_on(now)

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
        running = running_plan(board)
        goes_on = (running.placed, running.small) if running is not None else ()
        self.post_message(self.Proposed(board, plan_day(board, wish, self.effort, *goes_on)))

    def on_day_plan_page_proposed(self, message: Proposed) -> None:
        self.plan, self.of_board = message.plan, message.board
        self.planning = False
        if self._is_overtaken():
            self.action_again()
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
            board = self._day_board() if self._has_changed() else self.of_board
            running = running_plan(board)
            rows.fill(day_plan_rows(self.of_board, self.plan, self.wish, running, self.opened))
            self.tell_beside()

    def beside(self) -> list[Line]:
        if self.plan is None or self.of_board is None:
            return []
        row = self.query_one("#plan", RowList).row
        running = running_plan(self._day_board())
        lines = day_plan_lines(self.of_board, self.plan, running, row)
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
        """The task of the row under the cursor, empty where that has none."""
        return task_of_row(self.query_one("#plan", RowList).at)

    def on_row_list_opened(self, event: RowList.Opened) -> None:
        row = self.query_one("#plan", RowList).row
        if row is not None and row.folded is not None:
            self.opened ^= {row.id}
            self._tell()
        elif task := task_of_row(event.row_id):
            self.board_app.open_task(task)

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

    def action_keep(self) -> None:
        from crewboard.terminal.doing.take_over import take_over

        if self.plan is not None and self.of_board is not None and not self.planning:
            self.taking = True
            take_over(self.board_app, self.of_board, self.plan, self._taken_over)
            self.taking = False

    def _taken_over(self) -> None:
        """The proposal is the plan of the day now: nothing is otherwise than in it."""
        if self.plan is not None:
            self.plan = self.plan._replace(changes=())
            self.of_board = self._day_board()
        self._tell()

    @work
    async def action_other(self) -> None:
        others = (
            Other("for whom", "the people of the plan", self._people),
            Other("as before", "nothing fixed, nothing left out", self._take_back),
            *([Other("give up", "the plan of the day", self._give_up)] if self._runs() else ()),
        )
        await one_of(self.board_app, others)

    async def _take_back(self) -> None:
        self._wish(Wish())

    def _runs(self) -> bool:
        return running_plan(self._day_board()) is not None

    async def _give_up(self) -> None:
        from crewboard.terminal.doing.take_over import give_up

        give_up(self.board_app, self._day_board())
        self.action_again()

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
