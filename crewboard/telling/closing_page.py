"""The page at the end of a day: hours, what began and finished, which clocks started, what next."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import datetime, time

from crewboard.order.board import Board
from crewboard.order.day_end import DayEnd, day_end
from crewboard.order.holds.words import quoted_hold, stage_in_words
from crewboard.order.said import day_in_words, how_many, listed, piece_name, quoted_title, titled
from crewboard.telling.line import GAP, Line, title
from crewboard.telling.must_follow import must_follow_lines

_NOTHING = "nothing"
_GAPS = 8  # shown at the end of a day


def closing_lines(board: Board, next_day: Board | None) -> Iterator[Line]:
    """What the board's day brought; `next_day` is the board at the opening of the next work day."""
    end = day_end(board, next_day)
    yield title(f"{day_in_words(board.at)}{', closed' if end.closed else ''}")
    yield from _hours(end)
    yield GAP
    if end.begun or not end.finished:
        yield _tasks(board, "begun:", end.begun)
    yield _tasks(board, "finished:", end.finished)
    if end.stopped:
        yield _tasks(board, "stopped for today:", end.stopped)
    if end.under_way:
        yield _tasks(board, "not finished yet:", end.under_way)
    for number, hold_id in enumerate(end.clocks):
        hold = board.holds[hold_id]
        what = f"{quoted_hold(board.plan, hold)} {stage_in_words(board.plan, hold, board.at)}"
        yield Line(what, "caution", 0, "and:" if number else "clock started:")
    for number, sentence in enumerate(must_follow_lines(board)):  # before the next day, or too late
        yield Line(sentence, "must", 0, "and:" if number else "must follow:")
    if end.longer:
        titles = titled(board.plan, end.longer)
        yield Line(f"{titles}: how many hours are left?", "warning", 0, "longer than thought:")
    yield from _record(board)
    yield GAP
    yield from _next(next_day, end)


def _record(board: Board) -> Iterator[Line]:
    """What the day's work left open on the record, and what waits to be sorted."""
    day = board.logbook.days.get(board.at.date())
    if day is None or not any(entry.at <= board.at for entry in day.record):
        return
    from crewboard.fabric.fabric import fabric_of  # few days say anything of a piece
    from crewboard.fabric.gaps import new_gaps
    from crewboard.telling.gaps import gap_in_words

    now = board.fabric
    before = fabric_of(board.plan, board.logbook, datetime.combine(board.at, time.min))
    new = [gap for of_it in new_gaps(before, now).values() for gap in of_it]
    new.sort(key=lambda gap: gap.code != "where")  # tomorrow nobody knows any more where it lies
    told = [
        Line(gap_in_words(now, gap), "warning", 0, f"{piece_name(board.plan, gap.piece)}:")
        for gap in new
    ]
    if told:
        yield GAP
        yield title(f"Missing on record after today ({len(told)})")
        yield from told[:_GAPS]
    if len(told) > _GAPS:
        yield Line(f"and {len(told) - _GAPS} more: crewboard gaps lists them", "faint")


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
        looks = listed(quoted_hold(board.plan, board.holds[hold]) for hold in end.due)
        yield Line(looks, "must", 0, "due for a look by then:")
    for number, task in enumerate(end.first, 1):
        yield Line(quoted_title(board.plan, task), "strong", 2, f"{number}")
    if not end.first:
        yield Line("nothing can be done yet", "faint", 2)
