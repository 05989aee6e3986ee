"""A page to print: one HTML text without scripts, links or anything fetched from elsewhere."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date
from html import escape

from crewboard.legible import legible
from crewboard.paper.leading import leading
from crewboard.paper.pictures import Album, figure
from crewboard.paper.spreadsheet import as_text
from crewboard.telling.line import Line
from crewboard.telling.report import (
    Card,
    Cards,
    Cell,
    Chapter,
    Fill,
    Listing,
    RuledTable,
    Sheet,
    TableColumn,
)

PAPER = "crewboard paper"
"""By this mark in its head a file is known to be a page of ours, which may be made anew."""

_BOXED = ("danger", "warning", "must")  # the tones that are framed on paper


_MANY, _SHORT = 8, 50  # so many points of so many characters stand in two columns
_TWO = ' class="two"'

_LONG_WORD = re.compile(r"\S{40}")  # longer than a column is wide: it may be broken there


def escaped(text: str) -> str:
    """Any text as it was typed: nothing in it is markup, and nothing steers the reader's screen."""
    words = _LONG_WORD.sub(r"\g<0>\0", legible(text))  # no text holds a nought any more
    return escape(words).replace("\0", "<wbr>")


def whole_page(
    title: str, mark: str, style: str, body: str, more: str = "", script: str = ""
) -> str:
    """A page from its body: whose it is, that nothing is fetched, and its look. `script` is the
    SHA-256 in base64 of the one script that may run in it, where there is one."""
    # Only a page that shows pictures may load any, and only those that lie beside it.
    seen = "; img-src 'self' file:" if "<img " in body else ""
    runs = f"; script-src 'sha256-{script}'" if script else ""
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta name="generator" content="{mark}">\n'
        '<meta http-equiv="Content-Security-Policy" '
        f"content=\"default-src 'none'; style-src 'unsafe-inline'{seen}{runs}\">\n"
        f"{more}<title>{escaped(title)}</title>\n<style>{style}</style>\n</head>\n"
        f"{body}</html>\n"
    )


def sheet_page(sheet: Sheet, album: Album | None = None) -> str:
    """The sheet as pages to print, every text escaped; its pictures are shown from the `album`,
    without one only named."""
    inside = f"<h1>{escaped(sheet.title)}</h1>\n"
    if caution := f"{sheet.caution} {sheet.foot}".strip():
        inside += f'<p class="caution">{escaped(caution)}</p>\n'
    if sheet.ways:
        ways = " ".join(leading(way.name, (way,), escaped) for way in sheet.ways)
        inside += f'<p class="ways">{ways}</p>\n'
    inside += "".join(_chapter(chapter, 2, album) for chapter in sheet.chapters)
    if sheet.signatures:
        names = "".join(f"<div>{escaped(who)}</div>" for who in sheet.signatures)
        inside += f'<div class="signed">{names}</div>\n'
    kind = f"close{' large' if sheet.large else ''}" if sheet.close else ""
    kind = "flows" if sheet.flows else "apart" if sheet.apart else kind
    return _printed(sheet.title, sheet.head, inside, kind)


def listing_page(listing: Listing) -> str:
    """The rows as a ruled table, figures to the right."""
    heads, *rows = [list(row) for row in listing.rows] or [[]]
    places = [at for at, head in enumerate(heads) if head not in listing.not_printed]
    columns = tuple(_column(heads[at], [row[at] for row in rows]) for at in places)
    if listing.said_once in heads:
        _say_once(rows, heads.index(listing.said_once))
    shown = tuple(tuple(as_text(row[at]) for at in places) for row in rows)
    title = listing.title or "Report"
    table = RuledTable(columns, shown, total=listing.total)
    inside = f"<h1>{escaped(title)}</h1>\n{_ruled(table)}"
    return _printed(title, listing.head, inside)


def _say_once(rows: list[list[object]], at: int) -> None:
    """Leave out a value that stands in the row above too."""
    for row, above in reversed(list(zip(rows[1:], rows, strict=False))):
        if row[at] == above[at]:
            row[at] = ""


def _column(head: object, values: list[object]) -> TableColumn:
    figures = any(isinstance(value, int | float) for value in values)
    return TableColumn(str(head), right=figures, kept=any(isinstance(v, date) for v in values))


def cards_page(cards: Cards) -> str:
    """The cards two beside one another, large ones below one another, with lines to cut along."""
    inside = "" if cards.large and cards.cards else f"<h1>{escaped(cards.title)}</h1>\n"
    if cards.cards:
        kind = "cards large" if cards.large else "cards"
        inside += f'<div class="{kind}">\n{"".join(map(_card, cards.cards))}</div>\n'
    else:
        inside += f"<p>{escaped(cards.empty)}</p>\n"
    return _printed(cards.title, cards.head, inside)


