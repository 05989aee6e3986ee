"""What a report is asked for and what it gives: a sheet to read, or a table of cells."""

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from crewboard.legible import legible
from crewboard.order.board import Board
from crewboard.telling.line import GAP, Line, Tone, title


class Request(NamedTuple):
    """What was asked of a report: of the board's moment, and narrowed down as far as given."""

    board: Board
    who: str = ""  # the id of one person
    period: str = ""  # the beginning of an ISO date: "2026" or "2026-05"
    by: str = ""  # summed by "month" or "year"
    names: bool = False  # whether people are named where names are left out otherwise
    form: str = ""  # "text", "csv", ...; empty for the usual one


class Chapter(NamedTuple):
    """A heading and its points; `parts` are further headings below it."""

    heading: str
    points: tuple[Line, ...] = ()
    tone: Tone = "strong"
    parts: "tuple[Chapter, ...]" = ()


class Sheet(NamedTuple):
    """Something to read out, hang up or hand on. `caution` stands above it all."""

    title: str
    caution: str
    chapters: tuple[Chapter, ...]


class Listing(NamedTuple):
    """Rows of texts, numbers and dates, the first of them the heads."""

    rows: Sequence[Sequence[object]]


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
        for part in chapter.parts:
            yield Line(f"{part.heading}:", indent=2)
            yield from _set_in(part.points, 4)


def _set_in(lines: Iterable[Line], indent: int) -> Iterator[Line]:
    return (line._replace(text=legible(line.text), indent=indent) for line in lines)
