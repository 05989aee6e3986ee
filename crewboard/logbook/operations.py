"""What somebody put down last: the lines of one operation, told from the lines themselves.

The logbook does not say which lines were written together. Those of one person that were put down
at the same second, and are of the same moment, are taken for one operation.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime
from itertools import takewhile

from crewboard.logbook.acts import ClosedDay, SignOut, TakenBack
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook

UNDONE = "undone"
"""The reason that stands in a line which undid another: such a line is not undone again."""


def last_operation(
    logbook: Logbook, by: str, *, still: bool = False
) -> tuple[tuple[date, Entry], ...]:
    """The lines of the person's last operation of which any still stands, with the days in whose
    files they are; none where there is nothing of theirs. `by` "" means lines without a name.

    Where the shop's clock stands `still` (an example folder), all lines are of one second: then
    only those of one kind that stand together are one operation, and the closing of the day with
    the sign-outs that it wrote.
    """
    lines = [(day, entry) for day, entry in _standing(logbook) if entry.by == by]
    if not lines:
        return ()
    last = max(range(len(lines)), key=lambda at: (_put_down(lines[at][1]), lines[at][0], at))
    day, entry = lines[last]

    def together(other: tuple[date, Entry]) -> bool:
        of_day, line = other
        if (_put_down(line), line.at) != (_put_down(entry), entry.at):
            return False
        if not still or (of_day, line.kind) == (day, entry.kind):
            return True
        return isinstance(entry.act, SignOut) and isinstance(line.act, ClosedDay)

    if still:
        return tuple(reversed(list(takewhile(together, reversed(lines[: last + 1])))))
    return tuple(filter(together, lines))


def _standing(logbook: Logbook) -> Iterator[tuple[date, Entry]]:
    for day in logbook.days.values():
        fates = day.fate()
        for entry in day.entries:
            undoes = isinstance(entry.act, TakenBack) and entry.act.why == UNDONE
            if entry.id not in fates and not undoes:
                yield day.date, entry


def _put_down(entry: Entry) -> datetime:
    return entry.written or entry.at
