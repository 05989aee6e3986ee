"""A data logger's rows in the folder: one file a month, a line an hour at most, in order."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import datetime

from crewboard.folder.disk.read import read_file
from crewboard.folder.disk.undo import FileChange
from crewboard.folder.read.files import month_path
from crewboard.folder.read.folder import Folder
from crewboard.logbook.logged import LoggedRow, NotARow, parse_row, spelled

HEAD = "# The shop's air: moment, lowest and highest °C, lowest and highest % humidity.\n"


def month_changes(folder: Folder, rows: Sequence[LoggedRow]) -> list[FileChange]:
    """The changes that add the rows to the months' files. Of a moment that is there already the
    lowest and highest of both are kept, so that a file taken twice changes nothing; lines that are
    no rows stay as they are."""
    months: dict[str, list[LoggedRow]] = {}
    for row in rows:
        months.setdefault(f"{row.at:%Y-%m}", []).append(row)
    changes = []
    for month, new in sorted(months.items()):
        path = folder.path(month_path(month))
        before = read_file(path)
        after = _with_rows(before or HEAD.encode(), new)
        if after != before:
            changes.append(FileChange(path, before, after))
    return changes


def _with_rows(text: bytes, new: Iterable[LoggedRow]) -> bytes:
    others, known = list[str](), list[LoggedRow]()
    for line in text.decode("utf-8", "surrogateescape").splitlines():
        try:
            known.append(parse_row(line))
        except NotARow:
            others.append(line)
    lines = [*others, *map(spelled, one_each_moment([*known, *new]))]
    return ("\n".join(lines) + "\n").encode("utf-8", "surrogateescape")


def one_each_moment(rows: Iterable[LoggedRow]) -> list[LoggedRow]:
    """The rows in order of time; those of the same moment as one."""
    by_moment: dict[datetime, LoggedRow] = {}
    for row in rows:
        by_moment[row.at] = together(by_moment[row.at], row) if row.at in by_moment else row
    return [by_moment[at] for at in sorted(by_moment)]


def together(first: LoggedRow, second: LoggedRow) -> LoggedRow:
    """Both as one, from the moment of the first on."""
    return LoggedRow(
        first.at,
        _of(min, first.lowest_c, second.lowest_c),
        _of(max, first.highest_c, second.highest_c),
        _of(min, first.lowest_humidity, second.lowest_humidity),
        _of(max, first.highest_humidity, second.highest_humidity),
    )


def _of(
    which: Callable[[list[float]], float], first: float | None, second: float | None
) -> float | None:
    known = [value for value in (first, second) if value is not None]
    return which(known) if known else None
