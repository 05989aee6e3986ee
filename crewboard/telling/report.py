"""What a report is asked for and what it gives: a sheet to read, or a table of cells."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Literal, NamedTuple

from crewboard.legible import legible
from crewboard.order.board import Board
from crewboard.telling.line import GAP, Line, Pointer, Tone, title


class Request(NamedTuple):
    """What was asked of a report: of the board's moment, and narrowed down as far as given."""

    board: Board
    who: str = ""  # the id of one person
    period: str = ""  # the beginning of an ISO date: "2026" or "2026-05"
    by: str = ""  # summed by "month" or "year"
    names: bool = False  # whether people are named where names are left out otherwise
    form: str = ""  # "text", "csv", ...; empty for the usual one
    component: str = ""  # the id of one component or part
    days: int = 0  # so many work days; 0 for as many as the report takes


class Fill(NamedTuple):
    """Room to fill in by hand: a box to tick, or a line to write on; `says` is printed beside."""

    kind: Literal["box", "line"]
    says: str = ""


Cell = str | Fill | tuple[str | Fill, ...]


class TableColumn(NamedTuple):
    """A column of a table: its head, and its share of the width in percent (0: what it needs)."""

    head: str
    width: int = 0
    right: bool = False  # figures stand to the right
    kept: bool = False  # dates and times: not wrapped


class RuledTable(NamedTuple):
    """Ruled rows. `high`: how high a row is at least, of text or to be written in with gloves."""

    columns: tuple[TableColumn, ...]
    rows: tuple[tuple[Cell, ...], ...]
    high: Literal["text", "line", "box"] = "text"
    total: bool = False  # the last row sums up the others


class PictureShown(NamedTuple):
    """A picture of the folder on a page, by its path, with the words below it."""

    file: str
    words: str


class Chapter(NamedTuple):
    """A heading, its points, its table and pictures; `parts` are further headings below it. `place`
    is by what an address leads to it."""

    heading: str
    points: tuple[Line, ...] = ()
    tone: Tone = "strong"
    parts: "tuple[Chapter, ...]" = ()
    table: RuledTable | None = None
    pictures: tuple[PictureShown, ...] = ()
    place: str = ""

    @property
    def empty(self) -> bool:
        """Whether nothing stands below its heading."""
        rows = self.table.rows if self.table else ()
        return not (self.points or self.parts or rows or self.pictures)


class Sheet(NamedTuple):
    """Something to read out, hang up or hand on. `caution` stands above it all; what there is more
    to say of it, `foot`, below all that is read on a screen, and above it on paper.

    `head` is what stands on top of every page, `signatures` whose names are signed at the end;
    `close` sets it as tightly as it takes to keep it on one page, `large` in letters no smaller
    than those of other sheets all the same. `ways` lead to the other pages of one work.
    `apart` begins each chapter on a page of its own. What `flows` is set in two columns, read down
    the one, then the other.
    """

    title: str
    caution: str
    chapters: tuple[Chapter, ...]
    head: tuple[str, ...] = ()
    signatures: tuple[str, ...] = ()
    close: bool = False
    large: bool = False
    ways: tuple[Pointer, ...] = ()
    apart: bool = False
    flows: bool = False
    foot: str = ""


class Card(NamedTuple):
    """A card to cut out: a word in large letters, what it is about, its facts with a name, and
    chapters to read."""

    word: str
    name: str
    facts: tuple[tuple[str, Cell], ...]
    tone: Tone = "strong"
    chapters: tuple[Chapter, ...] = ()


class Cards(NamedTuple):
    """Cards, several to a page; `large` ones two to a page. `empty` is said where there are
    none."""

    title: str
    cards: tuple[Card, ...]
    empty: str = ""
    head: tuple[str, ...] = ()
    large: bool = False


class Listing(NamedTuple):
    """Rows of texts, numbers and dates, the first of them the heads."""

    rows: Sequence[Sequence[object]]
    title: str = ""
    head: tuple[str, ...] = ()
    not_printed: frozenset[str] = frozenset()  # columns for a spreadsheet only: short names
    said_once: str = ""  # a column whose value is printed at the first of the rows that share it
    total: bool = False  # the last row sums up the others


def points(texts: Iterable[str], tone: Tone = "faint") -> tuple[Line, ...]:
    """A list, each with a dash."""
    return tuple(Line(text, tone, 0, "-") for text in texts)


def sheet_lines(sheet: Sheet) -> Iterator[Line]:
    """The whole sheet as lines; a text with line breaks, which could be taken for more of the
    sheet than it is, stands on one line."""
    yield title(legible(sheet.title))
    yield Line(sheet.caution, "faint")
    for chapter in sheet.chapters:
        yield GAP
        yield title(legible(chapter.heading), chapter.tone)
        yield from _set_in(chapter.points, 2)
        rows = chapter.table.rows if chapter.table else ()
        yield from _set_in(points(map(row_in_words, rows)), 2)
        for part in chapter.parts:
            yield Line(f"{part.heading}:", indent=2)
            yield from _set_in(part.points, 4)
            yield from _set_in(points(map(picture_in_words, part.pictures)), 4)
        yield from _set_in(points(map(picture_in_words, chapter.pictures)), 2)
    if sheet.foot:
        yield GAP
        yield Line(sheet.foot, "faint")


def picture_in_words(shown: PictureShown) -> str:
    """A picture as text: its path and its words."""
    return f"{shown.file}: {shown.words}" if shown.words else shown.file


def row_in_words(row: Iterable[Cell]) -> str:
    """A row of a table on one line."""
    return "  ".join(filter(None, map(cell_in_words, row)))


def cell_in_words(cell: Cell) -> str:
    """A cell as text: "[ ] finished at ______"."""
    if isinstance(cell, str):
        return cell
    if isinstance(cell, Fill):
        parts = ("[ ]", cell.says) if cell.kind == "box" else (cell.says, "______")
        return " ".join(filter(None, parts))
    return " ".join(map(cell_in_words, cell))


def _set_in(lines: Iterable[Line], indent: int) -> Iterator[Line]:
    return (line._replace(text=legible(line.text), indent=indent + line.indent) for line in lines)
