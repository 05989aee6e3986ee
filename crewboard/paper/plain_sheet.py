"""A sheet and cards as plain text at a width: their tables in columns, boxes drawn as [ ]."""

from __future__ import annotations

from crewboard.legible import legible
from crewboard.paper.plain import Paper
from crewboard.paper.spreadsheet import text_table
from crewboard.telling.drawn import cells
from crewboard.telling.line import GAP, Line, title
from crewboard.telling.report import (
    Cards,
    Chapter,
    RuledTable,
    Sheet,
    cell_in_words,
    picture_in_words,
)


def sheet_text(sheet: Sheet, width: int) -> list[str]:
    """The whole sheet."""
    paper = Paper(width)
    paper.told(title(legible(sheet.title)))
    if sheet.caution:
        paper.told(Line(sheet.caution))
    for chapter in sheet.chapters:
        paper.told(GAP)
        _put_down(paper, chapter)
    if sheet.signatures:
        paper.told(GAP)
        for who in sheet.signatures:
            paper.line(f"{who}: ____________________")
    if sheet.foot:
        paper.told(GAP)
        paper.told(Line(sheet.foot))
    return paper.lines


def _put_down(paper: Paper, chapter: Chapter) -> None:
    if chapter.heading:
        paper.line(chapter.heading)
    for line in chapter.points:
        paper.told(line._replace(text=legible(line.text), indent=2 + line.indent))
    if chapter.table is not None:
        paper.lines += (f"  {line}".rstrip() for line in _columns(chapter.table, paper.width - 2))
    for part in chapter.parts:
        paper.line(f"{part.heading}:", indent=2)
        for line in part.points:
            paper.told(line._replace(text=legible(line.text), indent=4))
        _pictures(paper, part, 4)
    _pictures(paper, chapter, 2)


def _pictures(paper: Paper, chapter: Chapter, indent: int) -> None:
    for shown in chapter.pictures:
        paper.line(picture_in_words(shown), indent=indent, hang=2)


def _columns(table: RuledTable, width: int) -> list[str]:
    """In columns, or, where they are too wide, row by row with each head before what it heads."""
    rows = [[legible(cell_in_words(cell)) for cell in row] for row in table.rows]
    heads = [column.head for column in table.columns]
    shown = [heads, *rows] if any(heads) else rows
    wide = [max(cells(row[place]) for row in shown) for place in range(len(heads))] if rows else []
    if sum(wide) + 2 * len(wide) <= width:
        return text_table(shown, width)
    paper = Paper(width)
    if heads[0].isupper():  # it heads the whole table, and not only its first column
        paper.line(heads[0])
    for first, *rest in rows:
        told = (
            f"{head} {cell}".lstrip() for head, cell in zip(heads[1:], rest, strict=True) if cell
        )
        paper.line("; ".join([first, *told]), hang=4)
    return paper.lines


def cards_text(cards: Cards, width: int) -> list[str]:
    """The cards one below the other."""
    paper = Paper(width)
    paper.line(cards.title)
    if not cards.cards:
        paper.line(cards.empty)
    for card in cards.cards:
        paper.line()
        paper.line(": ".join(filter(None, (card.word, card.name))))
        for word, fact in card.facts:
            paper.line(f"{word}: {cell_in_words(fact)}", indent=2, hang=2)
        for chapter in card.chapters:
            _put_down(paper, chapter)
    return paper.lines
