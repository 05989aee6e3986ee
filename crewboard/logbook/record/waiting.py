"""Which files were taken in and wait to be sorted: nobody has said yet what they show.

Said once here for the first screen, the commands and the fabric, and cheap: days without an entry
of the record cost nothing, and without a file that waits the notes are never gone through.
"""

from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import Any, NamedTuple

from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import fields_of
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.record.seen import RECORDINGS, TookIn


class FileWaiting(NamedTuple):
    """A file that was taken in and of which nothing more is said yet."""

    entry: str
    act: TookIn

    @property
    def is_recording(self) -> bool:
        """Whether it is sound or a film: findings cite it by the minute."""
        return self.act.file.startswith(RECORDINGS)

    @property
    def name_before(self) -> str:
        """What the phone or camera called it, else its name in the folder."""
        return self.act.called or self.act.file.rpartition("/")[2]


def files_waiting(logbook: Logbook, at: datetime) -> list[FileWaiting]:
    """What waits at a moment, by when it was taken; what says nothing of that comes last.

    A caption sorts a file, and so does any other entry that cites it.
    """
    taken_in = [entry for entry in _record(logbook, at) if type(entry.act) is TookIn]
    if not taken_in:
        return []
    cited = {file for entry in _all(logbook, at) for file in _files_of(entry.act)}
    waiting = [
        FileWaiting(entry.id, entry.act)
        for entry in taken_in
        if isinstance(entry.act, TookIn) and entry.act.file not in cited
    ]
    return sorted(waiting, key=_in_order)


def _in_order(waiting: FileWaiting) -> tuple[datetime, str]:
    return waiting.act.taken or datetime.max, waiting.act.file


def _record(logbook: Logbook, at: datetime) -> Iterator[Entry]:
    for day in logbook.days.values():
        yield from (entry for entry in day.record if entry.at <= at)


def _all(logbook: Logbook, at: datetime) -> Iterator[Entry]:
    for day in logbook.days.values():
        for entries in (day.record, day.counting):
            yield from (entry for entry in entries if entry.at <= at)


_naming_files: dict[type, tuple[str, ...]] = {}


def _files_of(act: Any) -> Iterable[str]:
    """The files that an entry says something of: those it names, but that one was taken in."""
    kind = type(act)
    if kind not in _naming_files:
        fields = () if kind is TookIn else fields_of(kind)
        _naming_files[kind] = tuple(f.name for f in fields if f.names == "picture")
    for name in _naming_files[kind]:
        value = getattr(act, name)
        if value:
            yield from (value,) if isinstance(value, str) else value
