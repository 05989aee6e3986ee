"""The answer of a reckoning as a card, its drawing to scale; of several ways one is chosen."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widget import Widget

from crewboard.legible import legible
from crewboard.telling.line import Line
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.widgets.prose import Prose
from crewboard.trade.boards.drawn import drawn_with_widths, in_ascii
from crewboard.trade.reckoning import Reckoning

Tell = Callable[[Reckoning], Sequence[Line]]
"""The lines of an answer: its first line, then the rest."""
_BOX, _SHARE, _EDGES = 110, 0.96, 6  # cells of a wide dialog, the most of the window, what is lost


class ReckonedCard(Dialog[str]):
    """Answers "keep", "edit" or "other", "begin" where it has a `clock`, None when left. Where it
    is told in `short`, w shows the whole. With `ways`, the arrows ask `way` for the next one, which
    is worked out as it is shown; `number` is the one that is shown, `looked` those that were."""

    keys: ClassVar[str] = "Enter keep   o other   e edit   Esc cancel"
    more_keys: ClassVar[tuple[tuple[str, str], ...]] = (
        ("Enter", "keep it: a dated entry of the logbook"),
        ("e", "edit what was given: back to the form"),
        ("b", "of steaming: keep it, and begin the clock; it goes into the box now"),
        ("o", "keep it with a note; boards as pieces, a count as an amount needed; the drawing"),
        ("w", "why: the whole answer, every source, each other way; then in short again"),
        ("left, right", "another way to do it; the drawing follows"),
        ("arrows", "up and down scroll; PgUp and PgDn too"),
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "answer('keep')", "keep", show=False),
        Binding("e", "answer('edit')", "edit what was given", show=False),
        Binding("b", "begin", "begin its clock", show=False),
        Binding("o", "other", "other", show=False),
        Binding("w", "why", "why: the whole answer", show=False),
        Binding("left", "way(-1)", "the way before", show=False, priority=True),
        Binding("right", "way(1)", "another way", show=False, priority=True),
    ]

    def __init__(
        self,
        title: str,
        answer: Reckoning,
        tell: Tell,
        units: str,
        *,
        ways: int = 1,
        number: int = 1,
        way: Callable[[int], Reckoning] | None = None,
        clock: bool = False,
        short: Tell | None = None,
    ) -> None:
        super().__init__(title, wide=True)
        self.answer, self.number, self.ways = answer, number, ways
        self.looked = {number}  # of the ways, those that were shown
        self._tell, self._units, self._way = tell, units, way
        self._clock, self._short, self._whole = clock, short, short is None

    def inside(self) -> Iterable[Widget]:
        yield Prose(self._lines(), spare=7)

    def opened(self) -> None:
        self._entitle()
        self.query_one(Prose).focus()

    def fit(self) -> None:
        self.query_one(Prose).tell(self._lines(), from_top=False)

    def foot(self) -> str:
        way = "left, right way   " if self.ways > 1 else ""
        begin = "b begin its clock   " if self._clock else ""
        why = "w why   " if self._short else ""
        return f"{way}{begin}{why}{self.keys}"

    def _lines(self) -> list[Line]:
        tell = self._tell if self._whole or self._short is None else self._short
        first, *rest = tell(self.answer)
        return [first, *self._drawing(), *rest]

    def _drawing(self) -> list[Line]:
        """To scale, as wide as the box has room."""
        if not self.answer.laid:
            return []
        columns = min(_BOX, int(self.app.size.width * _SHARE)) - _EDGES
        drawing = drawn_with_widths(self.answer.laid, self._units, columns)
        return [Line(row) for row in (in_ascii(drawing) if self.board_app.plain else drawing)]

    def _entitle(self) -> None:
        way = f"Way {self.number} of {self.ways}: " if self.ways > 1 else ""
        self.query_one("#box").border_title = Content(legible(f"{way}{self.asks}"))

    def action_way(self, step: int) -> None:
        wanted = min(max(1, self.number + step), self.ways)
        if self._way is None or wanted == self.number:
            return
        self.number, self.answer = wanted, self._way(wanted)
        self.looked.add(wanted)
        self.query_one(Prose).tell(self._lines())
        self._entitle()

    def action_why(self) -> None:
        if self._short is None:
            return
        self._whole = not self._whole
        self.query_one(Prose).tell(self._lines())

    def action_other(self) -> None:
        self.dismiss("other")

    def action_begin(self) -> None:
        if self._clock:
            self.dismiss("begin")

    def action_answer(self, word: str) -> None:
        self.dismiss(word)
