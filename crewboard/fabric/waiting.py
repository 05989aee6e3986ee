"""Files that were taken in, and that nobody has sorted yet."""

from collections.abc import Iterable
from datetime import datetime
from typing import NamedTuple

from crewboard.logbook.entry import Entry
from crewboard.logbook.record.seen import Pictured, TookIn


class Waiting(NamedTuple):
    """A file that waits to be sorted: its path from the folder, when it was taken where its own
    data say so, and the entry by which it came."""

    file: str
    taken: datetime | None
    entry: Entry


def waiting(record: Iterable[Entry]) -> tuple[Waiting, ...]:
    """What waits, by when it was taken; what says no time stands where it was taken in."""
    files: dict[str, Waiting] = {}
    sorted_already = set[str]()
    for entry in record:
        if isinstance(entry.act, TookIn):
            files.setdefault(entry.act.file, Waiting(entry.act.file, entry.act.taken, entry))
        elif isinstance(entry.act, Pictured):
            sorted_already.add(entry.act.file)
    left = (one for file, one in files.items() if file not in sorted_already)
    return tuple(sorted(left, key=lambda one: (one.taken or one.entry.at, one.file)))
