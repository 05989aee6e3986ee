"""The rows of the morning sheet, in the order in which they stand on its one page.

What is filled in by hand is typed in at night in the same order: a form that takes the filled sheet
follows these rows. Each part has room for so much and says how much more there is; nothing is left
out in silence.
"""

from itertools import groupby
from math import ceil
from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.order.said import listed
from crewboard.telling import morning_parts as parts
from crewboard.telling.drawn import cells
from crewboard.telling.morning_parts import MorningRow, Part

BESIDE = 3  # people beside one another

# Millimetres of the page: what US letter has, the lower of the two papers, for everything but the
# title, the shop's row and the notes. Then what a head takes, a line, one of "+3 more", a row to
# fill in, a job.
PAGE = 221
_HEAD, _LINE, _MORE, _TO_FILL, _JOB = 6, 4, 5, 8, 10
# Letters in a line: of a job, a look, a check, half of the page's width beside a heading.
_JOB_LINE, _LOOK_LINE, _CHECK_LINE, _HALF_LINE = 44, 54, 80, 52
_OPENING = 70  # millimetres for the checks that open the shop
_EMPTY_NAMES = 2  # lines for who was not expected


class _Most(NamedTuple):
    """So many rows of each part at most."""

    alone: int = 20
    looks: int = 5
    people: int = 13
    jobs: int = 5


# By this much a page that is too full is thinned out, step by step: what hangs elsewhere first.
_THINNED = (
    _Most(jobs=4),
    _Most(12, 5, 10, 4),
    _Most(12, 4, 10, 3),
    _Most(10, 3, 7, 3),
    _Most(8, 2, 4, 2),
    _Most(6, 2, 4, 2),
    _Most(6, 2, 1, 2),
    _Most(6, 1, 1, 1),
)


def morning_rows(board: Board, taken: int = 0) -> list[MorningRow]:
    """Every row of the sheet, in its order. `taken` are millimetres of the page for what stands
    there beside them."""
    room = PAGE - taken - _MORE  # a line for the checks that find no room
    for most in (_Most(), *_THINNED):
        rows = _of_parts(board, most)
        if sum(map(_height, rows)) <= room:
            break
    room -= sum(map(_height, rows))
    checks = _before_jobs(board, rows[-1], room)
    return [row for part in (*rows, checks, parts.shop(board)) for row in part]


def _of_parts(board: Board, most: _Most) -> list[list[MorningRow]]:
    looks = _fitted(list(parts.looks(board)), most.looks, "under Holds")
    alone = list(parts.alone(board, {row.about for row in looks}))
    jobs = list(parts.jobs(board))
    more = _fitted(jobs, most.jobs, "can be done: on the board")[most.jobs :]
    return [
        _fitted(alone, most.alone, "on the tags, and under Holds"),
        looks,
        _people(board, most.people),
        _opening(board),
        [*jobs[: most.jobs], parts.ANOTHER_JOB, *more],
    ]


def _fitted(rows: list[MorningRow], most: int, where: str) -> list[MorningRow]:
    """So many rows of a part, and how many more there are."""
    left_out = len(rows) - most
    if left_out <= 0:
        return rows
    return [*rows[:most], _more(rows[0].part, left_out, f"+{left_out} more {where}")]


def _more(part: Part, count: int, text: str) -> MorningRow:
    return MorningRow(part, text, left_out=count)


def _people(board: Board, most: int) -> list[MorningRow]:
    people = list(parts.people(board))
    more = _fitted(people, most, "expected: on the sign-in sheet")[most:]
    return [*people[:most], *[parts.EMPTY_NAME] * _EMPTY_NAMES, *more]


def _opening(board: Board) -> list[MorningRow]:
    """What opens the shop, as far as there is room."""
    rows = parts.opening(board)
    shown = [row for at, row in enumerate(rows) if sum(map(_high, rows[: at + 1])) <= _OPENING]
    return _fitted(rows, len(shown), "to open the shop: on the check sheet")


def _before_jobs(board: Board, jobs: list[MorningRow], room: int) -> list[MorningRow]:
    """The checks before each job that nobody has signed: all of a job's, or none and their number,
    so that no list of them looks whole that is not."""
    shown, elsewhere, count = list[MorningRow](), list[str](), 0
    for job in jobs:
        rows = parts.before(board, job)
        needs = sum(map(_high, rows)) + (0 if shown else _HEAD)
        if rows and needs <= room:
            room -= needs
            shown += rows
        elif rows:
            elsewhere.append(f"{len(rows)} before job {job.first.rstrip('.')}")
            count += len(rows)
    more = f"+{count} more checks, on the check sheet: {listed(elsewhere)}"
    return [*shown, _more("checks", count, more)] if elsewhere else shown


# --- how much room it takes -----------------------------------------------------------------------


def millimetres(rows: list[MorningRow]) -> int:
    """How much of the page the rows take, part by part, without the shop's row and the notes."""
    parts_of = groupby((row for row in rows if row.part != "shop"), key=lambda row: row.part)
    return sum(_height(list(part)) for _, part in parts_of)


def _height(rows: list[MorningRow]) -> int:
    """Millimetres that the rows of one part take."""
    if all(row.left_out for row in rows):
        return _MORE * len(rows)
    if rows[0].part == "leave alone":
        return in_two_columns([f"{row.first}: {row.text}" for row in rows])
    if rows[0].part == "who is here":
        more = sum(_MORE for row in rows if row.left_out)
        return _HEAD + _TO_FILL * ceil(sum(not row.left_out for row in rows) / BESIDE) + more
    return _HEAD + sum(map(_high, rows))


def in_two_columns(texts: list[str]) -> int:
    """Millimetres of these texts in two columns beside their heading."""
    lines = sum(_wrapped(text, _HALF_LINE) for text in texts)
    return _LINE * ceil(lines / 2) + 2 if texts else 0


def _high(row: MorningRow) -> int:
    if not row.blanks:
        return _MORE
    job = row.part == "first jobs"
    room = {"first jobs": _JOB_LINE, "due for a look": _LOOK_LINE}.get(row.part, _CHECK_LINE)
    lines = _wrapped(f"{row.first} {row.text} {row.more}", room)
    return max(_JOB if job else _TO_FILL, _LINE * lines + 1)


def _wrapped(text: str, width: int) -> int:
    """Lines that the text takes, a word that is longer than a line broken."""
    lines, used = 1, 0
    for word in text.split():
        long = cells(word)
        if used and used + 1 + long > width:
            lines, used = lines + 1, 0
        used += long + bool(used)
        lines, used = lines + used // width, used % width
    return lines
