"""Toned lines and rows as plain text at a width, for terminals and text files."""

from __future__ import annotations

from collections.abc import Iterable

from crewboard.legible import legible
from crewboard.telling.drawn import cells
from crewboard.telling.line import Line
from crewboard.telling.row import Row, percent

_HANG = 2  # blanks by which what is wrapped is set in
_DEEPEST = 12  # levels beyond which a branch is no longer set in further
_LONGEST_SIGN = 4  # cells: under a word no longer, such as "-" or "12.", the text is aligned
_UNBROKEN = "\N{NO-BREAK SPACE}"
_SHORT = 8  # cells of a column that is never broken: a number and its unit


def plain_lines(lines: Iterable[Line], width: int) -> list[str]:
    """The lines wrapped at `width` columns, without their tones."""
    paper = Paper(width)
    for line in lines:
        paper.told(line)
    return paper.lines


def plain_rows(rows: Iterable[Row], width: int) -> list[str]:
    """A list of rows: each heading after an empty line, each row with its lines below it."""
    paper = Paper(width)
    for row in rows:
        paper.row(row)
    return paper.lines


class Paper:
    """Lines put down one after the other, wrapped at `width` columns.

    Every text passes `legible` here. A word longer than a line is left whole: paths and ids can be
    copied from it.
    """

    def __init__(self, width: int = 80) -> None:
        self.width = width
        self.lines: list[str] = []

    def line(self, text: str = "", *, indent: int = 0, hang: int = 0) -> None:
        """One paragraph; lines after its first are set in by `hang` more."""
        text = legible(text)
        blanks = " " * indent
        if cells(text) + indent <= self.width:
            self.lines.append((blanks + text).rstrip(" ").replace(_UNBROKEN, " "))
        else:
            self.lines += _wrapped(text, self.width, blanks, blanks + " " * hang)

    def told(self, line: Line) -> None:
        """A toned line. A text of several lines is set down as it stands, each wrapped alone."""
        first = " ".join(filter(None, (line.word, line.text.rstrip())))
        first += f"  [{line.handle}]" if line.handle else ""
        if line.word and cells(line.word) <= _LONGEST_SIGN:
            hang = cells(line.word) + 1
        else:
            hang = line.hang or (_HANG if line.word else 0)
        for text in legible(first, lines=True).expandtabs(4).rstrip("\n").split("\n"):
            self.line(text.rstrip(), indent=line.indent, hang=hang)

    def row(self, row: Row) -> None:
        """A row of a list, or a heading between rows."""
        if not row.id:
            self.heading("".join(row.cells))
            return
        share = f"{percent(row.share)} %" if row.share is not None else ""
        handle = f"[{row.handle}]" if row.handle else ""  # after what it names, the second cell
        rest = (
            cell.replace(" ", _UNBROKEN) if cells(cell) <= _SHORT else cell
            for cell in row.cells[2:]
        )
        shown = (*row.cells[:2], handle, *rest, share)
        indent = 2 + 2 * min(row.depth, _DEEPEST)
        self.line("  ".join(filter(None, shown)), indent=indent, hang=_HANG)
        for text in (*row.below, *row.below_in_full):
            self.line(text, indent=indent + 4, hang=_HANG)

    def heading(self, text: str) -> None:
        """A heading with an empty line before it."""
        if self.lines:
            self.lines.append("")
        self.line(text)

    def text(self, text: str, *, indent: int = 0) -> None:
        """A text of several paragraphs, such as a task's method."""
        for paragraph in legible(text, lines=True).expandtabs(4).strip("\n").split("\n"):
            self.line(paragraph.rstrip(), indent=indent)

    def items(self, texts: Iterable[str], *, indent: int = 2) -> None:
        """Points, each with a dash."""
        for text in texts:
            self.line(f"- {text}", indent=indent, hang=2)


def _wrapped(text: str, width: int, first: str, later: str) -> list[str]:
    lines: list[str] = []
    line, used, begun = first, len(first), False
    for word in text.split(" "):
        long = cells(word)
        if begun and used + 1 + long > width:
            lines.append(line.rstrip(" "))
            line, used, begun = later, len(later), False
        if lines and not begun and not word:
            continue  # a run of blanks is not carried over to the next line
        line += f" {word}" if begun else word
        used += long + (1 if begun else 0)
        begun = True
    lines.append(line.rstrip(" "))
    return [line.replace(_UNBROKEN, " ") for line in lines]
