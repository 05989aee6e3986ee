"""A filled sheet, to be typed in row by row in the order of its page."""

from __future__ import annotations

from collections import Counter
from collections.abc import Awaitable, Callable, Iterable, Mapping, Sequence
from itertools import groupby
from pathlib import Path
from typing import ClassVar, NamedTuple

from textual import work
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.types import CSSPathType
from textual.widget import Widget
from textual.widgets import Input, Static

from crewboard.telling.filled_sheet import Filled
from crewboard.telling.line import Line
from crewboard.telling.morning_parts import MorningRow
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.dialogs.sheet_row import SheetRow
from crewboard.terminal.widgets.prose import Prose

_HEADS = {
    "due for a look": "DUE FOR A LOOK",
    "who is here": "WHO IS HERE",
    "checks": "CHECKS TO OPEN THE SHOP",
    "first jobs": "FIRST JOBS",
    "shop": "THE SHOP",
    "to close": "CHECKS TO CLOSE THE SHOP",
}
_AT_THE_END = ("shop", "to close")
_OF_JOBS = "CHECKS BEFORE THESE JOBS, WHILE THEY GO ON, AND AFTER THEM"
_AROUND = 7  # lines of the window that the rows leave to the rest


class Against(NamedTuple):
    """What stands against the sheet: lines to read, the row they are about, and its blank."""

    lines: tuple[Line, ...]
    place: int | None = None
    key: str = ""


Keep = Callable[[Sequence[Filled]], Awaitable[Against | None]]
# What is typed so far: by row, by blank. A row is known by what it is about.
Typed = Mapping[str, Mapping[str, str]]


