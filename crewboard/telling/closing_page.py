"""The page at the end of a day: hours, what began and finished, which clocks started, what next."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from crewboard.order.board import Board
from crewboard.order.day_end import DayEnd, day_end
from crewboard.order.holds.words import hold_title, stage_in_words
from crewboard.order.said import day_in_words, how_many, listed, quoted_title, titled
from crewboard.telling.line import GAP, Line, title
from crewboard.telling.must_follow import must_follow_lines

_NOTHING = "nothing"


def closing_lines(board: Board, next_day: Board | None) -> Iterator[Line]:
    """What the board's day brought; `next_day` is the board at the opening of the next work day."""
    end = day_end(board, next_day)
    yield title(f"{day_in_words(board.at)}{', closed' if end.closed else ''}")
    yield from _hours(end)
    yield GAP
    yield _tasks(board, "begun:", end.begun)
    yield _tasks(board, "finished:", end.finished)
    if end.stopped:
        yield _tasks(board, "stopped for today:", end.stopped)
    if end.under_way:
        yield _tasks(board, "under way:", end.under_way)
    for number, hold_id in enumerate(end.clocks):
        hold = board.holds[hold_id]
        what = f'"{hold_title(board.plan, hold)}" {stage_in_words(board.plan, hold, board.at)}'
        yield Line(what, "caution", 0, "and:" if number else "clock started:")
    for number, sentence in enumerate(must_follow_lines(board)):  # before the next day, or too late
        yield Line(sentence, "must", 0, "and:" if number else "must follow:")
    if end.longer:
        titles = titled(board.plan, end.longer)
        yield Line(f"{titles}: how many hours are left?", "warning", 0, "longer than thought:")
    yield GAP
    yield from _next(next_day, end)


def _hours(end: DayEnd) -> Iterator[Line]:
    if not end.hours:
        yield Line("nobody has hours on this day: h writes them", "warning", 0, "hours:")
        return
    each = "; ".join(f"{who} {hours:.10g} h" for who, hours in end.hours.items())
    in_all = f"{how_many(len(end.hours), 'person')}, {sum(end.hours.values()):.10g} h in all"
    yield Line(f"{each}: {in_all}", "strong", 0, "hours:")
    if end.without_hours:
        yield Line(listed(end.without_hours), "warning", 0, "no hours yet:")


def _tasks(board: Board, word: str, tasks: Iterable[str]) -> Line:
    titles = titled(board.plan, tasks)
    return Line(titles or _NOTHING, "strong" if titles else "faint", 0, word)


def _next(board: Board | None, end: DayEnd) -> Iterator[Line]:
    if board is None:
        yield Line("no further work day is planned", "faint", 0, "next:")
        return
    yield title(f"Next: {day_in_words(board.at)}")
    if end.due:
        looks = listed(f'"{hold_title(board.plan, board.holds[hold])}"' for hold in end.due)
        yield Line(looks, "must", 0, "due for a look by then:")
    for number, task in enumerate(end.first, 1):
        yield Line(quoted_title(board.plan, task), "strong", 2, f"{number}")
    if not end.first:
        yield Line("nothing can be done yet", "faint", 2)
