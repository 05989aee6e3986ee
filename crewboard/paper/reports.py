"""The reports: each has a line here, and a module of its own with `report(request)`.

What the report gives decides in which forms it can be had: a sheet and cards to read as text or as
pages to print, a table also for a spreadsheet, a calendar as a calendar file.
"""

from collections.abc import Callable, Mapping
from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.order.said import day_in_words
from crewboard.paper.calendar import Calendar, calendar_file
from crewboard.paper.page import cards_page, listing_page, sheet_page
from crewboard.paper.pictures import Album
from crewboard.paper.plain_sheet import cards_text, sheet_text
from crewboard.paper.spreadsheet import csv_text, json_rows, text_table
from crewboard.telling.report import Cards, Listing, Request, Sheet
from crewboard.telling.unreadable import with_unreadable


class ReportListed(NamedTuple):
    """Where a report is made and what it is."""

    module: str
    says: str


REPORTS: dict[str, ReportListed] = {
    "day": ReportListed("crewboard.telling.day_sheet", "what one work day brought"),
    "hours": ReportListed("crewboard.paper.hours", "who worked how long, every entry or summed"),
    "hours-by-year": ReportListed(
        "crewboard.paper.hours_by_year",
        "sums by year: people, components, pieces, other work",
    ),
    "calendar": ReportListed("crewboard.paper.calendar", "work days, ends of holds, deliveries"),
    "morning": ReportListed("crewboard.telling.morning_sheet", "one page to fill in by hand"),
    "programme": ReportListed("crewboard.telling.programme", "the next work days, for the wall"),
    "sign-in": ReportListed("crewboard.telling.sign_in_sheet", "names, to write when they came"),
    "checks": ReportListed("crewboard.telling.check_sheet", "the day's safety checks to sign"),
    "talk": ReportListed("crewboard.telling.talk_sheet", "the day's safety talk on one page"),
    "cards": ReportListed("crewboard.telling.bench_card", "bench cards of the work to come"),
    "tags": ReportListed("crewboard.telling.tags", "tags for what must be left alone"),
    "piece-tags": ReportListed("crewboard.telling.piece_tags", "tags for pieces taken off"),
    "shelf-list": ReportListed("crewboard.telling.shelf_list", "which pieces lie where"),
    "book": ReportListed(
        "crewboard.telling.book.report", "the record: found, done, where, what is original"
    ),
    "incidents": ReportListed("crewboard.telling.incidents", "near misses and injuries, no names"),
}

Product = Sheet | Listing | Cards | Calendar


def made(name: str, request: Request) -> Product:
    """The report of that name. Raises KeyError where there is none."""
    module = __import__(REPORTS[name].module, fromlist=["report"])
    product = module.report(request)
    assert isinstance(product, Sheet | Listing | Cards | Calendar)
    if isinstance(product, Calendar):
        return product
    product = product._replace(head=product.head or page_head(request.board))
    return with_unreadable(product, request.board) if isinstance(product, Sheet) else product


def page_head(board: Board) -> tuple[str, ...]:
    """What stands on top of every page: the vehicle and the day."""
    return board.plan.vehicle.name, day_in_words(board.at)


def forms_of(product: Product, album: Album | None = None) -> Mapping[str, Callable[[int], str]]:
    """The forms of what a report gave, the usual one first; each makes a text of a width. Pages
    show the pictures of the `album`."""
    if isinstance(product, Sheet):
        return {
            "text": lambda width: _text(sheet_text(product, width)),
            "html": lambda _: sheet_page(product, album),
        }
    if isinstance(product, Cards):
        return {
            "text": lambda width: _text(cards_text(product, width)),
            "html": lambda _: cards_page(product),
        }
    if isinstance(product, Listing):
        return {
            "text": lambda width: _text(text_table(product.rows, width)),
            "csv": lambda _: csv_text(product.rows),
            "html": lambda _: listing_page(product),
            "json": lambda _: json_rows(product.rows),
        }
    return {"ics": lambda _: calendar_file(product)}


def _text(lines: list[str]) -> str:
    return "".join(line + "\n" for line in lines)
