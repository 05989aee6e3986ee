"""The work day: what must be left alone, what is to be looked at, who is on what, what goes first.

All of it stands on one screen of 80 columns and 24 lines: one line a task, and what there is to say
of the one under the cursor in the sheet below.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.widget import Widget

from crewboard.order.board import Board
from crewboard.order.holds.running import StandingHold
from crewboard.order.steam import in_the_box
from crewboard.telling.clocks import STEAM_ROW
from crewboard.telling.day import left_open_lines
from crewboard.telling.holds import hold_lines
from crewboard.telling.line import Line
from crewboard.telling.notices import notices
from crewboard.telling.on_hold import due_together, running_together
from crewboard.telling.row import Row
from crewboard.telling.series import series_lines, series_of_row
from crewboard.telling.task import short_sheet
from crewboard.telling.work_day import WAITING_ROW, Sections, sections, waiting_rows
from crewboard.terminal.keys import (
    DAYS_KEY,
    HOURS_KEY,
    IN_OR_OUT_KEY,
    MARK_KEYS,
    PICTURES_KEY,
    TASK_KEYS,
    THEN_KEY,
    TaskKeys,
)
from crewboard.terminal.screens.day_layout import DayLayout
from crewboard.terminal.widgets.alone_line import AloneLine
from crewboard.terminal.widgets.day_lines import LeftOpenLine, NoticeLine, PeopleLine
from crewboard.terminal.widgets.day_rule import DayRule
from crewboard.terminal.widgets.plan_line import PlanLine
from crewboard.terminal.widgets.prose import Prose
from crewboard.terminal.widgets.rows import RowList

_TWO_LINES = 24  # lines of a window from which what is left alone may take two
_NOTICES = 4  # lines that can stand over the rows when they are so


class WorkDayPage(TaskKeys):
    """The heart of the board."""

    CSS_PATH = "work_day.tcss"
    word = "Work day"
    explains: ClassVar[tuple[str | Line, ...]] = (
        "What the crew can do today. At the top the day as a rule, from opening to closing, with "
        "what ends or must be looked at on the way; below it who is here and what must be left "
        "alone, the soonest end first.",
        "Ready work stands in the order in which it should be taken: first what would make the "
        "whole vehicle latest if it waited for the next work day. Glue, bends and coats go on "
        "setting while nobody is here, so a short task that starts a long hold often comes first.",
        "What is said of the row under the cursor stands in the sheet below, or beside it. Tab "
        "goes to what is on hold and back. Enter opens a task's sheet, what waits, a series.",
        "Where a plan of the day was taken over (F9), one line says what should be begun now by it "
        "and what comes next, and a row when it is to begin. begin offers its people, and asks "
        "everything as ever.",
        "The words of the rows:",
        Line("can be begun, once its checks are signed", "safe", 2, "ready"),
        Line("nobody may take it up now; below it stands why", "caution", 2, "later"),
        Line("people are on it now", "strong", 2, "under way, on"),
        Line("begun, and nobody is on it now", "strong", 2, "begun"),
        Line("it sets, dries or cures, or is awaited", "caution", 2, "on hold"),
        Line("its time is over; look before it is released", "must", 2, "due for a look, look"),
        Line("other work, or its hold, comes first", "faint", 2, "waiting"),
        Line("nobody touches it until it is released", "danger", 2, "leave alone"),
        Line(""),
        "A signed check authorises nothing: law, product labels and licensed trades prevail.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        *TASK_KEYS[:2],
        HOURS_KEY,
        IN_OR_OUT_KEY,
        TASK_KEYS[2],
        Binding("r", "reading", "reading", id="reading", tooltip="shop reading: °C and humidity"),
        Binding("x", "close_day", "close", id="close", tooltip="close the work day"),
        *(key for key in TASK_KEYS[3:] if key is not THEN_KEY),
        Binding("g", "talk", "talk", id="talk", tooltip="the day's safety talk"),
        THEN_KEY,
        DAYS_KEY,
        PICTURES_KEY,
        *MARK_KEYS,
        Binding("enter", "open", "open", show=False, tooltip="the whole sheet of the task"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self.opened: set[str] = set()  # of what folds: the series, and what waits
        self._finding = ""

    def body(self) -> Iterable[Widget]:
        yield LeftOpenLine()
        yield DayRule()
        yield PeopleLine()
        yield AloneLine()
        yield PlanLine()
        yield from (NoticeLine(place) for place in range(_NOTICES))
        work = RowList(id="work", empty="no tasks yet: F3 Vehicle, then a, adds the first")
        yield Container(work, RowList(id="holds", shy=True), Prose(id="sheet"), id="day")

    def show(self, board: Board) -> None:
        self.query_one(DayRule).show(board)
        left_open = left_open_lines(board)
        self.query_one(LeftOpenLine).set_class(not left_open, "-nothing")
        self.query_one(LeftOpenLine).refresh()
        self.query_one(PeopleLine).refresh()
        told = notices(board)
        for line in self.query(NoticeLine):
            line.show(told)
        width, height = self.size
        most = 2 if height >= _TWO_LINES else 1
        alone = self.query_one(AloneLine).show(board, most=most, width=width)
        over = 3 + len(left_open) + len(told) + alone + self._unread_lines
        over += self.query_one(PlanLine).show(board)
        self._fill(board, DayLayout(width, height - over - 3, plain=self.board_app.plain))

    @property
    def _unread_lines(self) -> int:
        notices = self.query("UnreadNotice")
        return notices.first().size.height if notices and notices.first().display else 0

    def _fill(self, board: Board, layout: DayLayout) -> None:
        """Put the rows in as the window has room for them."""
        of_day = sections(board, opened=self.opened)
        folded = WAITING_ROW not in self.opened and not self._finding
        waiting = list(waiting_rows(board, folded=folded, opened=self.opened))
        self.set_class(layout.one_list or not of_day.held, "-one-list")
        work, holds = self.query_one("#work", RowList), self.query_one("#holds", RowList)
        work.columns = layout.work_columns(of_day, waiting)
        holds.columns = layout.hold_columns
        self._rows = {row.id: row for row in (*of_day.rows, *waiting)}
        work.query_text = self._finding
        work.fill(layout.work_rows(of_day, waiting), at="" if self._finding else None)
        holds.fill(layout.hold_rows(of_day.held))
        self._divide(of_day, layout)
        self._show_chosen(from_top=False)

    def _divide(self, of_day: Sections, layout: DayLayout) -> None:
        """What of the window each part has."""
        day, sheet = self.query_one("#day"), self.query_one("#sheet", Prose)
        sheet.display = layout.has_sheet
        if layout.wide:
            held = "" if self.has_class("-one-list") else f"{layout.hold_lines(of_day.held)} "
            day.styles.grid_rows = f"{held}1fr"
        elif sheet.display:
            day.styles.grid_rows = f"1fr {layout.sheet_lines(of_day)}"
        else:
            day.styles.grid_rows = "1fr"

    def on_resize(self) -> None:
        if getattr(self, "_shown", None) is not None:
            self.show(self.board)

    def find(self, text: str) -> None:
        """While something is typed what waits is looked at too."""
        self._finding = text
        self.show(self.board)

    # --- the chosen row ------------------------------------------------------------------------

    @property
    def _list(self) -> RowList:
        """The list that the keys are for."""
        holds = self.query_one("#holds", RowList)
        return holds if holds.has_focus else self.query_one("#work", RowList)

    @property
    def chosen_task(self) -> str:
        kind, mark, rest = self._list.at.partition(":")
        if not mark:
            return kind
        if kind == "check":
            return rest.rpartition(":")[0]
        if kind == "steam":
            return next((one.task for one in in_the_box(self.board) if one.id == rest), "")
        hold = self.board.holds.get(rest)
        if hold is None or hold.task not in self.board.plan.tasks or len(self._due(rest)) > 1:
            return ""
        return hold.task

    def _due(self, hold_id: str) -> tuple[StandingHold, ...]:
        """What stands in the row of this hold, where its pieces have one row."""
        rows = (*due_together(self.board), *running_together(self.board))
        return next((holds for holds in rows if holds[0].id == hold_id), ())

    @property
    def chosen_hold(self) -> str:
        kind, _, rest = self._list.at.partition(":")
        return rest if kind in ("hold", "alone") else super().chosen_hold

    @property
    def chosen_holds(self) -> tuple[str, ...]:
        due = self._due(self.chosen_hold) if self._list.at.startswith("hold:") else ()
        return tuple(hold.id for hold in due) or super().chosen_holds

    def on_row_list_moved(self) -> None:
        self._show_chosen()

    def on_descendant_focus(self) -> None:
        if self.is_mounted and getattr(self, "_rows", None) is not None:
            self._show_chosen()

    def _show_chosen(self, *, from_top: bool = True) -> None:
        self.query_one("#sheet", Prose).tell(list(self._told()), from_top=from_top)

    def _told(self) -> Iterable[Line]:
        """What there is to say of the row under the cursor: its why first."""
        row = self._rows.get(self._list.at)
        if row is None:
            return
        kind, mark, rest = row.id.partition(":")
        below = (*row.below, *row.below_in_full)
        if row.id.startswith(STEAM_ROW) and not self.has_class("-wide"):
            yield Line(row.cells[1], "strong")  # which the row has no room for
        together = row.id != WAITING_ROW and not self.has_class("-wide")
        yield from map(Line, ["; ".join(below)] if together and below else below)
        if row.id.startswith(STEAM_ROW):
            yield Line("l, Enter: it is out")
        if mark and kind in ("hold", "alone") and rest in self.board.holds:
            holds = self._due(rest) or (self.board.holds[rest],)
            known = (line for hold in holds for line in hold_lines(self.board, hold)[1:])
            yield from (*dict.fromkeys(known), Line(""))
        if series := series_of_row(row.id):
            yield from series_lines(self.board, series)
        elif self.chosen_task in self.board.plan.tasks:
            standing = self.board[self.chosen_task]
            above = standing.state == "ready" or (row.below and standing.begun is not None)
            state = kind not in ("hold", "alone") and not above
            about = short_sheet(self.board, self.chosen_task, state=state)
            yield from about if self.has_class("-wide") else about[1:]  # its title stands above

    def on_row_list_opened(self, event: RowList.Opened) -> None:
        row: Row | None = self._rows.get(event.row_id)
        if row is not None and row.folded is not None:
            self.opened ^= {row.id}
            self.show(self.board)
        elif event.row_id.partition(":")[0] in ("hold", "alone", "steam"):
            self.action_look()
        elif self.chosen_task:
            self.board_app.open_task(self.chosen_task)

    # --- the keys ------------------------------------------------------------------------------

    def action_look(self) -> None:
        if not self._list.at.startswith(STEAM_ROW):
            super().action_look()
        elif self.chosen_task:
            from crewboard.terminal.doing.steam import out_of_the_box

            self.run_worker(out_of_the_box(self.board_app, self.chosen_task))

    def action_in_or_out(self) -> None:
        from crewboard.terminal.doing.sign_in import sign_in

        self.run_worker(sign_in(self.board_app))

    def action_reading(self) -> None:
        from crewboard.terminal.doing.reading import reading

        self.run_worker(reading(self.board_app))

    def action_close_day(self) -> None:
        from crewboard.terminal.doing.whole_day import close_day

        self.run_worker(close_day(self.board_app))

    def action_days(self) -> None:
        from crewboard.terminal.doing.days import days

        self.run_worker(days(self.board_app))

    def action_talk(self) -> None:
        from crewboard.terminal.doing.talk import show_briefing

        self.run_worker(show_briefing(self.board_app, self.chosen_task))