def _printed(title: str, head: Iterable[str], inside: str, kind: str = "") -> str:
    """Pages with `head` on top of each: a table's head stands again on every page."""
    from crewboard.paper.style import PRINT

    words = "".join(f"<span>{escaped(word)}</span>" for word in head)
    top = f'<thead><tr><th><div class="head">{words}</div></th></tr></thead>\n' if words else ""
    body = (
        f'<body class="{kind}">\n<table class="page">{top}<tbody><tr><td>\n'
        f"{inside}</td></tr></tbody></table>\n</body>\n"
    )
    return whole_page(title, PAPER, PRINT, body)


def _chapter(chapter: Chapter, level: int, album: Album | None) -> str:
    kind = f' class="{chapter.tone}"' if chapter.tone in _BOXED and level == 2 else ""
    items = "".join(f"<li{_kind_of_point(line)}>{_words(line)}</li>" for line in chapter.points)
    lengths = [len(line.text) for line in chapter.points]
    side_by_side = len(lengths) >= _MANY and sum(lengths) <= _SHORT * len(lengths)
    inside = f"<ul{_TWO if side_by_side else ''}>{items}</ul>\n" if items else ""
    inside += _ruled(chapter.table) if chapter.table else ""
    shown = "".join(figure(picture, album, escaped) for picture in chapter.pictures)
    inside += f'<div class="pictures">{shown}</div>\n' if shown else ""
    inside += "".join(_chapter(part, level + 1, album) for part in chapter.parts)
    heading = f"<h{level}>{escaped(chapter.heading)}</h{level}>\n" if chapter.heading else ""
    place = f' id="{escape(chapter.place)}"' if chapter.place else ""
    return f"<section{kind}{place}>{heading}{inside}</section>\n"


def _kind_of_point(line: Line) -> str:
    """A point with a number has no dot before it; what is set in belongs to the one above."""
    if line.word.rstrip(".").isdecimal():
        return ' class="n"'
    return ' class="in"' if line.indent else ""


def _words(line: Line) -> str:
    """A point; the word before it in bold."""
    text = leading(line.text, line.ways, escaped)
    if line.word in ("", "-"):
        return text
    return f"<b>{leading(line.word, line.ways, escaped)}</b> {text}"


def _ruled(table: RuledTable) -> str:
    heads = "".join(f"<th{_kind(column)}>{escaped(column.head)}</th>" for column in table.columns)
    top = f"<thead><tr>{heads}</tr></thead>\n" if any(c.head for c in table.columns) else ""
    rows = "".join(f"<tr>{_cells(table, row)}</tr>\n" for row in table.rows)
    widths = "".join(f'<col class="w{column.width}">' for column in table.columns)
    widths = f"<colgroup>{widths}</colgroup>" if any(c.width for c in table.columns) else ""
    return f'<table class="{_look(table)}">{widths}{top}<tbody>\n{rows}</tbody></table>\n'


def _look(table: RuledTable) -> str:
    return f"ruled {table.high}{' total' if table.total else ''}"


def _cells(table: RuledTable, row: Iterable[Cell]) -> str:
    cells = zip(table.columns, row, strict=True)
    return "".join(f"<td{_kind(column)}>{_cell(cell)}</td>" for column, cell in cells)


def _kind(column: TableColumn) -> str:
    kinds = " ".join(["right"] * column.right + ["kept"] * column.kept)
    return f' class="{kinds}"' if kinds else ""


def _cell(cell: Cell) -> str:
    if isinstance(cell, str):
        return escaped(cell)
    if not isinstance(cell, Fill):
        return " ".join(map(_cell, cell))
    says = f'<span class="says">{escaped(cell.says)}</span>' if cell.says else ""
    if cell.kind == "box":
        return f'<span class="fill"><span class="tick"></span>{says}</span>'
    return f'<span class="fill">{says} <span class="blank">&nbsp;</span></span>'


def _card(card: Card) -> str:
    facts = "".join(
        f"<tr><th>{escaped(word)}</th><td>{_cell(fact)}</td></tr>\n" for word, fact in card.facts
    )
    name = f'<div class="name">{escaped(card.name)}</div>\n' if card.name else ""
    table = f"<table>{facts}</table>" if facts else ""
    read = "".join(_chapter(chapter, 2, None) for chapter in card.chapters)
    table += f'<div class="read">{read}</div>' if read else ""
    word = f'<div class="word">{escaped(card.word)}</div>\n'
    return f'<div class="card {card.tone}">{word}{name}{table}</div>\n'
