"""How the rows of a work day find room in a window: which columns, which words, how many lines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from crewboard.telling.row import Row, heading
from crewboard.telling.work_day import Sections
from crewboard.terminal.cells import cell_len, gauge
from crewboard.terminal.widgets.rows import Column

_WIDE = 110  # columns from which the sheet stands beside the rows
_WHOLE = 150  # columns from which every row says all
_TWO_LISTS = 76  # columns from which what is on hold has a list of its own
_HELD = 35  # columns of the list of what is on hold beside the work, in a narrow window
_BAR_AND_LEFT = 8  # cells of a bar with the time left beside it
_NAME = _HELD - _BAR_AND_LEFT - 6  # cells of a name before it: the edge, the cursor, a scroll bar
_SHORT_BAR, _LONG_BAR = 3, 16  # cells of a bar beside a name, and on a line of its own
_LOWEST = 12  # lines of the rows and the sheet below which the sheet waits for Enter
_SHEET = (3, 9)  # lines of the sheet below the rows, at least and at most
_FIRST = 5  # of what can be taken up, how much has to be seen
IN_SHORT = {
    "due for a look": "look",
    "check due": "check",
    "under way": "on",
    "leave alone": "alone",
    "waiting": "waits",
}
"""The word of a row where its heading says the rest of it."""


class DayLayout(NamedTuple):
    """A window `width` columns wide with `height` lines for the rows and the sheet."""

    width: int
    height: int
    plain: bool = False

    @property
    def wide(self) -> bool:
        return self.width >= _WIDE

    @property
    def whole(self) -> bool:
        """Whether every row can say all."""
        return self.width >= _WHOLE

    @property
    def one_list(self) -> bool:
        """Whether all rows stand in one list, for want of columns."""
        return self.width < _TWO_LISTS

    @property
    def has_sheet(self) -> bool:
        return self.wide or self.height >= _LOWEST

    # --- the work ------------------------------------------------------------------------------

    def work_columns(self, of_day: Sections, waiting: Sequence[Row]) -> tuple[Column, ...]:
        of_list = of_day.rows if self.one_list else (*of_day.look, *of_day.going, *of_day.first)
        word = max((cell_len(self._word(row)) for row in of_list), default=0)
        told = (*of_day.look, *of_day.going)
        wants = max((cell_len(row.cells[2]) for row in told if len(row.cells) > 2), default=0)
        told_of = (row for row in (*of_day.rows, *waiting) if row.tasks)
        hours = max((cell_len(row.cells[-1]) for row in told_of), default=0)
        beside = 28 if self.whole else min(wants, 28 if self.wide else 16)
        planned = [cell_len(row.planned) for row in of_list if row.planned]
        return (
            Column(max(5, min(14, word))),
            Column(facts=True),
            *([Column(max(planned), tone="must", spare=True)] if planned else ()),
            Column(max(1, beside), tone="faint", spare=True),
            Column(max(1, min(6, hours)), right=True),
        )

    def work_rows(self, of_day: Sections, waiting: Sequence[Row]) -> list[Row]:
        """All rows of the list, each in one line; without headings where that is what it takes for
        the first few to be seen."""
        rows = list(of_day.work)
        if self.one_list and of_day.held:
            rows += [heading(f"On hold ({len(of_day.held)})", "caution"), *of_day.held]
        if self._is_tight(of_day):
            rows = [row for row in rows if row.id]
        by_plan = any(row.planned for row in rows)
        return [self._narrowed(row, by_plan=by_plan) for row in (*rows, *waiting)]

    def _is_tight(self, of_day: Sections) -> bool:
        room = self.height if self.wide or not self.has_sheet else self.height - _SHEET[0]
        return _seen_first(of_day) > room

    def _word(self, row: Row) -> str:
        word, title, *_ = row.cells
        if self.whole:
            return word
        return "clock" if title.startswith(word) else IN_SHORT.get(word, word)

    def _narrowed(self, row: Row, *, by_plan: bool) -> Row:
        """In one line; where it belongs only in a window that has room for that. `by_plan`: when it
        is to begin has a column of its own."""
        if not row.id:
            return row
        _, title, *rest = row.cells
        if row.folded is not None:
            title = f"{'+' if row.folded else '-'} {title}"
        is_look = row.id.startswith(("check:", "hold:"))
        if rest and row.tasks and not is_look and row.cells[0] != "under way" and not self.whole:
            rest[0] = ""  # the component, which the sheet tells
        if by_plan and rest:
            rest.insert(0, row.planned)
        return row._replace(cells=(self._word(row), f"{'  ' * row.depth}{title}", *rest), below=())

    def sheet_lines(self, of_day: Sections) -> int:
        """How high the sheet below the rows is, its edge included."""
        least, most = _SHEET
        if self._is_tight(of_day):
            return least - 1
        held = 1 + len(of_day.held) + len(self._in_two_lines(of_day.held))
        return max(least, min(most, self.height - max(_seen_first(of_day) + 1, held)))

    # --- what is on hold -----------------------------------------------------------------------

    @property
    def _bar(self) -> int:
        """Cells of a bar beside its name in a wide window."""
        return 16 if self.whole else 5

    @property
    def hold_columns(self) -> tuple[Column, ...]:
        if self.wide:
            word = 11 if self.whole else 0
            bar = Column(self._bar, tone="faint", spare=True)
            columns = (Column(), bar, Column(8, right=True, tone="plain"))
            return (Column(word), *columns) if word else columns
        return (Column(facts=True), Column(_BAR_AND_LEFT, right=True, tone="plain", spare=True))

    def hold_rows(self, held: Sequence[Row]) -> list[Row]:
        return [heading(f"On hold ({len(held)})", "caution"), *self._held(held)] if held else []

    def _held(self, held: Sequence[Row]) -> Iterator[Row]:
        """Each with its bar: below its name where names would be cut and there is room."""
        two_lines = self._in_two_lines(held)
        for row in held:
            word, title, left = row.cells
            cells: tuple[str, ...] = (title, self._bar_and_left(row, left))
            if self.wide:
                bar = gauge(row.share, self._bar, plain=self.plain)
                cells = (word, title, bar, left) if self.whole else (title, bar, left)
            elif row.id in two_lines:
                bar = gauge(row.share, _LONG_BAR, plain=self.plain) or " " * _LONG_BAR
                yield row._replace(cells=(title,), below=(f"{bar} {left}",), body_tone="plain")
                continue
            yield row._replace(cells=cells, below=(), body_tone="plain")

    def _in_two_lines(self, held: Sequence[Row]) -> set[str]:
        """Of which rows the bar stands below the name: those whose names would be cut, where there
        is room for that."""
        if self.wide or self.one_list:
            return set()
        long = {row.id for row in held if cell_len(row.cells[1]) > _NAME}
        return long if 1 + len(held) + len(long) <= self.height - _SHEET[0] else set()

    def _bar_and_left(self, row: Row, left: str) -> str:
        """Both in few cells, the bar in what the time leaves: names need the room."""
        room = _BAR_AND_LEFT - cell_len(left) - 1
        if row.share is None or room < 2:
            return left
        return f"{gauge(row.share, min(room, _SHORT_BAR), plain=self.plain)} {left:>4}"

    def hold_lines(self, held: Sequence[Row]) -> int:
        """How high the list is in a wide window: as high as it is long, up to half."""
        return min(len(held) + 2, max(4, self.height // 2))


def _seen_first(of_day: Sections) -> int:
    """The lines that the first screen has to have: all down to the first few to be taken up."""
    parts = (len(of_day.look), len(of_day.going), min(_FIRST, len(of_day.first)))
    return sum(part + 1 for part in parts if part)
