"""A table of numbers that are typed straight into its cells."""

from __future__ import annotations

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.geometry import Region
from textual.message import Message
from textual.strip import Strip

from crewboard.legible import legible
from crewboard.logbook.acts import WorkedOn
from crewboard.order.hours.guests import Worker
from crewboard.terminal.cells import cell_len, fitted, shortened, wrapped
from crewboard.terminal.hours_of_day import Cell, NotHours, in_words, parse_hours
from crewboard.terminal.tones import tones_of
from crewboard.terminal.widgets.typed_cells import TypedCells

_SHORTEST, _LONGEST = 20, 30  # cells for a person's name
_TOTAL = 6
_LEAST, _MOST = 10, 15  # cells of a column
_HEAD = 2  # lines for the names of the columns
_ALLOWED = frozenset("0123456789.,:")


class HoursTable(TypedCells):
    """People down, what was worked on across. `Changed` when a cell was left or cleared."""

    DEFAULT_CSS = (
        "HoursTable { height: 1fr; min-width: 1; scrollbar-size-vertical: 1; overflow-x: hidden; }"
    )

    class Changed(Message):
        """Something in the table, or the cell the cursor is on, is another one."""

    def __init__(self) -> None:
        super().__init__()
        self.people: list[Worker] = []
        self.names: dict[Worker, str] = {}
        self.here = 0  # the first so many were in the shop
        self.columns: list[WorkedOn] = []
        self.titles: dict[WorkedOn, str] = {}
        self.hours: dict[Cell, float | None] = {}
        self.wrong: dict[Cell, str] = {}  # what was typed and is no number
        self.questioned: frozenset[Worker] = frozenset()
        self._row = self._column = 0
        self._typed: str | None = None  # None: the cell is not being typed in

    # --- what the page calls -------------------------------------------------------------------

    def lay_out(self, names: dict[Worker, str], here: int, titles: dict[WorkedOn, str]) -> None:
        """Set rows, the first `here` of whom were in the shop, and columns; what was typed stays,
        and the cursor stays on its cell."""
        at = self.cell
        self.people, self.names, self.here = list(names), names, here
        self.columns, self.titles = list(titles), titles
        self._row = min(self._row, max(0, len(self.people) - 1))
        self._column = min(self._column, max(0, len(self.columns) - 1))
        if at is not None and at.worker in names and at.on in titles:
            self._row, self._column = self.people.index(at.worker), self.columns.index(at.on)
        self._resize()
        self.refresh()

    @property
    def cell(self) -> Cell | None:
        """The cell under the cursor."""
        if not self.people or not self.columns:
            return None
        return Cell(self.people[self._row], self.columns[self._column])

    def go_to_column(self, on: WorkedOn) -> None:
        self._move(0 if self._row >= len(self.people) else self._row, self.columns.index(on))

    def go_to_row(self, worker: Worker) -> None:
        self._move(self.people.index(worker), self._column)

    def leave_cell(self) -> None:
        """Take what is being typed as the cell's hours."""
        if self._typed is None or self.cell is None:
            return
        cell, text = self.cell, self._typed
        self._typed = None
        self.wrong.pop(cell, None)
        try:
            self.hours[cell] = parse_hours(text)
        except NotHours:
            self.wrong[cell] = text
        self.post_message(self.Changed())

    # --- moving --------------------------------------------------------------------------------

    def _move(self, row: int, column: int) -> None:
        self.leave_cell()
        if not self.people or not self.columns:
            return
        self._row = min(max(0, row), len(self.people) - 1)
        self._column = min(max(0, column), len(self.columns) - 1)
        region = Region(0, self._line(self._row), 1, _HEAD + 1)  # the head stands over the rows
        self.scroll_to_region(region, animate=False, force=True)
        self.refresh()
        self.post_message(self.Changed())

    def _go(self, down: int, right: int) -> None:
        self._move(self._row + down, self._column + right)

    def _on(self, step: int) -> None:
        columns = max(1, len(self.columns))
        place = self._row * columns + self._column + step
        self._move(*divmod(min(max(0, place), max(0, len(self.people) * columns - 1)), columns))

    def _below(self) -> None:
        """To the next person; from the last one to the top of the next column."""
        if self._row + 1 < len(self.people):
            self._move(self._row + 1, self._column)
        else:
            self._move(0, self._column + 1)

    def _edge(self, step: int) -> None:
        self._move(self._row, 0 if step < 0 else len(self.columns) - 1)

    def on_click(self, event: events.Click) -> None:
        row = next(
            (
                n
                for n in range(len(self.people))
                if self._line(n) == event.y - _HEAD + self.scroll_offset.y
            ),
            None,
        )
        width = self._column_width()
        column = (event.x - self._name_width()) // width + self._first()
        if event.y < _HEAD:
            row = self._row
        if row is not None and 0 <= column < len(self.columns) and event.x >= self._name_width():
            self._move(row, column)

    # --- typing --------------------------------------------------------------------------------

    def _writes(self, key: events.Key) -> bool:
        return key.character is not None and key.character in _ALLOWED and self.cell is not None

    def _type(self, text: str) -> None:
        self._typed = ((self._typed or "") + text)[:6]
        self.refresh()

    def _shorten(self) -> None:
        if self.cell is None:
            return
        text = self._typed if self._typed is not None else self._shown(self.cell)
        self._typed = text[:-1]
        self.refresh()

    def _clear(self) -> None:
        if self.cell is not None:
            self._typed = ""
            self.leave_cell()
            self.refresh()

    # --- drawing -------------------------------------------------------------------------------

    def _resize(self) -> None:
        gap = 1 if 0 < self.here < len(self.people) else 0
        self.reach(self._wide, len(self.people) + gap + _HEAD + 1)

    def _line(self, row: int) -> int:
        """The line of a person below the head; a blank one parts who was here from the rest."""
        return row + (1 if 0 < self.here <= row else 0)

    def _name_width(self) -> int:
        """As wide as the names want, where the columns leave room for it."""
        wanted = max((cell_len(legible(n)) for n in self.names.values()), default=0) + 4
        room = self._wide - _TOTAL - _LEAST * len(self.columns)
        return min(_LONGEST, wanted, max(_SHORTEST, room))

    def _column_width(self) -> int:
        room = self._wide - self._name_width() - _TOTAL
        return max(_LEAST, min(_MOST, room // max(1, len(self.columns))))

    def _first(self) -> int:
        """The first column shown."""
        fit = max(1, (self._wide - self._name_width() - _TOTAL) // self._column_width())
        return max(0, min(self._column - fit + 1, len(self.columns) - fit))

    def _shown(self, cell: Cell) -> str:
        return self.wrong.get(cell) or in_words(self.hours.get(cell))

    def render_line(self, y: int) -> Strip:
        width, base = self._wide, self.rich_style
        if width <= 0:
            return Strip([])
        if not self.people or not self.columns:
            text = "  Nothing to write hours on yet: a adds a column." if y == 0 else ""
            return Strip([Segment(text, base)]).adjust_cell_length(width, base)
        if y < _HEAD:
            return self._head(y, width, base)
        line = y - _HEAD + self.scroll_offset.y
        row = next((n for n in range(len(self.people)) if self._line(n) == line), None)
        if row is not None:
            return self._person(row, width, base)
        if line == self._line(len(self.people) - 1) + 1:
            return self._foot(width, base)
        return Strip.blank(width, base)

    def _shown_columns(self) -> list[WorkedOn]:
        fit = max(1, (self._wide - self._name_width() - _TOTAL) // self._column_width())
        return self.columns[self._first() : self._first() + fit]

    def _head(self, line: int, width: int, base: Style) -> Strip:
        """The names of the columns over two lines."""
        last = line == _HEAD - 1
        before, after = self._first(), len(self.columns)
        after -= before + len(self._shown_columns())
        faint = base + Style(color=tones_of(self.app)["faint"])
        left = f"+{before}" if before and not last else ""
        segments = [Segment(fitted(f"  {left}", self._name_width()), faint)]
        wide, tones = self._column_width(), tones_of(self.app)
        plain = bool(getattr(self.app, "plain", False))
        for on in self._shown_columns():
            current = on == self.columns[self._column]
            tone = tones["strong" if current else "faint"]
            style = base + Style(color=tone, bold=current)
            part = head_of_column(self.titles[on], wide - 1, plain=plain)[line]
            segments.append(Segment(fitted(part, wide, right=True, plain=plain), style))
        right = "all" if last else f"+{after}" if after else ""
        segments.append(Segment(fitted(right, _TOTAL - 1, right=True), faint))
        return Strip(segments).adjust_cell_length(width, base)

    def _person(self, row: int, width: int, base: Style) -> Strip:
        who, plain = self.people[row], bool(getattr(self.app, "plain", False))
        at = row == self._row
        mark = (">" if plain else "▸") if at else " "
        tone = "strong" if row < self.here else "faint"
        name = fitted(f"{mark} {legible(self.names[who])}", self._name_width(), plain=plain)
        segments = [Segment(name, base + Style(color=tones_of(self.app)[tone], bold=at or None))]
        for on in self._shown_columns():
            segments += self._number(who, on, base, at=at)
        total = sum(self.hours.get(Cell(who, on)) or 0.0 for on in self.columns)
        asked = who in self.questioned
        style = base + Style(
            color=tones_of(self.app)["warning" if asked else "plain"], bold=asked or None
        )
        text = f"{in_words(total)}{'?' if asked else ' '}"
        segments.append(Segment(fitted(text, _TOTAL, right=True), style))
        return Strip(segments).adjust_cell_length(width, base)

    def _number(self, who: Worker, on: WorkedOn, base: Style, *, at: bool) -> list[Segment]:
        cell, wide = Cell(who, on), self._column_width()
        here = at and on == self.columns[self._column]
        if here and self._typed is not None:
            text = f"{self._typed}_"
        else:
            text = self._shown(cell) or ("." if not here else "")
        tone = "danger" if cell in self.wrong else "faint" if text == "." else "strong"
        style = base + Style(
            color=tones_of(self.app)[tone], reverse=here or None, bold=here or None
        )
        shown = fitted(text, wide - 1, right=True, plain=True)
        return [Segment(" ", base), Segment(shown, style)]

    def _foot(self, width: int, base: Style) -> Strip:
        style = base + Style(color=tones_of(self.app)["plain"])
        segments = [
            Segment(
                fitted("  all", self._name_width()), base + Style(color=tones_of(self.app)["faint"])
            )
        ]
        for on in self._shown_columns():
            total = sum(self.hours.get(Cell(who, on)) or 0.0 for who in self.people)
            text = fitted(in_words(total), self._column_width(), right=True)
            segments.append(Segment(text, style))
        whole = sum(
            self.hours.get(Cell(who, on)) or 0.0 for who in self.people for on in self.columns
        )
        bold = style + Style(bold=True)
        segments.append(Segment(fitted(f"{in_words(whole)} ", _TOTAL, right=True), bold))
        return Strip(segments).adjust_cell_length(width, base)


def head_of_column(title: str, width: int, *, plain: bool = False) -> tuple[str, str]:
    """A column's name in two lines of so many cells, the lower one full before the upper: "Plumb
    the" over "frame". Of the same work on several pieces the piece is never cut off for the work:
    "Steam an…" over "Arch 7"."""
    lines = wrapped(legible(title), width)
    if len(lines) == 1:
        return "", lines[0]
    work, colon, piece = legible(title).rpartition(": ")
    if colon and len(lines) > 2:
        return shortened(work, width, plain=plain), shortened(piece, width, plain=plain)
    return lines[0], shortened(" ".join(lines[1:]), width, plain=plain)
