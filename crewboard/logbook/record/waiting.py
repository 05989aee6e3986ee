"""Which files were taken in and wait to be sorted: nobody has said yet what they show.

Said once here for the first screen, the commands and the fabric, and cheap: of lines that were put
off it is enough to know which files they name, and without a file that was taken in the others are
never gone through.
"""

from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import Any, NamedTuple

from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import fields_of
from crewboard.logbook.kinds import KINDS_OF_ENTRY
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.put_off import Names
from crewboard.logbook.record.seen import RECORDINGS, TookIn
from crewboard.logbook.shop import TakenBack

_WORD = KINDS_OF_ENTRY[TookIn].word


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
    """What waits at a moment, by when it was taken; what says nothing of that comes last."""
    files = {day.date: _taken_in(day, at) for day in logbook.days.values()}
    waiting = set[str]().union(*files.values())
    if waiting:
        waiting -= set[str]().union(*(_told_of(day, at) for day in logbook.days.values()))
    days = [logbook.days[day] for day, taken_in in files.items() if taken_in & waiting]
    told = [
        FileWaiting(entry.id, entry.act)
        for day in days
        for entry in day.record
        if isinstance(entry.act, TookIn) and entry.act.file in waiting and entry.at <= at
    ]
    return sorted(told, key=_in_order)


def _in_order(waiting: FileWaiting) -> tuple[datetime, str]:
    return waiting.act.taken or datetime.max, waiting.act.file


def _taken_in(day: Day, at: datetime) -> set[str]:
    """The files that were taken in on a day, by that moment."""
    acts = (entry.act for entry in _at_hand(day, at))
    taken_in = {act.file for act in acts if isinstance(act, TookIn)}
    return taken_in.union(_put_off(day, at).get((_WORD, "picture"), ()))


def _told_of(day: Day, at: datetime) -> set[str]:
    """The files that the other entries of a day name, by that moment."""
    told = {file for entry in _at_hand(day, at) for file in _files_of(entry.act)}
    names = _put_off(day, at).items()
    return told.union(*(s for (word, thing), s in names if thing == "picture" and word != _WORD))


def _at_hand(day: Day, at: datetime) -> Iterator[Entry]:
    """The entries that count, as far as they have to be read to say which files they name."""
    corrected = any(e.replaces or type(e.act) is TakenBack for e in day.at_hand)
    if day.put_off is None or corrected or day.date == at.date():
        entries: Iterable[Entry] = (*day.counting, *day.record)
    else:
        entries = day.at_hand
    return (entry for entry in entries if entry.at <= at)


def _put_off(day: Day, at: datetime) -> Names:
    """What the lines of a day name that did not have to be read: all of them are of that day."""
    return day.put_off.names if day.put_off is not None and day.date < at.date() else {}


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
