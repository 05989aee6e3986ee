"""The work day: what can be done now, what goes first, what must be left alone."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.widget import Widget

from crewboard.order.board import Board, State
from crewboard.terminal.page import Page
from crewboard.terminal.tones import STATE_TONE
from crewboard.terminal.widgets.rows import Column, Row, RowList, heading


class WorkDayPage(Page):
    """The heart of the board."""

    word = "Work day"
    explains: ClassVar[tuple[str, ...]] = ("What can be worked on today, first things first.",)

    def body(self) -> Iterable[Widget]:
        yield RowList((Column(9), Column(), Column(16)), empty="no tasks yet")

    def show(self, board: Board) -> None:
        states: tuple[State, ...] = ("under way", "ready", "held")
        rows: list[Row] = []
        for state in states:
            found = [
                Row(s.task.id, (s.state, s.task.title), STATE_TONE[state])
                for s in board.in_state(state)
            ]
            if found:
                rows += [heading(state.capitalize(), STATE_TONE[state]), *found]
        self.query_one(RowList).fill(rows)
