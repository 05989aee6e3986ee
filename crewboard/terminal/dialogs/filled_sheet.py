"""A filled sheet, to be typed in row by row in the order of its page."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Iterable, Iterator, Sequence
from itertools import groupby
from pathlib import Path
from typing import ClassVar, NamedTuple

from textual import work
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.types import CSSPathType
from textual.widget import Widget
from textual.widgets import Input, Static

from crewboard.legible import legible
from crewboard.telling.filled_sheet import Filled
from crewboard.telling.line import Line
from crewboard.telling.morning_parts import Blank, MorningRow
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.widgets.prose import Prose

_HEADS = {
    "due for a look": "DUE FOR A LOOK",
    "who is here": "WHO IS HERE",
    "checks": "CHECKS TO OPEN THE SHOP",
    "first jobs": "FIRST JOBS",
    "shop": "THE SHOP",
}
_OF_JOBS = "CHECKS BEFORE THESE JOBS, AND AFTER THEM"
# Blanks with which a row goes on in a new line.
_BREAKS = ("begun", "finished", "why")
_AROUND = 7  # lines of the window that the rows leave to the rest


class Against(NamedTuple):
    """What stands against the sheet: lines to read, the row they are about, and its blank."""

    lines: tuple[Line, ...]
    place: int | None = None
    key: str = ""


Keep = Callable[[Sequence[Filled]], Awaitable[Against | None]]


class SheetRow(Vertical):
    """One row, with a box for each of its blanks."""

    def __init__(self, row: MorningRow) -> None:
        super().__init__()
        self.row = row
        self.boxes = {
            blank.key: Input(classes=f"-{blank.what}", select_on_focus=False)
            for blank in row.blanks
        }

    @property
    def called(self) -> str:
        """What the row is called where something is said of it."""
        texts = {key: box.value.strip() for key, box in self.boxes.items()}
        typed = texts.get("name") or texts.get("task") or ""
        return " ".join(filter(None, (self.row.first, self.row.text or typed)))

    def filled(self, place: int) -> Filled:
        return Filled(place, self.row, {key: box.value for key, box in self.boxes.items()})

    def compose(self) -> Iterable[Widget]:
        named = self.row.part in ("who is here", "shop") and bool(self.row.text)
        if not named and (says := self._says()):
            yield Static(Content(legible(says)), classes="says")
        for number, blanks in enumerate(self._lines()):
            with Horizontal(classes="blanks"):
                if named and not number:
                    yield Static(Content(legible(self.row.text)), classes="name")
                for blank in blanks:
                    if blank.says:
                        yield Static(Content(legible(blank.says)), classes="asks")
                    yield self.boxes[blank.key]

    def _says(self) -> str:
        title = " ".join(filter(None, (self.row.first, self.row.text)))
        return f"{title}  {self.row.more}".strip()

    def _lines(self) -> Iterator[list[Blank]]:
        line: list[Blank] = []
        for blank in self.row.blanks:
            if blank.key in _BREAKS and line:
                yield line
                line = []
            line.append(blank)
        yield line


class FilledSheet(Dialog[bool]):
    """Answers True once the whole sheet is kept, None when left.

    `checks` gives the checks of the jobs that were begun, which stand below them as soon as that is
    typed; `keep` keeps all or nothing, and answers what stands against it.
    """

    CSS_PATH: ClassVar[CSSPathType | None] = [
        str(Path(__file__).with_name("dialog.tcss")),
        str(Path(__file__).with_name("filled_sheet.tcss")),
    ]
    keys: ClassVar[str] = "Tab, Enter next   up, down row   Ctrl+S save   Esc cancel"
    AUTO_FOCUS = "Input"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "keep", "keep", show=False, priority=True),
        Binding("down", "row(1)", "next row", show=False),
        Binding("up", "row(-1)", "row before", show=False),
    ]

    def __init__(
        self,
        title: str,
        rows: Sequence[MorningRow],
        checks: Callable[[Sequence[Filled]], Sequence[MorningRow]],
        keep: Keep,
    ) -> None:
        super().__init__(title, wide=True)
        self.rows, self.checks, self.keep = tuple(rows), checks, keep

    def inside(self) -> Iterable[Widget]:
        with VerticalScroll(id="sheet", can_focus=False):
            for part, rows in groupby(self.rows, key=lambda row: row.part):
                if part == "shop":
                    yield Vertical(id="of-jobs", classes="part")
                yield Static(Content(_HEADS[part]), classes="head")
                yield from map(SheetRow, rows)
        yield Prose(id="wrong")

    def on_mount(self) -> None:
        wrong = self.query_one("#wrong", Prose)
        wrong.display, wrong.can_focus = False, False
        self._fit()

    def on_resize(self) -> None:
        self._fit()

    def _fit(self) -> None:
        wrong = self.query_one("#wrong")
        taken = _AROUND + (wrong.size.height + 1 if wrong.display else 0)
        self.query_one("#sheet").styles.max_height = max(3, self.app.size.height - taken)

    # --- what is typed -------------------------------------------------------------------------

    def filled(self) -> list[Filled]:
        return [row.filled(place) for place, row in enumerate(self.query(SheetRow))]

    @property
    def touched(self) -> bool:
        return any(not row.empty for row in self.filled())

    def unkept(self) -> list[str]:
        lines = [
            f"{row.called}: {', '.join(filter(None, (box.value for box in row.boxes.values())))}"
            for row in self.query(SheetRow)
            if any(box.value.strip() for box in row.boxes.values())
        ]
        return [f"{self.asks}:", *lines] if lines else []

    # --- moving --------------------------------------------------------------------------------

    def on_input_submitted(self, event: Input.Submitted) -> None:
        event.stop()
        self.focus_next()

    def action_row(self, step: int) -> None:
        rows = list(self.query(SheetRow))
        at = next(
            (place for place, row in enumerate(rows) if self.focused in row.boxes.values()), 0
        )
        to = rows[min(max(at + step, 0), len(rows) - 1)]
        next(iter(to.boxes.values())).focus()

    async def on_descendant_blur(self) -> None:
        await self._put_checks()

    async def _put_checks(self) -> bool:
        """Put the checks of what was begun below the jobs; whether there were any to put."""
        there = {row.row for row in self.query(SheetRow)}
        more = [row for row in self.checks(self.filled()) if row not in there]
        if not more:
            return False
        of_jobs = self.query_one("#of-jobs", Vertical)
        head = [] if of_jobs.children else [Static(Content(_OF_JOBS), classes="head")]
        await of_jobs.mount(*head, *map(SheetRow, more))
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
        row = None if against.place is None else list(self.query(SheetRow))[against.place]
        called = row.called if row is not None else ""
        lines = [Line(called, "strong", 0, "Not saved:")] if called else []
        self._say([*lines, *against.lines])
        if row is not None:
            row.boxes.get(against.key, next(iter(row.boxes.values()))).focus()

    def _say(self, lines: Sequence[Line]) -> None:
        wrong = self.query_one("#wrong", Prose)
        wrong.display = bool(lines)
        wrong.tell(lines)
        self.call_after_refresh(self._fit)

    def action_leave(self) -> None:
        if self.touched:
            sentence = "What you typed of the sheet is not saved yet."
            self.leave_unkept("Cancel the sheet?", sentence, stay="go on with it")
        else:
            self.dismiss(None)
