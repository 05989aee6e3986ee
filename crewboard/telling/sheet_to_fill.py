"""The rows of a morning sheet to be typed in once it is filled: in the order of the printed page,
each part whole, with room for what was written beside it.
"""

from collections.abc import Iterable, Iterator
from datetime import date, datetime, time
from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.order.safety.checks import Asked, checks_of
from crewboard.order.said import quoted_title
from crewboard.plan.hazard import When
from crewboard.telling import morning_parts as parts
from crewboard.telling.filled_sheet import AFTER, DURING, JobOfSheet
from crewboard.telling.morning_parts import Blank, MorningRow

_JOBS = 5  # numbered on the printed page
_MORE_NAMES, _MORE_JOBS, _MORE_NOTES = 6, 4, 2  # lines left free

_TASK, _NAME = Blank("task", "name", "another job"), Blank("name", "name", "name")
_VISIT = (Blank("came", "time", "came"), Blank("left", "time", "left"))
_LOOK = (
    Blank("released", "tick", "released: x"),
    Blank("until", "name", "or until"),
    Blank("who", "name", "by"),
    Blank("at", "time", "at"),
    Blank("why", "words", "why"),
)
_JOB = (
    Blank("begun", "time", "begun"),
    Blank("on it", "words", "names, hours"),
    Blank("finished", "time", "finished"),
    Blank("stopped", "time", "or stopped"),
    Blank("note", "words", "note"),
)


class Boards(NamedTuple):
    """The board when the sheet was printed, and that of its day as it is known now."""

    printed: Board
    known: Board


def printed_at(board: Board, day: date) -> datetime:
    """When the sheet of the day is taken to have been printed: as the shop opened."""
    work_days = board.plan.vehicle.work_days
    openings = work_days.openings_on(day) or (work_days.usual,)
    return min(board.at, datetime.combine(day, openings[0].opens))


def known_at(board: Board, day: date) -> datetime:
    """The latest moment of the day: now, or its last minute."""
    return min(board.at, datetime.combine(day, time(23, 59)))


def rows_to_fill(boards: Boards) -> list[MorningRow]:
    """Every row in the order of the printed sheet, but for what is in the logbook already and
    cannot happen twice; then what closes the shop, from the check sheet."""
    return [
        *_looks(boards),
        *_people(boards),
        *(_check(boards.known, row) for row in parts.opening(boards.known)),
        *_jobs(boards),
        *_shop(boards.known),
        *(_check(boards.known, row) for row in parts.closing(boards.known)),
    ]


def _looks(boards: Boards) -> Iterator[MorningRow]:
    standing = {hold.id for hold in boards.known.stopping()}
    for row in parts.looks(boards.printed):
        if row.about in standing:
            yield row._replace(blanks=_LOOK)


def _people(boards: Boards) -> Iterator[MorningRow]:
    """Who was expected, who is known to have been there, and lines for who came all the same."""
    rows = [*parts.people(boards.printed), *parts.people(boards.known)]
    for row in {row.about: row for row in rows}.values():
        yield row._replace(blanks=_VISIT)
    yield from [parts.EMPTY_NAME._replace(blanks=(_NAME, *_VISIT))] * _MORE_NAMES


def _jobs(boards: Boards) -> Iterator[MorningRow]:
    for row in list(parts.jobs(boards.printed))[:_JOBS]:
        if not boards.known[row.about].work_done:
            yield row._replace(blanks=_JOB)
    yield from [parts.ANOTHER_JOB._replace(text="", blanks=(_TASK, *_JOB))] * _MORE_JOBS


def _shop(board: Board) -> list[MorningRow]:
    reading, note = parts.shop(board)
    labels = {"temperature": "temperature", "humidity": "humidity"}
    blanks = (b._replace(says=f"{labels.get(b.key, '')} {b.says}".strip()) for b in reading.blanks)
    note = note._replace(text="note", blanks=(Blank("note", "words"),))
    return [reading._replace(blanks=tuple(blanks)), *[note] * (1 + _MORE_NOTES)]


def checks_to_fill(board: Board, work: Iterable[JobOfSheet]) -> list[MorningRow]:
    """The checks of what was begun: the unsigned ones before the work, those that come round while
    it goes on, and of what ended the unsigned ones after it."""
    return [
        _check(board, parts.check_row(board, asked), asked)
        for task, people, ended in work
        for asked in checks_of(board, task, people)
        if asked.check.when == "during" or (asked.open and (asked.check.when == "before" or ended))
    ]


_FIRST: dict[When, str] = {"before": "", "during": DURING, "after": AFTER}
_TIMES = Blank("at", "words", "at (10:00, 10:30)")


def _check(board: Board, row: MorningRow, asked: Asked | None = None) -> MorningRow:
    """A check is signed where a name stands: no box beside it."""
    named = "who (or nobody: why)"
    blanks = tuple(
        blank._replace(says={"who": "by", "at": "at", "named": named}.get(blank.key, blank.says))
        for blank in row.blanks
        if blank.key != "signed"
    )
    if asked is None:
        return row._replace(blanks=blanks, first="")
    more = f"{row.more} {quoted_title(board.plan, asked.task)}".strip()
    if asked.check.when == "during":
        blanks = tuple(_TIMES if blank.key == "at" else blank for blank in blanks)
        more = f"{_how_often(asked)} {more}".strip()
    return row._replace(blanks=blanks, more=more, first=_FIRST[asked.check.when])


def _how_often(asked: Asked) -> str:
    if asked.hazard.number(asked.check.interval) is None:
        return ""
    return f"every {asked.hazard.told(f'{{{asked.check.interval}}}')}"