class FilledSheet(Dialog[bool]):
    """Answers True once the whole sheet is kept, None when left.

    `checks` gives the checks of the jobs that were begun, which stand below them as soon as that is
    typed; `keep` keeps all or nothing, and answers what stands against it. `draft` is what was
    typed before, and `keep_draft` keeps what is typed with every key, and says whether it could.
    """

    CSS_PATH: ClassVar[CSSPathType | None] = [
        str(Path(__file__).with_name("dialog.tcss")),
        str(Path(__file__).with_name("filled_sheet.tcss")),
    ]
    keys: ClassVar[str] = "Tab, Enter next   up, down row   Ctrl+S save   Esc cancel"
    AUTO_FOCUS = "Input"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "keep", "keep", show=False, priority=True),
        # Before the box around the rows takes them to scroll.
        Binding("down", "row(1)", "next row", show=False, priority=True),
        Binding("up", "row(-1)", "row before", show=False, priority=True),
    ]

    def __init__(
        self,
        title: str,
        rows: Sequence[MorningRow],
        checks: Callable[[Sequence[Filled]], Sequence[MorningRow]],
        keep: Keep,
        draft: Typed,
        keep_draft: Callable[[Typed], bool],
    ) -> None:
        super().__init__(title, wide=True)
        self.checks, self.keep = checks, keep
        self._above_checks = [SheetRow(row) for row in rows if row.part not in _AT_THE_END]
        self._of_jobs: list[SheetRow] = []
        self._of_shop = [SheetRow(row) for row in rows if row.part in _AT_THE_END]
        self.draft, self.keep_draft = draft, keep_draft
        self._drafted = False

    def inside(self) -> Iterable[Widget]:
        with VerticalScroll(id="sheet", can_focus=False):
            for part, rows in groupby(self.rows, key=lambda row: row.row.part):
                if part == "shop":
                    yield Vertical(id="of-jobs", classes="part")
                yield Static(Content(_HEADS[part]), classes="head")
                yield from rows
        yield Prose(id="wrong")

    def opened(self) -> None:
        wrong = self.query_one("#wrong", Prose)
        wrong.display, wrong.can_focus = False, False
        self.fit()
        if self.draft:
            self.call_later(self._go_on_with_draft)

    def fit(self) -> None:
        wrong = self.query_one("#wrong")
        taken = _AROUND + (wrong.size.height + 1 if wrong.display else 0)
        self.query_one("#sheet").styles.max_height = max(3, self.app.size.height - taken)

    @property
    def rows(self) -> list[SheetRow]:
        """All rows in the order of the page."""
        return [*self._above_checks, *self._of_jobs, *self._of_shop]

    # --- what is typed -------------------------------------------------------------------------

    def filled(self) -> list[Filled]:
        return [row.filled(place) for place, row in enumerate(self.rows)]

    @property
    def touched(self) -> bool:
        return any(not row.empty for row in self.filled())

    def unkept(self) -> list[str]:
        lines = [
            f"{row.called}: {', '.join(filter(None, (box.value for box in row.boxes.values())))}"
            for row in self.rows
            if any(box.value.strip() for box in row.boxes.values())
        ]
        return [f"{self.asks}:", *lines] if lines else []

    # --- what is typed and not saved yet -------------------------------------------------------

    async def _go_on_with_draft(self) -> None:
        self._fill(self.draft)
        if await self._put_checks():
            self._fill(self.draft)
        gone = [
            Line(", ".join(texts.values()), "warning", 0, "no row any more for:")
            for place, texts in self.draft.items()
            if place not in self._places()
        ]
        self._say(gone)

    def _fill(self, texts: Typed) -> None:
        for place, row in self._places().items():
            for key, text in texts.get(place, {}).items():
                if key in row.boxes:
                    row.boxes[key].value = text

    def _places(self) -> dict[str, SheetRow]:
        """The rows by what each is about; those about nothing yet by their number."""
        places, alike = dict[str, SheetRow](), Counter[str]()
        for row in self.rows:
            of = row.row
            about = " ".join((of.part, of.about, of.task, of.concerns, of.first if of.task else ""))
            places[f"{about} {alike[about]}"] = row
            alike[about] += 1
        return places

    def on_input_changed(self) -> None:
        typed = {place: row.typed for place, row in self._places().items() if row.typed}
        self._drafted = self.keep_draft(typed)

    # --- moving --------------------------------------------------------------------------------

    def on_input_submitted(self, event: Input.Submitted) -> None:
        event.stop()
        self.focus_next()

    def action_row(self, step: int) -> None:
        rows = self.rows
        at = next(
            (place for place, row in enumerate(rows) if self.focused in row.boxes.values()), 0
        )
        to = rows[min(max(at + step, 0), len(rows) - 1)]
        self.set_focus(next(iter(to.boxes.values())))

    async def on_descendant_blur(self) -> None:
        await self._put_checks()

    async def _put_checks(self) -> bool:
        """Put the checks of what was begun below the jobs; whether there were any to put."""
        there = {row.row for row in self._of_jobs}
        more = [SheetRow(row) for row in self.checks(self.filled()) if row not in there]
        if not more:
            return False
        of_jobs = self.query_one("#of-jobs", Vertical)
        head = [] if of_jobs.children else [Static(Content(_OF_JOBS), classes="head")]
        self._of_jobs += more
        await of_jobs.mount(*head, *more)
        return True

    # --- keeping and leaving -------------------------------------------------------------------

    def action_keep(self) -> None:
        """Keep, but only once the box has taken all that was typed before this key."""
        (self.focused or self).call_later(self._keep)

    @work(exclusive=True)
    async def _keep(self) -> None:
        if await self._put_checks():
            self._say([Line("their checks stand below them now: who signed each?", "must")])
            next(iter(self.query("#of-jobs Input"))).focus()
            return
        if not self.touched:
            self.dismiss(None)
            return
        against = await self.keep(self.filled())
        if against is None:
            self.dismiss(True)
            return
        row = None if against.place is None else self.rows[against.place]
        called = row.called if row is not None else ""
        lines = [Line(called, "strong", 0, "Not saved:")] if called else []
        self._say([*lines, *against.lines])
        if row is not None:
            row.boxes.get(against.key, next(iter(row.boxes.values()))).focus()

    def _say(self, lines: Sequence[Line]) -> None:
        wrong = self.query_one("#wrong", Prose)
        wrong.display = bool(lines)
        wrong.tell(lines)
        self.call_after_refresh(self.fit)

    def action_leave(self) -> None:
        if self.touched and not self._drafted:
            sentence = "What you typed of the sheet is not saved yet."
            self.leave_unkept(sentence)
            return
        if self.touched:
            self.board_app.tell("not saved yet: what you typed is offered again on this computer")
        self.dismiss(None)
