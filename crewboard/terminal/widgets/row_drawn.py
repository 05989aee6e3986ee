"""One row of a list as it is drawn: its cells in their columns, a heading, the lines below it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip

from crewboard.legible import legible
from crewboard.telling.line import Tone
from crewboard.telling.row import Row
from crewboard.terminal.cells import cell_len, fitted, shortened, whole_facts, wrapped


class Column(NamedTuple):
    """A column `width` cells wide; 0 shares what is left. `wide_only` needs a wide window.

    In a window with room to spare it takes up to `most`. Where a row has nothing in a `spare`
    column, the room goes to those that share what is left. A text of `facts` is cut at a comma.
    """

    width: int = 0
    right: bool = False
    wide_only: bool = False
    tone: Tone = ""  # empty: the row's own
    most: int = 0
    spare: bool = False
    facts: bool = False

    def cells(self, line: int) -> int:
        """How wide it is in a line of that many cells."""
        return max(self.width, min(self.most, line // 5)) if self.most else self.width


class Look(NamedTuple):
    """How a line is drawn: the style under all of it, the colour of each tone, whether in ASCII."""

    base: Style
    tones: Mapping[Tone, str]
    plain: bool


def in_columns(
    row: Row, lead: str, columns: Sequence[Column], width: int, look: Look, *, wide: bool
) -> Strip:
    """A row's first line, `width` cells wide, with `lead` at its left."""
    base, tones, plain = look
    room = max(0, width - cell_len(lead) - 1)
    segments = [Segment(lead, base + Style(bold=True))]
    shown = [
        (index, column)
        for index, column in enumerate(columns)
        if not (column.wide_only and not wide)
        and not (column.spare and not "".join(row.cells[index : index + 1]))
    ]
    fixed = sum(column.cells(width) + 1 for _, column in shown if column.width)
    growing = [column for _, column in shown if not column.width]
    share, extra = divmod(max(0, room - fixed - len(growing) + 1), max(1, len(growing)))
    used = 0
    for place, (index, column) in enumerate(shown):
        cell_width = column.cells(width) or share + extra
        extra = extra if column.width else 0
        cell_width = min(cell_width, room - used)
        if cell_width <= 0:
            break
        text = legible(row.cells[index]) if index < len(row.cells) else ""
        text = whole_facts(text, cell_width, plain=plain) if column.facts else text
        tone = column.tone or (row.tone if place == 0 else row.body_tone)
        struck = (row.struck > 0 and place > 0) or None
        style = base + Style(color=tones[tone], strike=struck)
        segments.append(Segment(fitted(text, cell_width, right=column.right, plain=plain), style))
        used += cell_width
        if place < len(shown) - 1 and used < room:
            segments.append(Segment(" ", base))
            used += 1
    segments.append(Segment(" " * max(0, width - cell_len(lead) - used), base))
    return Strip(segments, width)


def in_lines(row: Row, room: int) -> tuple[tuple[str, bool], ...]:
    """What stands below a row in lines of so many cells, each with whether it is struck out."""
    return tuple(
        (line, number < row.struck)
        for number, text in enumerate(row.below, 1)
        for line in (wrapped(legible(text), room, hang=2) if room > 0 else [""])
    )


def as_heading(row: Row, width: int, look: Look) -> Strip:
    """A row that is none of a list's things: its words, and a rule to the edge."""
    base, tones, plain = look
    head, tail = legible(row.cells[0]), legible("".join(row.cells[1:]))
    room = width - 1 - cell_len(tail)
    if room >= width // 2:
        text = shortened(head, room, plain=plain) + tail
    else:
        text = shortened(head + tail, width - 1, plain=plain)
    rule = ("-" if plain else "─") * max(0, width - cell_len(text) - 3)
    style = base + Style(color=tones[row.tone], bold=True)
    if not text:
        return Strip([Segment(" " * width, base)], width)
    line = fitted(f" {text} ", width, plain=plain) if not rule else f" {text} "
    rest = f"{rule} " if rule else ""
    faint = base + Style(color=tones["faint"], dim=True)
    cut = Strip([Segment(line, style), Segment(rest, faint)])
    return cut.adjust_cell_length(width, base)
