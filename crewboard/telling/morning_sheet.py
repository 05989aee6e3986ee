"""The morning sheet: one page to hang up, fill in by hand, and type in at night."""

from collections.abc import Iterable, Iterator
from itertools import groupby

from crewboard.order.board import Board
from crewboard.order.safety.opening import first_aider_in_words
from crewboard.order.said import day_in_words, listed
from crewboard.telling.line import Line
from crewboard.telling.morning_parts import AT_ONE_JOB, MorningRow
from crewboard.telling.morning_rows import BESIDE, in_two_columns, morning_rows
from crewboard.telling.report import Cell, Chapter, Fill, Request, RuledTable, Sheet, TableColumn
from crewboard.telling.safety import AUTHORISES_NOTHING
from crewboard.telling.unreadable import unreadable_lines

_HIGH_UNREAD = 16  # millimetres of the page for each thing that cannot be read


def report(request: Request) -> Sheet:
    """The sheet of the board's day, as things stand."""
    board = request.board
    emergency = _emergency(board)
    chapters = [emergency]
    taken = in_two_columns([f"{line.word} {line.text}" for line in emergency.points])
    taken += sum(_HIGH_UNREAD for _ in unreadable_lines(board))
    for part, group in groupby(morning_rows(board, taken), key=lambda row: row.part):
        chapters += _DRAWN[part](list(group))
    title = f"Morning sheet, {day_in_words(board.at)}: {board.plan.vehicle.name}"
    hours = listed(map(str, board.openings))
    stands = f"As things stood at {board.at:%H:%M}" + (f"; open {hours}." if hours else ".")
    return Sheet(title, f"{stands} {AUTHORISES_NOTHING}", tuple(chapters), close=True)


def _emergency(board: Board) -> Chapter:
    """Whom to call, where they come, who gives first aid: what is not known is left to write."""
    shop = board.plan.vehicle.shop
    facts = {
        "call": shop.emergency,
        "hospital": shop.hospital,
        "say where": shop.address,
        "meet at": shop.meeting_place,
        "first-aid kit": shop.first_aid,
        "first-aider": first_aider_in_words(board),
    }
    lines = (Line(fact or "____________________", word=f"{word}:") for word, fact in facts.items())
    return Chapter("EMERGENCY", tuple(lines), "must")


# --- the parts ------------------------------------------------------------------------------------


def _alone(rows: list[MorningRow]) -> Iterator[Chapter]:
    lines = (Line(row.text, word=f"{row.first}:" if row.first else "") for row in rows)
    yield Chapter("LEAVE ALONE", tuple(lines), "danger")


def _looks(rows: list[MorningRow]) -> Iterator[Chapter]:
    columns = (
        TableColumn("DUE FOR A LOOK: leave alone till then", 46),
        TableColumn("", 16),
        TableColumn("or longer, until", 16),
        TableColumn("by", 13),
        TableColumn("at", 9),
    )
    cells = ((_named(row), Fill("box", "released"), "", "", "") for row in rows if row.blanks)
    yield from _with_more(columns, cells, rows)


def _people(rows: list[MorningRow]) -> Iterator[Chapter]:
    """Some beside one another, down each column first."""
    times = (TableColumn("came", 7), TableColumn("left", 7))
    columns = (TableColumn("WHO IS HERE", 20), *times, *(TableColumn("", 19), *times) * 2)
    names = [row.text for row in rows if row.blanks]
    high = -(-len(names) // BESIDE)
    names += [""] * (high * BESIDE - len(names))
    cells = (
        tuple(cell for name in names[at::high] for cell in (name, "", "")) for at in range(high)
    )
    yield from _with_more(columns, cells, rows)


def _jobs(rows: list[MorningRow]) -> Iterator[Chapter]:
    columns = (
        TableColumn("FIRST JOBS", 38),
        TableColumn("begun", 8),
        *[TableColumn("name, hours", 11)] * AT_ONE_JOB,
        TableColumn("finished", 10),
    )
    empty: tuple[Cell, ...] = ("",) * (1 + AT_ONE_JOB)
    cells = ((_named(row), *empty, Fill("box", "at")) for row in rows if row.blanks)
    yield from _with_more(columns, cells, rows, high="box")


def _checks(rows: list[MorningRow]) -> Iterator[Chapter]:
    opening = not any(row.first for row in rows)
    head = "CHECKS TO OPEN THE SHOP" if opening else "CHECKS BEFORE THESE JOBS"
    yield from _with_more(
        check_columns(head), map(check_cells, (row for row in rows if row.blanks)), rows
    )


def check_columns(head: str) -> tuple[TableColumn, ...]:
    """Of a table of checks to sign."""
    return TableColumn(head, 68), TableColumn("", 6), TableColumn("by", 16), TableColumn("at", 10)


def check_cells(row: MorningRow) -> tuple[Cell, ...]:
    """A check with its box, and room for who signed it and when."""
    asked = [Fill("line", blank.says) for blank in row.blanks if blank.key in ("concerns", "named")]
    return (_named(row), *asked), Fill("box"), "", ""


def _shop(rows: list[MorningRow]) -> Iterator[Chapter]:
    columns = (TableColumn("", 14), TableColumn("", 86))
    cells: list[tuple[Cell, ...]] = []
    for row in rows:
        blanks = tuple(Fill("line", blank.says) for blank in row.blanks if blank.says)
        cells.append((row.text, blanks))
    yield Chapter("", table=RuledTable(columns, tuple(cells), "line"))


def _named(row: MorningRow) -> str:
    title = " ".join(filter(None, (row.first, row.text)))
    joined = " " if row.more.startswith("(") else ", "
    return joined.join(filter(None, (title, row.more)))


def _with_more(
    columns: tuple[TableColumn, ...],
    cells: Iterable[tuple[Cell, ...]],
    rows: list[MorningRow],
    high: str = "line",
) -> Iterator[Chapter]:
    """The table of a part, and below it how many more there are."""
    filled = tuple(cells)
    more = tuple(Line(row.text) for row in rows if row.left_out)
    if filled:
        yield Chapter("", table=RuledTable(columns, filled, "box" if high == "box" else "line"))
    if more:
        yield Chapter("", more)


_DRAWN = {
    "leave alone": _alone,
    "due for a look": _looks,
    "who is here": _people,
    "first jobs": _jobs,
    "checks": _checks,
    "shop": _shop,
}
