"""The rows of the morning sheet, in the order in which they stand on the page.

What is filled in by hand is typed in at night in the same order: a form that takes the filled sheet
follows these rows. The page is one sheet of paper, so each part has room for so much and says how
much more there is; nothing is left out in silence.
"""

from collections.abc import Iterator
from math import ceil
from typing import Literal, NamedTuple

from crewboard.order.ahead.first import First, what_goes_first
from crewboard.order.board import Board
from crewboard.order.holds.running import StandingHold
from crewboard.order.holds.words import course_in_words, hold_title, stage_in_words
from crewboard.order.left_alone import LeftAlone, left_alone
from crewboard.order.presence import of_the_day
from crewboard.order.safety.checks import Asked, checks_of
from crewboard.order.safety.opening import unopened
from crewboard.order.safety.signing import who_signs
from crewboard.order.said import component_name, listed, person, shortly
from crewboard.plan.hold import KINDS
from crewboard.plan.units import unit_here
from crewboard.telling.drawn import cells
from crewboard.telling.task import people_wanted

Part = Literal["leave alone", "due for a look", "who is here", "first jobs", "checks", "shop"]
What = Literal["tick", "time", "name", "hours", "figure", "words"]

# Millimetres of the page: what is left on US letter, the lower of the two papers, beside the head,
# the emergency box, the shop's row and the notes.
_PAGE = 196
_HEAD, _LINE, _TO_FILL, _JOB = 6, 4, 8, 10
_ALONE, _LOOKS, _PEOPLE, _JOBS = 20, 5, 12, 5  # rows of a part at most
_OPENING = 70  # millimetres
_EMPTY_NAMES = 2  # lines for who was not expected
BESIDE = 3  # people beside one another
AT_ONE_JOB = 4  # people who can be written beside a job
_CHECK_LINE = 76  # cells of a check in one line of its column
_TITLE = 76  # cells of a name that fit into two lines of its column


class Blank(NamedTuple):
    """Something to be filled in: `key` is its name within the row, `says` what is printed."""

    key: str
    what: What
    says: str = ""


class MorningRow(NamedTuple):
    """One row. `about` is the id of a hold, a person, a task or, of a check, "hazard/check"; empty
    for a line left free. `task` is the task that a check is signed for. `first` is what stands
    before the text: a number, an end. A row with `left_out` only says how many more there are.
    """

    part: Part
    text: str
    about: str = ""
    task: str = ""
    first: str = ""
    more: str = ""
    blanks: tuple[Blank, ...] = ()
    left_out: int = 0


def morning_rows(board: Board) -> list[MorningRow]:
    """Every row of the sheet, in its order."""
    alone, looks, people = list(_alone(board)), list(_looks(board)), list(_people(board))
    jobs, opening = list(_jobs(board)), _opening(board)
    room = _PAGE - 5 * _LINE * len(board.unreadable[:3])
    room -= sum(map(_height, (alone, looks, people, jobs, opening)))
    before = _before_jobs(board, jobs, room)
    return [*alone, *looks, *people, *opening, *jobs, *before, *_shop(board)]


def _height(rows: list[MorningRow]) -> int:
    """Millimetres that the rows of one part take."""
    if not rows:
        return 0
    if rows[0].part == "leave alone":
        lines = sum(1 + (cells(f"{row.first} {row.text}") > 46) for row in rows)
        return _LINE * ceil(lines / 2) + 2
    if rows[0].part == "who is here":
        return _HEAD + _TO_FILL * ceil(len(rows) / BESIDE)
    return _HEAD + sum(map(_high, rows))


def _high(row: MorningRow) -> int:
    if row.part == "first jobs":
        return _JOB if row.blanks else _LINE
    lines = ceil(cells(f"{row.first} {row.text} {row.more}") / _CHECK_LINE)
    return max(_TO_FILL, _LINE * lines + 1) if row.blanks else _LINE


def _more(part: Part, count: int, text: str) -> MorningRow:
    return MorningRow(part, text, left_out=count)


def _fitted(rows: list[MorningRow], most: int, where: str) -> Iterator[MorningRow]:
    """So many rows of a part, and how many more there are."""
    yield from rows[:most]
    left_out = len(rows) - most
    if left_out > 0:
        yield _more(rows[0].part, left_out, f"+{left_out} more: {where}")


def _short(text: str, most: int = _TITLE) -> str:
    return text if len(text) <= most else f"{text[: most - 1]}…"


# --- the parts ------------------------------------------------------------------------------------


def _alone(board: Board) -> Iterator[MorningRow]:
    looked_at = {row.about for row in _looks(board)}  # they stand right below
    rows = [
        _left_alone(board, entry)
        for entry in left_alone(board)
        if entry.hold is None or entry.hold.id not in looked_at
    ]
    return _fitted(rows, _ALONE, "on the tags, and under Holds")


def _left_alone(board: Board, entry: LeftAlone) -> MorningRow:
    name, hold = _short(entry.name), entry.hold
    where = component_name(board.plan, entry.component)
    where = f" ({_short(where, 30)})" if where and where not in entry.name else ""
    if hold is None:
        return MorningRow("leave alone", f"{name}{where}: kept as it is", first="for ever")
    ends = _end(board, hold)
    return MorningRow(
        "leave alone", f"{name}{where}: {KINDS[hold.kind].words}", hold.id, first=ends
    )


