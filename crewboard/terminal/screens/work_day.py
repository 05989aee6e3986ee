"""The work day: what can be done now, what goes first, what must be left alone."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.widget import Widget

from crewboard.order.board import Board
from crewboard.order.left_alone import in_short, told_together
from crewboard.telling.day import left_open_lines, people_lines
from crewboard.telling.holds import hold_lines
from crewboard.telling.line import Line
from crewboard.telling.task import short_sheet
from crewboard.telling.work_day import waiting_rows, work_day_rows
from crewboard.terminal.keys import HOURS_KEY, MARK_KEYS, OTHER_KEY, TASK_KEYS, TaskKeys
from crewboard.terminal.widgets.day_rule import DayRule
from crewboard.terminal.widgets.edges import EdgeLine, Wording
from crewboard.terminal.widgets.prose import Prose
from crewboard.terminal.widgets.rows import Column, RowList

_LOW = 30  # lines below which the rows are kept brief
_LOWEST = 20  # lines below which the sheet of the chosen task waits for Enter


class PeopleLine(EdgeLine):
    """Who is here, and who is expected."""

    def pieces(self) -> Iterable[Wording]:
        board = self.board_app.board
        key = "" if board.present else ": s"
        for line in people_lines(board):
            yield Wording(f"{line.word} {line.text}{key}".lstrip(), line.tone)
            key = ""


class LeftOpenLine(EdgeLine):
    """Before all else: a past day that nobody closed."""

    def pieces(self) -> Iterable[Wording]:
        for line in left_open_lines(self.board_app.board):
            yield Wording(line.word, line.tone, "close_day", bold=True)
            yield Wording("x closes it", "must", "close_day", key="x")
            yield Wording(line.text, line.tone)


class AloneLine(EdgeLine):
    """The warning that stands over everything: what nobody may touch."""

    def pieces(self) -> Iterable[Wording]:
        alone = told_together(self.board_app.board)
        if alone:
            yield Wording(f"LEAVE ALONE ({len(alone)})", "danger", bold=True)
        yield from (Wording(in_short(self.board_app.board, entry), "danger") for entry in alone)


class WorkDayPage(TaskKeys):
    """The heart of the board."""

    CSS_PATH = "work_day.tcss"
    word = "Work day"
    explains: ClassVar[tuple[str | Line, ...]] = (
        "What the crew can do today. At the top the day as a rule, from opening to closing, with "
        "what ends or must be looked at on the way; below it who is here and what must be left "
        "alone.",
        "Ready work stands in the order in which it should be taken: first what would make the "
        "whole vehicle latest if it waited for the next work day. Glue, bends and coats go on "
        "setting while nobody is here, so a short task that starts a long hold often comes first.",
        "The words of the rows:",
        Line("can be begun now", "safe", 2, "ready"),
        Line("begun and not finished", "strong", 2, "under way"),
        Line("something sets, dries, cures or has to arrive", "caution", 2, "held"),
        Line("its time is over; look at it before it is let go", "must", 2, "due for a look"),
        Line("other work comes first", "faint", 2, "waiting"),
        Line("nobody touches it until it is let go", "danger", 2, "leave alone"),
        Line(""),
        "A signed check authorises nothing: law, product labels and licensed trades prevail.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        *TASK_KEYS[:2],
        HOURS_KEY,
        Binding("s", "sign_in", "sign", id="sign-in", tooltip="sign people in and out"),
        TASK_KEYS[2],
        *(key for key in TASK_KEYS[3:] if key is not OTHER_KEY),
        Binding("r", "reading", "reading", id="reading", tooltip="shop reading: °C and humidity"),
        Binding("x", "close_day", "close", id="close", tooltip="close the work day"),
        Binding("e", "expect", "expect", id="expect", tooltip="who comes on which work day"),
        Binding("d", "day_off", "day off", show=False, id="day-off", tooltip="call a work day off"),
        Binding("g", "briefing", "talk", id="briefing", tooltip="the day's safety talk"),
        OTHER_KEY,
        *MARK_KEYS,
        Binding("enter", "open", "open", show=False, tooltip="the whole sheet of the task"),
    ]

    def body(self) -> Iterable[Widget]:
        yield LeftOpenLine()
        yield DayRule()
        yield PeopleLine()
        yield AloneLine()
        columns = (
            Column(14),
            Column(),
            Column(16, wide_only=True, tone="faint", most=28),
            Column(6, right=True),
        )
        rows = RowList(columns, empty="no tasks yet: F3 Vehicle, then a, adds the first")
        yield Container(rows, Prose(id="sheet"), id="day")

    def show(self, board: Board) -> None:
        self.query_one(DayRule).show(board)
        left_open = self.query_one(LeftOpenLine)
        left_open.set_class(not left_open_lines(board), "-nothing")
        left_open.refresh()
        self.query_one(PeopleLine).refresh()
        alone = self.query_one(AloneLine)
        alone.set_class(not told_together(board), "-nothing")
        alone.refresh()
        self._brief = self.size.height < _LOW
        sheet = self.query_one("#sheet", Prose)
        sheet.display = self.size.height >= _LOWEST or self.has_class("-wide")
        rows = [*work_day_rows(board, brief=self._brief), *waiting_rows(board)]
        self.query_one(RowList).fill(rows)
        self._show_chosen(from_top=False)

    def on_resize(self) -> None:
        if getattr(self, "_shown", None) is not None:
            self.show(self.board)

    # --- the chosen row ------------------------------------------------------------------------

    @property
    def chosen_task(self) -> str:
        at = self.query_one(RowList).at
        kind, mark, rest = at.partition(":")
        if not mark:
            return at
        if kind == "check":
            return rest.rpartition(":")[0]
        hold = self.board.holds.get(rest)
        return hold.task if hold and hold.task in self.board.plan.tasks else ""

    @property
    def chosen_hold(self) -> str:
        kind, _, rest = self.query_one(RowList).at.partition(":")
        return rest if kind in ("hold", "alone") else super().chosen_hold

    def on_row_list_moved(self) -> None:
        self._show_chosen()

    def _show_chosen(self, *, from_top: bool = True) -> None:
        sheet = self.query_one("#sheet", Prose)
        lines: list[Line] = []
        kind, mark, rest = self.query_one(RowList).at.partition(":")
        if mark and kind in ("hold", "alone") and rest in self.board.holds:
            lines += [*hold_lines(self.board, self.board.holds[rest]), Line("")]
        if self.chosen_task:
            lines += short_sheet(self.board, self.chosen_task, state=not lines)
        sheet.tell(lines, from_top=from_top)

    def on_row_list_opened(self) -> None:
        if self.query_one(RowList).at.partition(":")[0] in ("hold", "alone"):
            self.action_look()
        elif self.chosen_task:
            self.board_app.open_task(self.chosen_task)

    # --- the keys ------------------------------------------------------------------------------

    def action_day_off(self) -> None:
        from crewboard.terminal.doing.whole_day import call_off

        self.run_worker(call_off(self.board_app))

    def action_sign_in(self) -> None:
        from crewboard.terminal.doing.sign_in import sign_in

        self.run_worker(sign_in(self.board_app))

    def action_reading(self) -> None:
        from crewboard.terminal.doing.reading import reading

        self.run_worker(reading(self.board_app))

    def action_close_day(self) -> None:
        from crewboard.terminal.doing.whole_day import close_day

        self.run_worker(close_day(self.board_app))

    def action_expect(self) -> None:
        from crewboard.terminal.doing.sign_in import expect

        self.run_worker(expect(self.board_app))

    def action_briefing(self) -> None:
        from crewboard.terminal.doing.talk import show_briefing

        self.run_worker(show_briefing(self.board_app, self.chosen_task))
