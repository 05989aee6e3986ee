"""A list of rows, drawn line by line: as quick with 5,000 rows as with 50."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.binding import Binding, BindingType
from textual.geometry import Region
from textual.message import Message
from textual.strip import Strip

from crewboard.legible import legible
from crewboard.telling.row import Row
from crewboard.terminal.cells import fitted
from crewboard.terminal.matching import filtered
from crewboard.terminal.tones import tones_of
from crewboard.terminal.widgets.line_view import LineView
from crewboard.terminal.widgets.row_drawn import Column as Column
from crewboard.terminal.widgets.row_drawn import Look, as_heading, in_columns, in_lines

_SET_IN = 6  # cells by which lines below a row are set in


class RowList(LineView, can_focus=True):
    """Rows with a cursor. Tells `Moved` when the cursor lies on another row, `Opened` on Enter."""

    DEFAULT_CSS = (
        "RowList { height: 1fr; min-width: 1; scrollbar-size-vertical: 1; overflow-x: hidden; }"
    )
    COMPONENT_CLASSES: ClassVar[set[str]] = {"rows--cursor", "rows--cursor-blurred"}
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "step(-1)", "up", show=False),
        Binding("down", "step(1)", "down", show=False),
        Binding("pageup", "page(-1)", "page up", show=False),
        Binding("pagedown", "page(1)", "page down", show=False),
        Binding("home", "end(-1)", "first", show=False),
        Binding("end", "end(1)", "last", show=False),
        Binding("enter", "open", "open", show=False),
    ]

    class _OfRow(Message):
        def __init__(self, rows: RowList, row_id: str) -> None:
            super().__init__()
            self.rows, self.row_id = rows, row_id

        @property
        def control(self) -> RowList:
            return self.rows

    class Moved(_OfRow):
        """The cursor lies on another row; `row_id` is empty where there is none."""

    class Opened(_OfRow):
        """Enter, or a second click, on a row."""

    def __init__(
        self,
        columns: Sequence[Column] = (Column(),),
        rows: Sequence[Row] = (),
        *,
        empty: str = "nothing here",
        wide_from: int = 76,
        shy: bool = False,
        id: str | None = None,
        classes: str | None = None,
    ) -> None:
        super().__init__(id=id, classes=classes)
        self.columns = tuple(columns)
        self.empty = empty
        self.wide_from = wide_from
        self.shy = shy  # shows its cursor only while the keys go to it
        self.query_text = ""
        self._marks: dict[str, None] = {}
        self._all: tuple[Row, ...] = ()
        self._rows: tuple[Row, ...] = ()
        self._starts: list[int] = []
        self._below: list[tuple[tuple[str, bool], ...]] = []
        self._wrapped_at = 0
        self._height = 0
        self._at = -1
        self._put(rows)

    # --- the rows ------------------------------------------------------------------------------

    @property
    def rows(self) -> tuple[Row, ...]:
        """The rows shown."""
        return self._rows

    @property
    def at(self) -> str:
        """The id of the row under the cursor, empty where there is none."""
        return self.row.id if self.row is not None else ""

    @property
    def row(self) -> Row | None:
        """The row under the cursor."""
        return self._rows[self._at] if 0 <= self._at < len(self._rows) else None

    @property
    def marks(self) -> tuple[str, ...]:
        """The tasks that are marked, in the order of the rows; what no row stands for is not."""
        tasks = dict.fromkeys(task for row in self._all for task in row.tasks)
        return tuple(task for task in tasks if task in self._marks)

    def mark(self, tasks: Sequence[str]) -> None:
        """Mark these tasks; where all of them are marked already, none of them any more."""
        if all(task in self._marks for task in tasks):
            self._marks = {task: None for task in self._marks if task not in tasks}
        else:
            self._marks |= dict.fromkeys(tasks)
        self.refresh()

    def unmark(self) -> None:
        """Mark nothing any more."""
        self._marks.clear()
        self.refresh()

    def fill(self, rows: Sequence[Row], *, at: str | None = None) -> None:
        """Put other rows in; the cursor stays on its row, or goes to `at` (empty: to the first)."""
        before = self.at
        self._put(rows, at)
        self.reach(self._wide, self._height)
        self.refresh()
        if self.at != before:
            self.post_message(self.Moved(self, self.at))
        self._follow()

    def find(self, text: str) -> int:
        """Show only the rows that match; how many there are. An empty text shows all."""
        self.query_text = text
        self.fill(self._all, at="" if text else None)  # the best match stands first
        return sum(1 for row in self._rows if row.id)

    def go_to(self, row_id: str) -> bool:
        """Put the cursor on a row; False where it is not in the list."""
        for index, row in enumerate(self._rows):
            if row.id == row_id and row_id:
                self._move_to(index)
                return True
        return False

    def _put(self, rows: Sequence[Row], at: str | None = None) -> None:
        wanted, old = (self.at, self._at) if at is None else (at, self._at if at else 0)
        self._all = tuple(rows)
        self._rows = filtered(self._all, self.query_text) if self.query_text else self._all
        self._boxes = any(row.marked is not None for row in self._rows)
        if self._marks:
            self._marks = dict.fromkeys(self.marks)
        self._wrap()
        self._at = next((i for i, r in enumerate(self._rows) if r.id and r.id == wanted), -1)
        if self._at < 0 and self._rows:
            self._at = self._nearest(min(max(0, old), len(self._rows) - 1), 1)

    def _wrap(self) -> None:
        """Break what stands below the rows into lines as wide as there is room beside a scroll
        bar, each with whether it is struck out; and say where each row begins."""
        self._wrapped_at = self.size.width
        room = self._wrapped_at - _SET_IN - 2
        self._below = [in_lines(row, room) if row.below else () for row in self._rows]
        self._starts, line = [], 0
        for below in self._below:
            self._starts.append(line)
            line += 1 + len(below)
        self._height = max(1, line)

    def _lines(self, index: int) -> int:
        """How many lines a row takes."""
        return 1 + len(self._below[index])

    def _nearest(self, index: int, step: int) -> int:
        """The nearest row that is no heading, looking one way and then the other."""
        for towards in (step, -step):
            near = index
            while 0 <= near < len(self._rows):
                if self._rows[near].id:
                    return near
                near += towards
        return -1

    # --- moving --------------------------------------------------------------------------------

    def action_step(self, step: int) -> None:
        target = self._at + step
        while 0 <= target < len(self._rows) and not self._rows[target].id:
            target += step
        if 0 <= target < len(self._rows):
            self._move_to(target)
        elif step < 0:
            self.scroll_to(y=0, animate=False)  # so that a heading above the first row is seen

    def action_page(self, step: int) -> None:
        if not self._rows or self._at < 0:
            return
        line = self._starts[self._at] + step * max(1, self.size.height - 1)
        index = bisect_right(self._starts, min(max(0, line), self._height - 1)) - 1
        self._move_to(self._nearest(index, step))

    def action_end(self, step: int) -> None:
        if self._rows:
            self._move_to(self._nearest(0 if step < 0 else len(self._rows) - 1, -step))
            if step < 0:
                self.scroll_to(y=0, animate=False)

    def action_open(self) -> None:
        if self.at:
            self.post_message(self.Opened(self, self.at))

    def _move_to(self, index: int) -> None:
        if index == self._at or index < 0:
            return
        left, self._at = self._at, index
        self._draw_again(left)
        self._draw_again(index)
        self._follow()
        self.post_message(self.Moved(self, self.at))

    def _draw_again(self, index: int) -> None:
        """Draw one row; all others stay as they are."""
        if 0 <= index < len(self._rows):
            self.refresh_lines(self._starts[index], self._lines(index))

    def _follow(self) -> None:
        """Scroll so that the row under the cursor is seen."""
        if not 0 <= self._at < len(self._rows) or not self.size.height:
            return
        top, lines = self._starts[self._at], self._lines(self._at)
        if self._at and not self._rows[self._at - 1].id:
            top, lines = top - 1, lines + 1  # its heading too
        self.scroll_to_region(Region(0, top, 1, lines), animate=False, force=True)

    def on_resize(self) -> None:
        if self.size.width != self._wrapped_at:
            self._wrap()
            self.refresh()
        self.reach(self._wide, self._height)
        self._follow()

    def on_click(self, event: events.Click) -> None:
        line = event.y + self.scroll_offset.y
        if not self._rows or line >= self._height:
            return
        index = bisect_right(self._starts, line) - 1
        if not self._rows[index].id:
            return
        if index == self._at:
            self.action_open()
        else:
            self._move_to(index)

    # --- drawing -------------------------------------------------------------------------------

    @property
    def _wide(self) -> int:
        """The cells of a line beside the scroll bar."""
        return self.scrollable_content_region.width

    def render_line(self, y: int) -> Strip:
        width = self.scrollable_content_region.width  # what a scrollbar leaves
        if width <= 0:
            return Strip([])
        plain = bool(getattr(self.app, "plain", False))
        base, tones = self.rich_style, tones_of(self.app)
        line = y + self.scroll_offset.y
        if not self._rows:
            nothing = f'nothing matches "{legible(self.query_text)}"' if self._all else self.empty
            text = fitted(f"  {nothing}", width, plain=plain) if y == 0 else " " * width
            return Strip([Segment(text, base + Style(color=tones["faint"]))], width)
        if line >= self._height:
            return Strip.blank(width, base)
        index = bisect_right(self._starts, line) - 1
        part = line - self._starts[index]
        row = self._rows[index]
        if index == self._at and self._shows_cursor:
            name = "rows--cursor" if self.has_focus else "rows--cursor-blurred"
            base = base + self.get_component_rich_style(name, partial=True)
        if not row.id:
            return as_heading(row, width, Look(base, tones, plain))
        lead = self._lead(index, part, plain)
        if part:
            below, is_struck = self._below[index][part - 1]
            text = fitted(lead + below, width, plain=plain)
            struck = Style(color=tones[row.below_tone], strike=is_struck or None)
            return Strip([Segment(text, base + struck)], width)
        wide = width >= self.wide_from
        return in_columns(row, lead, self.columns, width, Look(base, tones, plain), wide=wide)

    def _lead(self, index: int, part: int, plain: bool) -> str:
        """What stands left of a row: the cursor's mark, and whether it is marked."""
        row = self._rows[index]
        here = index == self._at and part == 0 and self._shows_cursor
        mark = (">" if plain else "▸") if here else " "
        box = self._box(row)
        if not box:
            room = "    " if self._boxes or self._marks else ""  # where others have their box
            return f"{mark} {room}" if part == 0 else " " * _SET_IN
        return f"{mark}[{box}] " if part == 0 else f"{mark}    "

    @property
    def _shows_cursor(self) -> bool:
        return self.has_focus or not self.shy

    def _box(self, row: Row) -> str:
        """What stands in its box: "x" marked, "-" some of what it stands for; empty: it has none.

        The boxes of tasks are drawn once one of them is marked.
        """
        if row.marked is not None:
            return "x" if row.marked else " "
        if not row.tasks or not self._marks:
            return ""
        count = sum(task in self._marks for task in row.tasks)
        return "x" if count == len(row.tasks) else "-" if count else " "