def _end(board: Board, hold: StandingHold) -> str:
    if hold.stage == "due":
        return "due for a look"
    if hold.outside is None and not hold.unread and hold.until is not None:
        return f"until {shortly(hold.until, board.at)}"
    return stage_in_words(board.plan, hold, board.at)


_LOOK = (
    Blank("released", "tick", "good: released"),
    Blank("until", "words", "or longer until"),
    Blank("who", "name"),
    Blank("at", "time"),
)


def _looks(board: Board) -> Iterator[MorningRow]:
    rows = [
        MorningRow(
            "due for a look",
            _short(hold_title(board.plan, hold)),
            hold.id,
            more=course_in_words(board.plan, hold, board.at).rpartition(", ")[0],
            blanks=_LOOK,
        )
        for hold in board.stopping()
        if hold.stage == "due"
    ]
    return _fitted(rows, _LOOKS, "under Holds")


_CAME = (Blank("came", "time"), Blank("left", "time"))


def _people(board: Board) -> Iterator[MorningRow]:
    rows = [
        MorningRow("who is here", _short(person(board.plan, who), 28), who, blanks=_CAME)
        for who in of_the_day(board)
    ]
    yield from rows[:_PEOPLE]
    yield from [MorningRow("who is here", "", blanks=_CAME)] * _EMPTY_NAMES
    if len(rows) > _PEOPLE:
        left_out = len(rows) - _PEOPLE
        yield _more("who is here", left_out, f"+{left_out} more expected: a second sheet")


_ON_JOB = (
    Blank("begun", "time"),
    *(Blank(f"on it {number}", "name") for number in range(1, AT_ONE_JOB + 1)),
    Blank("finished", "tick"),
    Blank("at", "time"),
)


def _jobs(board: Board) -> Iterator[MorningRow]:
    first = what_goes_first(board)
    able = [job for job in first if not job.against]
    shown = (able or first)[:_JOBS]
    for number, job in enumerate(shown, 1):
        yield _job(board, number, job)
    yield MorningRow("first jobs", "", first="", more="another job", blanks=_ON_JOB)
    if left_out := len(able or first) - len(shown):
        yield _more("first jobs", left_out, f"+{left_out} more that can be done: on the board")


def _job(board: Board, number: int, job: First) -> MorningRow:
    standing = board[job.task]
    task = standing.task
    where = component_name(board.plan, task.component)
    begun = "under way" if standing.state == "under way" else ""
    more = ", ".join(filter(None, (job.not_today, begun, where, task.place, people_wanted(task))))
    title = _short(task.title)
    return MorningRow("first jobs", title, task.id, task.id, f"{number}.", _short(more), _ON_JOB)


_SIGNED = (Blank("signed", "tick"), Blank("who", "name"), Blank("at", "time"))


def _opening(board: Board) -> list[MorningRow]:
    """What is signed before any dangerous work, as far as there is room."""
    rows = [check_row(board, asked) for asked in unopened(board)]
    shown = [row for at, row in enumerate(rows) if sum(map(_high, rows[: at + 1])) <= _OPENING]
    left_out = len(rows) - len(shown)
    more = _more("checks", left_out, f"+{left_out} more to open the shop: on the check sheet")
    return [*shown, more] if left_out else shown


def _before_jobs(board: Board, jobs: list[MorningRow], room: int) -> list[MorningRow]:
    """The checks before each job that nobody has signed: all of a job's, or none and their number,
    so that no list of them looks whole that is not."""
    shown, elsewhere, count = list[MorningRow](), list[str](), 0
    for job in jobs:
        rows = _before(board, job)
        if sum(map(_high, rows)) + _HEAD + _LINE <= room:
            room -= sum(map(_high, rows))
            shown += rows
        elif rows:
            elsewhere.append(f"{len(rows)} before job {job.first.rstrip('.')}")
            count += len(rows)
    more = f"+{count} more checks, on the check sheet: {listed(elsewhere)}"
    return [*shown, _more("checks", count, more)] if elsewhere else shown


def _before(board: Board, job: MorningRow) -> list[MorningRow]:
    if not job.task:
        return []
    asked = checks_of(board, job.task, when="before")
    return [check_row(board, one)._replace(first=job.first) for one in asked if one.open]


def check_row(board: Board, asked: Asked) -> MorningRow:
    """A check in its words, with room to sign it."""
    check = asked.check
    signs = "" if check.signs == "anyone" else who_signs(check)
    of = person(board.plan, asked.who) if asked.who else ""
    blanks = [Blank("concerns", "name", "for")] if check.each_person and not of else []
    blanks += [Blank("named", "name", "who:")] if check.names else []
    more = "; ".join(filter(None, (f"for {of}" if of else "", signs)))
    more = f"({more})" if more else ""
    return MorningRow(
        "checks",
        asked.text,
        f"{asked.hazard.id}/{check.id}",
        asked.task,
        more=more,
        blanks=(*blanks, *_SIGNED),
    )


def _shop(board: Board) -> list[MorningRow]:
    reading = (
        Blank("at", "time", "at"),
        Blank("temperature", "figure", unit_here("°C", board.plan.vehicle.units)),
        Blank("humidity", "figure", "% humidity"),
    )
    notes = (Blank("note", "words"),)
    return [
        MorningRow("shop", "shop reading", "reading", blanks=reading),
        MorningRow("shop", "notes", "note", blanks=notes),
    ]
