"""The safety talk before work: one page to read out, and the whole of it behind a key."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget

from crewboard.order.board import Board
from crewboard.order.safety.briefing import briefing, todays_work
from crewboard.telling.briefing import briefing_sheet
from crewboard.telling.line import Line
from crewboard.telling.report import Sheet, sheet_lines
from crewboard.telling.short_talk import short_talk_sheet
from crewboard.telling.unreadable import with_unreadable
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.choose import folded_choices
from crewboard.terminal.dialogs.dialog import Dialog, Panel
from crewboard.terminal.dialogs.pick import PickSeveral
from crewboard.terminal.widgets.prose import Prose


class TalkPanel(Dialog[bool]):
    """The short talk; answers True where the whole one is wanted."""

    keys: ClassVar[str] = "arrows, PgDn scroll   g the whole talk   Enter OK"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("g", "talk", "the whole talk", show=False),
        Binding("enter", "leave", "OK", show=False),
    ]

    def __init__(self, lines: Iterable[Line]) -> None:
        super().__init__("Safety talk", wide=True)
        self.lines = tuple(lines)

    def inside(self) -> Iterable[Widget]:
        yield Prose(self.lines)

    def action_talk(self) -> None:
        self.dismiss(True)


async def show_briefing(app: BoardApp, at: str = "") -> None:
    """Ask which work the talk is for, the day's own marked, and show it."""
    board = app.board
    choices, meant = folded_choices(board, ("under way", "ready"))
    today = set(todays_work(board))
    picked = await app.push_screen_wait(
        PickSeveral(
            "Safety talk for which work?",
            choices,
            marked=[some_id for some_id, tasks in meant.items() if today.intersection(tasks)],
            at=next((some_id for some_id, tasks in meant.items() if at in tasks), ""),
            empty="nothing is ready or under way",
        )
    )
    if picked is None:
        return
    talk = briefing(board, [task for some_id in picked for task in meant[some_id]])
    if await app.push_screen_wait(TalkPanel(_lines(board, short_talk_sheet(talk)))):
        whole = _lines(board, briefing_sheet(talk))
        await app.push_screen_wait(Panel("The whole safety talk", whole))


def _lines(board: Board, sheet: Sheet) -> list[Line]:
    return list(sheet_lines(with_unreadable(sheet, board)))
