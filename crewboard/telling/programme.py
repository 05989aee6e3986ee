"""The programme of the next work days, as a lead would read it out, day by day."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime, time
from itertools import groupby
from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.order.programme.around import Around, AskToCome, around
from crewboard.order.programme.no_day import NoDay, finds_no_day
from crewboard.order.programme.programme import USUAL_DAYS, DayOfWork, Made, make
from crewboard.order.said import day_in_words, how_many, titled
from crewboard.plan.hazard import CAUTION
from crewboard.plan.task import Task
from crewboard.telling.line import Line
from crewboard.telling.programme_day import HAZARDS, day_chapter, nothing
from crewboard.telling.report import Chapter, Request, Sheet

DECIDES_NOTHING = "It decides nothing: the lead does."
SUPPOSES = "What could be done if all came who are expected and the work took as long as is likely."


class _DaysRead(NamedTuple):
    """A chapter, and of how many work days it tells."""

    chapter: Chapter
    days: int


def programme_sheet(board: Board, days: int = USUAL_DAYS) -> Sheet:
    """The next work days; each is a chapter, but those on which there is nothing are one."""
    told, at_the_end = _told(board, make(board, days))
    return _sheet(told, at_the_end)


def report(request: Request) -> Sheet:
    """For the wall: as many days as were asked for, else as many as stand on one page."""
    board = request.board
    told, at_the_end = _told(board, make(board, request.days or USUAL_DAYS))
    whole = _sheet(told, at_the_end)
    if request.days:
        return whole
    room = _PAGE - _LINE * len(whole.caution + whole.foot) / _WIDE_LETTERS
    room -= sum(map(_room, at_the_end))
    kept: list[_DaysRead] = []
    for one in told:
        room -= _room(one.chapter)
        if room < 0 and kept:
            break
        kept.append(one)
    return _sheet(kept, at_the_end)._replace(foot=whole.foot)


def _sheet(told: Sequence[_DaysRead], at_the_end: Sequence[Chapter]) -> Sheet:
    days = sum(one.days for one in told)
    title = "The next work days" if not days else _title(days)
    chapters = (*(one.chapter for one in told), *at_the_end)
    dangerous = any(line.word == HAZARDS for chapter in chapters for line in chapter.points)
    foot = f"{SUPPOSES} {CAUTION}" if dangerous else SUPPOSES
    return Sheet(title, DECIDES_NOTHING, chapters, flows=True, foot=foot)


def _told(board: Board, made: Made) -> tuple[list[_DaysRead], list[Chapter]]:
    """Of each day what is to be read, and what stands at the end."""
    told: list[_DaysRead] = []
    asked = set[AskToCome]()
    beside: list[tuple[DayOfWork, Around]] = []
    for day, its in zip(made.programme.days, around(board, made), strict=True):
        beside.append((day, its._replace(ask=_not_yet_asked(its.ask, asked))))
    for why, some in groupby(beside, key=lambda one: _why_nothing(board, made, *one)):
        days = list(some)
        if why and len(days) > 1:
            told.append(_on_none(why, [day for day, _ in days]))
            continue
        for one in days:
            told.append(_DaysRead(day_chapter(board, *one, first=not told), 1))
    if not told:
        told = [
            _DaysRead(Chapter("No work day is planned", (Line("Name some in vehicle.toml."),)), 0)
        ]
    return told, list(_no_day(board, made))


def _why_nothing(board: Board, made: Made, day: DayOfWork, beside: Around) -> str:
    """Why nothing at all is to be told of a day; empty where something is."""
    if day.turns or day.small or day.otherwise or any(beside):
        return ""
    midnight = made.frame.ahead.minute(datetime.combine(day.date, time.min))
    over = {made.frame.jobs[job].task.id: at for job, at in made.course.finished.items()}
    left = any(
        not s.work_done and s.state != "set aside" and over.get(task, midnight) >= midnight
        for task, s in board.standings.items()
    )
    return nothing(day) if left or not day.people else "No work is left."


def _on_none(why: str, days: Sequence[DayOfWork]) -> _DaysRead:
    """Days in a row on which there is nothing, for the same reason."""
    since, until = day_in_words(days[0].date), day_in_words(days[-1].date)
    heading = f"{since} to {until}, {how_many(len(days), 'work day')}"
    return _DaysRead(Chapter(heading, (Line(why, "caution"),)), len(days))


def _room(chapter: Chapter) -> float:
    return _HEADING + sum(map(_height, chapter.points))


# What the two columns of the lower of the two papers hold, and what a line, and the heading of a
# day, take of it: mm. Measured on the printed page.
_PAGE, _LINE, _HEADING = 512, 3.25, 8
_LETTERS, _WIDE_LETTERS = 64, 70  # letters on a line of a column; of the caution, by its height


def _height(line: Line) -> float:
    return _LINE * -(-(len(line.text) + len(line.word) + 1 + line.indent) // _LETTERS) + 0.5


def _title(days: int) -> str:
    return "The next work day" if days == 1 else f"The next {days} work days"


def _not_yet_asked(some: Iterable[AskToCome], asked: set[AskToCome]) -> tuple[AskToCome, ...]:
    """Those that were not said of a day before."""
    new = tuple(ask for ask in some if ask not in asked)
    asked.update(new)
    return new


# --- what finds no day ---------------------------------------------------------------------------


def _no_day(board: Board, made: Made) -> Iterator[Chapter]:
    """What must not be left half done and fits none of the days, by the reason."""
    by_reason: dict[str, list[str]] = {}
    for one in finds_no_day(made):
        by_reason.setdefault(_why_no_day(board.plan.tasks[one.task], one), []).append(one.task)
    lines = [
        Line(f"{titled(board.plan, some)}: {why}", "caution") for why, some in by_reason.items()
    ]
    if lines:
        yield Chapter("Finds no day", tuple(lines))


def _why_no_day(task: Task, one: NoDay) -> str:
    go = "has to be done in one go" if task.in_one_go else "must not be left half done"
    if one.why == "clock":
        return f"it {go}, and has to end {one.minutes} minutes before closing"
    ends = f" and has to end {one.minutes} minutes before closing" if one.minutes else ""
    if one.why == "long":
        return f"it {go}{ends}, and no day is long enough for those who may do it"
    return f"it {go}{ends}, and beside other work no day has room for all of it"
