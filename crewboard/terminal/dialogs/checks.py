"""The checks of a task in one list: read them, mark several, sign them at once."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import partial
from typing import ClassVar, NamedTuple

from textual import events
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from crewboard.legible import legible
from crewboard.order.board import Board
from crewboard.order.safety.checks import Asked
from crewboard.order.safety.signing import who_signs
from crewboard.order.said import person
from crewboard.telling.row import Row, heading
from crewboard.telling.safety import AUTHORISES_NOTHING, check_state
from crewboard.terminal.cells import wrapped
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.widgets.rows import Column, RowList

_STATE = 34  # cells that the state of a check takes at most: half of a narrow window


class Marked(NamedTuple):
    """The checks marked, and whether they are to be signed as not applying."""

    checks: tuple[Asked, ...]
    applies: bool = True


class ChecksDialog(Dialog[Marked]):
    """Answers what is to be signed, None when left."""

    keys: ClassVar[str] = "Space marks   a all   Enter signs   x does not apply   Esc leaves"

    def __init__(
        self,
        title: str,
        board: Board,
        asked: Sequence[Asked],
        *,
        intro: str = "",
        marked: Sequence[Asked] = (),
    ) -> None:
        super().__init__(title, wide=True)
        self.board, self.asked = board, tuple(asked)
        self.intro = intro
        self.marked = {n for n, check in enumerate(self.asked) if check in marked}

    def inside(self) -> Iterable[Widget]:
        if self.intro:
            yield Static(Content(legible(self.intro)), classes="intro")
        yield RowList((Column(_STATE), Column()), empty="no checks are asked for")
        yield Static(Content(AUTHORISES_NOTHING), classes="label", id="caution")

    def on_mount(self) -> None:
        self._fit()
        first = next((str(n) for n, a in enumerate(self.asked) if a.open), "")
        self.query_one(RowList).go_to(first)

    def on_resize(self) -> None:
        self._fit()

    def _fit(self) -> None:
        rows = self.query_one(RowList)
        width = min(110, self.app.size.width * 96 // 100) - 12
        filled = self._rows(max(20, width))
        state = max((len(row.cells[0]) for row in filled if row.id), default=0)
        rows.columns = (Column(min(_STATE, state)), Column())
        lines = sum(1 + len(row.below) for row in filled)
        rows.styles.height = max(
            1, min(lines, self.app.size.height - (10 if not self.intro else 12))
        )
        rows.fill(filled)

    def _rows(self, width: int) -> list[Row]:
        rows: list[Row] = []
        head = ""
        for number, asked in enumerate(self.asked):
            group = f"{asked.check.when.capitalize()} the work"
            group = group if asked.task else f"The shop: {group.lower()}"
            if group != head:
                head = group
                rows.append(heading(group))
            state, tone = check_state(self.board, asked)
            of = f" for {person(self.board.plan, asked.who)}" if asked.who else ""
            name = f"{asked.hazard.short}: {asked.check.id}{of}"
            signs = "" if asked.check.signs == "anyone" else f" ({who_signs(asked.check)})"
            text = f"{asked.text}{signs}{' Reason: ' + asked.why if asked.why else ''}"
            below = tuple(wrapped(legible(text), width))
            marked = number in self.marked
            # What is signed has no empty box before it; it may still be signed by others too.
            box = marked if marked or asked.open else None
            rows.append(Row(str(number), (state, name), tone, below, box))
        return rows

    def on_key(self, event: events.Key) -> None:
        """These keys are taken here, in the order of typing: bindings would come in later."""
        rows = self.query_one(RowList)
        acts: dict[str, Callable[[], None]] = {
            "space": self.action_mark,
            "a": self.action_mark_open,
            "x": self.action_not_applying,
            "enter": self.action_sign,
            "up": partial(rows.action_step, -1),
            "down": partial(rows.action_step, 1),
        }
        if (act := acts.get(event.key)) is not None:
            act()
            event.stop()
            event.prevent_default()

    def action_mark(self) -> None:
        rows = self.query_one(RowList)
        if rows.at:
            self.marked ^= {int(rows.at)}
            self._fit()

    def action_mark_open(self) -> None:
        """All that has to be signed before the work; a second time, none."""
        wanted = {n for n, a in enumerate(self.asked) if a.open and a.check.when == "before"}
        wanted = wanted or {n for n, a in enumerate(self.asked) if a.open}
        self.marked = set() if wanted <= self.marked else self.marked | wanted
        self._fit()

    def action_sign(self) -> None:
        self._answer(applies=True)

    def action_not_applying(self) -> None:
        self._answer(applies=False)

    def _answer(self, *, applies: bool) -> None:
        at = self.query_one(RowList).at
        chosen = self.marked or ({int(at)} if at else set())
        if chosen:
            self.dismiss(Marked(tuple(self.asked[n] for n in sorted(chosen)), applies))

    def on_row_list_opened(self, event: RowList.Opened) -> None:
        event.stop()
        self.action_mark()
