"""A reckoning while it is asked for on the screens: what is reckoned for what, and its answer."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import NamedTuple

from crewboard.logbook.acts import Reckoned
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.order.reckoning.asked import For, filled_in, learned_since, started_from
from crewboard.order.reckoning.clock import clock_started
from crewboard.order.reckoning.plan_says import hazards_of_task, plan_says
from crewboard.order.said import component_name, piece_name
from crewboard.plan.as_typed import Unread
from crewboard.plan.hazard import Hazard
from crewboard.telling.line import Line
from crewboard.telling.reckoning import answer_lines, card_lines, plan_lines, redone_lines
from crewboard.terminal.dialogs.reckoned import ReckonedCard
from crewboard.trade.given import Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.kind import reckon as reckoned
from crewboard.trade.reckoning import Reckoning

Told = Callable[[KindOfReckoning, Reckoning, Mapping[str, Hazard], Iterable[str]], Iterable[Line]]
"""An answer in lines, whole or in short."""


class ToReckon(NamedTuple):
    """What is reckoned; `before` is the kept answer that it is done anew for."""

    kind: KindOfReckoning
    of: For
    before: Entry | None = None


def named(board: Board, of: For) -> str:
    """What it is for, in words; empty where it is for nothing of the plan."""
    plan = board.plan
    task = plan.tasks.get(of.task) or (plan.written(of.task) if of.task else None)
    if task is not None:
        return f'"{task.title}"'
    if of.piece:
        return piece_name(plan, of.piece)
    return component_name(plan, of.component) if of.component else ""


def title(board: Board, asked: ToReckon) -> str:
    """What heads its form and its card."""
    name = named(board, asked.of)
    return f"{asked.kind.title}: {name}" if name else asked.kind.title


def typed_before(asked: ToReckon) -> Mapping[str, str]:
    """What was typed at the answer that is done anew. Raises Unread."""
    if asked.before is None:
        return {}
    assert isinstance(asked.before.act, Reckoned)
    return started_from(asked.before.act).typed


class Reckoner:
    """What was given last, its answer, and which of its ways were looked at."""

    def __init__(self, board: Board, asked: ToReckon, typed: Mapping[str, str]) -> None:
        self.board, self.asked = board, asked
        self._way = {n: t for n, t in typed.items() if n == asked.kind.way}
        self.given = Given(typed)
        self.answer: Reckoning | None = None
        self.looked: set[int] = set()

    def take(self, typed: Mapping[str, str]) -> None:
        """Raises Unread."""
        self.looked = set()
        self._work({**typed, **self._way})

    def _work(self, typed: Mapping[str, str]) -> Reckoning:
        given = filled_in(self.board, self.asked.kind, typed, self.asked.of)
        try:
            self.answer = reckoned(self.asked.kind, given)
        except Unread:
            if not self._way:
                raise
            self._way = {}  # the way that was chosen before is none of these
            typed = {n: t for n, t in typed.items() if n != self.asked.kind.way}
            return self._work(typed)
        self.given = given
        return self.answer

    def card(self) -> ReckonedCard:
        """The card of the answer."""
        kind = self.asked.kind
        assert self.answer is not None
        ways = self.answer.figures.get("ways", 1) if kind.way else 1
        return ReckonedCard(
            title(self.board, self.asked),
            self.answer,
            self._lines,
            self.board.plan.vehicle.units,
            ways=ways if isinstance(ways, int) else 1,
            number=int(self.given.typed.get(kind.way, "1")) if kind.way else 1,
            way=lambda number: self._work({**self.given.typed, kind.way: str(number)}),
            clock=bool(clock_started(self.board, kind, self.given, self.answer, self.asked.of)),
            short=lambda answer: self._lines(answer, card_lines),
        )

    def _lines(self, answer: Reckoning, told: Told = answer_lines) -> list[Line]:
        kind, sheets = self.asked.kind, self.board.plan.sheets
        of_task = hazards_of_task(self.board, self.asked.of)
        _, first, *lines = told(kind, answer, sheets, of_task)
        says = list(plan_lines(plan_says(self.board, kind, self.asked.of)))
        before = self.asked.before
        if before is not None and isinstance(before.act, Reckoned):
            because = learned_since(self.asked.kind, before.act, self.given)
            says += redone_lines(self.board, before, answer, because)
        return [first, *says, *lines]
