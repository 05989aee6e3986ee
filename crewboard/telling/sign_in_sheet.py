"""The sign-in sheet: everybody who is expected, with room for when they came and left."""

from crewboard.order.board import Board
from crewboard.order.presence import of_the_day
from crewboard.order.said import day_in_words, person
from crewboard.telling.report import Chapter, Request, RuledTable, Sheet, TableColumn

_EMPTY = 6  # lines for guests, and for who was not expected


def report(request: Request) -> Sheet:
    """Who is here or expected on the board's day, then the others of the crew by name."""
    board = request.board
    expected = {who: person(board.plan, who) for who in of_the_day(board)}
    others = _others(board, expected)
    title = f"Sign-in sheet, {day_in_words(board.at)}: {board.plan.vehicle.name}"
    chapters = (
        Chapter("Expected", table=_table([*expected.values(), *[""] * _EMPTY])),
        Chapter("The others of the crew", table=_table(others)),
    )
    return Sheet(title, "", tuple(chapter for chapter in chapters if not chapter.empty))


def _others(board: Board, expected: dict[str, str]) -> list[str]:
    today = board.at.date()
    crew = (one for one in board.plan.crew.values() if one.with_us_on(today))
    return sorted(one.name for one in crew if one.id not in expected)


def _table(names: list[str]) -> RuledTable:
    columns = (
        TableColumn("who", 34),
        TableColumn("came", 11),
        TableColumn("left", 11),
        TableColumn("worked on, hours", 44),
    )
    return RuledTable(columns, tuple((name, "", "", "") for name in names), "line")
