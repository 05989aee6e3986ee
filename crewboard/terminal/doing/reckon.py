"""Reckon for a task, a piece or a component: which kind, what is given, the answer, kept."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from crewboard.logbook.acts import Reckoned
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.order.reckoning.asked import (
    For,
    filled_in,
    kept_for,
    learned_since,
    started_from,
    to_keep,
)
from crewboard.order.reckoning.clock import clock_started
from crewboard.order.reckoning.known import facts_of, kinds_for, known_for
from crewboard.order.said import component_name, day_in_words, piece_name
from crewboard.plan.as_typed import Unread
from crewboard.telling.line import GAP, Line
from crewboard.telling.reckoning import answer_lines, redone_lines
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.numbered import PickNumbered
from crewboard.terminal.dialogs.pick import Choice
from crewboard.terminal.dialogs.reckoned import ReckonedCard
from crewboard.terminal.forms.reckon_form import ReckonForm
from crewboard.trade.given import Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.kind import reckon as reckoned
from crewboard.trade.kinds import KINDS, kind_named
from crewboard.trade.reckoning import Reckoning

__all__ = ["For", "reckon"]

_ANEW = "~"  # before the id of a kept answer among the choices


class _ToReckon(NamedTuple):
    """What is reckoned; `before` is the kept answer that it is done anew for."""

    kind: KindOfReckoning
    of: For
    before: Entry | None = None


async def reckon(app: BoardApp, of: For) -> bool:
    """Ask what is to be reckoned and what is given, show the answer; whether it was kept."""
    asked = await _which(app, of)
    if asked is None:
        return False
    try:
        typed = _typed_before(asked)
    except Unread as unread:
        app.tell(f"what was given cannot be read any more: {unread.sentence}", warning=True)
        typed = {}
    while True:
        worked = _Worked(app.board, asked, typed)
        known = known_for(asked.kind, facts_of(app.board, of.task, of.piece))
        form = ReckonForm(_title(app.board, asked), asked.kind, known, typed, worked.take)
        if not await app.push_screen_wait(form):
            return False
        word = await app.push_screen_wait(worked.card())
        if word != "edit":
            return word in ("keep", "begin") and await _keep(app, asked, worked, word == "begin")
        typed = worked.given.typed


async def _which(app: BoardApp, of: For) -> _ToReckon | None:
    """The kinds that fit first, then what is kept, then all others."""
    board = app.board
    fitting = kinds_for(board, of.task or of.component)
    kept = {f"{_ANEW}{entry.id}": entry for entry in kept_for(board, of)}
    choices = [
        *(Choice(name, KINDS[name].says, tone="safe", find=name) for name in fitting),
        *(Choice(some_id, _kept(entry)) for some_id, entry in kept.items()),
        *(Choice(n, kind.says, find=n) for n, kind in KINDS.items() if n not in fitting),
    ]
    named = _named(board, of)
    again = _last(app)
    title = f"Reckon: {named}" if named else "Reckon"
    picked = await app.push_screen_wait(PickNumbered(title, choices, again=again))
    if picked is None:
        return None
    if picked in kept:
        entry = kept[picked]
        assert isinstance(entry.act, Reckoned)
        if entry.act.about not in KINDS:
            app.tell("this is not reckoned any more", warning=True)
            return None
        return _ToReckon(kind_named(entry.act.about), of, entry)
    app.last_reckoned = picked
    return _ToReckon(kind_named(picked), of)


def _last(app: BoardApp) -> Choice | None:
    name = app.last_reckoned
    return Choice(name, f"again: {KINDS[name].says}") if name else None


def _kept(entry: Entry) -> str:
    assert isinstance(entry.act, Reckoned)
    return f"anew, of {day_in_words(entry.at.date())}: {entry.act.answer}"


def _named(board: Board, of: For) -> str:
    plan = board.plan
    task = plan.tasks.get(of.task) or (plan.written(of.task) if of.task else None)
    if task is not None:
        return f'"{task.title}"'
    if of.piece:
        return piece_name(plan, of.piece)
    return component_name(plan, of.component) if of.component else ""


def _title(board: Board, asked: _ToReckon) -> str:
    named = _named(board, asked.of)
    return f"{asked.kind.title}: {named}" if named else asked.kind.title


def _typed_before(asked: _ToReckon) -> Mapping[str, str]:
    if asked.before is None:
        return {}
    assert isinstance(asked.before.act, Reckoned)
    return started_from(asked.before.act).typed


class _Worked:
    """What was given last, and its answer."""

    def __init__(self, board: Board, asked: _ToReckon, typed: Mapping[str, str]) -> None:
        self.board, self.asked = board, asked
        self._way = {n: t for n, t in typed.items() if n == asked.kind.way}
        self.given = Given(typed)
        self.answer: Reckoning | None = None

    def take(self, typed: Mapping[str, str]) -> None:
        """Raises Unread."""
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
        kind = self.asked.kind
        assert self.answer is not None
        ways = self.answer.figures.get("ways", 1) if kind.way else 1
        return ReckonedCard(
            _title(self.board, self.asked),
            self.answer,
            self._lines,
            self.board.plan.vehicle.units,
            ways=ways if isinstance(ways, int) else 1,
            number=int(self.given.typed.get(kind.way, "1")) if kind.way else 1,
            way=lambda number: self._work({**self.given.typed, kind.way: str(number)}),
            clock=bool(clock_started(self.board, kind, self.given, self.answer, self.asked.of)),
        )

    def _lines(self, answer: Reckoning) -> list[Line]:
        _, *lines = answer_lines(self.asked.kind, answer, self.board.plan.sheets)
        before = self.asked.before
        if before is not None and isinstance(before.act, Reckoned):
            because = learned_since(self.asked.kind, before.act, self.given)
            lines += [GAP, *redone_lines(self.board, before, answer, because)]
        return lines


async def _keep(app: BoardApp, asked: _ToReckon, worked: _Worked, clock: bool) -> bool:
    """Write the answer down, and with it start its clock."""
    assert worked.answer is not None
    before = asked.before.id if asked.before is not None else ""
    known = (app.board, asked.kind, worked.given, worked.answer, asked.of)
    clocks = clock_started(*known) if clock else []
    if not (await app.keep([to_keep(*known, before=before), *clocks])).kept:
        return False
    app.tell(f"{'in the box' if clocks else 'kept'}: {worked.answer.result[0]}")
    return True
