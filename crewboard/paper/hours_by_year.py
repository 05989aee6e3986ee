"""Sums of hours by year: per person, guest, component, piece and kind of other work."""

from __future__ import annotations

from crewboard.order.hours.sums import sums
from crewboard.telling.report import Listing, Request


def report(request: Request) -> Listing:
    """A row for each sum, a column for each year in which anybody worked."""
    board = request.board
    every = sums(board.plan, board.logbook, board.at)
    years = sorted({year for one in every for year in one.years})
    head: list[object] = ["by", "id", "name", *map(str, years), "in all"]
    rows = [
        [one.by, one.id, one.name, *(one.years.get(year, 0.0) for year in years), one.in_all]
        for one in every
    ]
    hidden = frozenset({"id"})
    return Listing([head, *rows], "Hours by year", not_printed=hidden, said_once="by", total=True)
