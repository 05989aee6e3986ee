"""The check sheet: every check to open the shop, of the day's first work, and to close, to sign."""

from collections.abc import Iterable

from crewboard.order.ahead.first import what_goes_first
from crewboard.order.board import Board
from crewboard.order.safety.checks import Asked, checks_of, checks_of_the_day
from crewboard.order.said import day_in_words
from crewboard.plan.hazard import When
from crewboard.telling.morning_parts import check_row
from crewboard.telling.morning_sheet import check_cells, check_columns
from crewboard.telling.report import Chapter, Request, RuledTable, Sheet
from crewboard.telling.safety import AUTHORISES_NOTHING

_JOBS = 8  # of the work that goes first: so many have their checks here
_TIMES: dict[When, int] = {"before": 1, "during": 2, "after": 1}  # rows to sign each in


def report(request: Request) -> Sheet:
    """What is still to sign on the board's day."""
    board = request.board
    chapters = [_chapter(board, "To open the shop", checks_of_the_day(board, "before"))]
    dangerous = [job.task for job in what_goes_first(board) if board.plan.tasks[job.task].hazards]
    for task in dangerous[:_JOBS]:
        title = board.plan.tasks[task].title
        chapters += [
            _chapter(board, f"{title}: {when} the work", checks_of(board, task, when=when))
            for when in _TIMES
        ]
    chapters.append(_chapter(board, "To close the shop", checks_of_the_day(board, "after")))
    title = f"Check sheet, {day_in_words(board.at)}: {board.plan.vehicle.name}"
    filled = tuple(chapter for chapter in chapters if not chapter.empty)
    left_out = len(dangerous) - _JOBS
    more = f"+{left_out} more tasks with hazards can be done: their checks are on their own sheets."
    if left_out > 0:
        filled = (*filled, Chapter(more))
    return Sheet(title, AUTHORISES_NOTHING, filled)


def _chapter(board: Board, heading: str, asked: Iterable[Asked]) -> Chapter:
    rows = tuple(
        check_cells(check_row(board, one)._replace(part="checks"))
        for one in asked
        if one.open or one.check.when == "during"
        for _ in range(_TIMES[one.check.when])
    )
    return Chapter(heading, table=RuledTable(check_columns("check"), rows, "line"))
