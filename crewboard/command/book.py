"""`crewboard book`: the record as pages, one for the vehicle and one for each component."""

from __future__ import annotations

import os
from functools import partial
from typing import Any

from crewboard.command import naming
from crewboard.command.exits import Exit, Refused
from crewboard.command.opened import AT, DIR, JSON, moment, open_bench
from crewboard.command.typed import Call, Command, Option
from crewboard.folder.disk.own_page import put_page
from crewboard.folder.intake.to_show import way_to, why_not_shown
from crewboard.order.board import Board
from crewboard.order.said import how_many
from crewboard.paper.page import PAPER, sheet_page
from crewboard.paper.pictures import Album
from crewboard.paper.plain_sheet import sheet_text
from crewboard.paper.reports import page_head
from crewboard.telling.book.pages import book_pages
from crewboard.telling.book.report import as_sheet, book_of
from crewboard.telling.book.statement import Book, Section


def _book(call: Call) -> Exit:
    bench = open_bench(call)
    board = bench.board(moment(call, bench.plan))
    component = naming.component(bench.plan, call.option("of")) if call.given("of") else ""
    if call.given("to"):
        return _into(call, board, call.option("to"), component)
    book = book_of(board, component)
    if call.given("json"):
        call.out.json(book_form(book))
    else:
        call.out.lines(sheet_text(as_sheet(book), call.out.width))
    return Exit.FINE


def book_form(book: Book) -> dict[str, Any]:
    """Every sentence with the entries or the line of the plan behind it."""
    return {"title": book.title, "sections": [_section_form(part) for part in book.sections]}


def _section_form(section: Section) -> dict[str, Any]:
    return {
        "heading": section.heading,
        "statements": [statement._asdict() for statement in section.statements],
        "pictures": [shown._asdict() for shown in section.pictures],
        "parts": [_section_form(part) for part in section.parts],
    }


def _into(call: Call, board: Board, folder: str, component: str) -> Exit:
    """A page for the vehicle and one for each main component, which lead to one another, or one
    page alone; only pages of ours are replaced."""
    target = os.path.expanduser(folder)
    album = album_beside(call.word("DIR") or ".", target)
    if component:
        name = f"{component.replace('/', '-')}.html"
        pages = [(name, as_sheet(book_of(board, component)))]
    else:
        pages = list(book_pages(board))
    try:
        os.makedirs(target, exist_ok=True)
        for name, sheet in pages:
            page = sheet_page(sheet._replace(head=page_head(board)), album)
            put_page(os.path.join(target, name), page, PAPER)
    except FileExistsError as error:
        raise Refused(f'"{error.filename}" is no page of ours', "name another folder") from None
    except OSError as error:
        why = error.strerror or str(error)
        raise Refused(f"{error.filename or target}: {why}", "name another folder") from None
    call.out.talk(f"{how_many(len(pages), 'page')} written into {os.path.abspath(target)}")
    return Exit.FINE


def album_beside(root: str, page_folder: str) -> Album:
    """The pictures of the vehicle's folder, for pages that lie in another."""
    return Album(way_to(root, page_folder), partial(why_not_shown, root))


book = Command(
    _book,
    "Prints the record as a book: what the vehicle and its pieces were found as, what was seen and "
    "thought, what was done, where everything is, how much is original, and what is missing. "
    "Behind each sentence stand the day and who wrote it, or the file of the plan. With --to a "
    "page is made for the vehicle and one for each component.",
    (DIR,),
    (
        Option("of", "only the page of this component", "COMPONENT"),
        Option("to", "pages to print, into this folder", "FOLDER"),
        AT,
        JSON,
    ),
    ("crewboard book sample_project --of roof", "crewboard book sample_project --to book"),
)
