"""Entries of a time when they can hardly have been: a year mistyped, most often."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import datetime
from itertools import islice

from crewboard.folder.read.fault import Remark
from crewboard.folder.read.files import VEHICLE, day_path
from crewboard.folder.read.folder import Folder
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.order.admit.out_of_time import Began, began, not_of_the_crew, to_come, too_early
from crewboard.order.said import listed

_EACH = 10  # early days that are asked about one by one
_NAMED = 3
_HINT = "take it back and write it down for its own day, if the date is wrong"


def out_of_time(folder: Folder, now: datetime | None) -> Iterator[Remark]:
    """Entries before the work began, before a person joined or after they left, or still to come;
    not those for which somebody gave a reason."""
    start, days = began(folder.plan, folder.logbook.days), folder.logbook.days.values()
    yield from _before_the_beginning(days, start)
    for day in days:
        asked: set[str] = set()
        for entry in _doubtful(day):
            sentences = list(not_of_the_crew(folder.plan, entry.act, entry.at.date()))
            if now is not None and (future := to_come(entry.act, entry.at, now)):
                sentences.append(future)
            for sentence in sentences:
                if sentence not in asked:
                    asked.add(sentence)
                    yield _question(day, entry, sentence)


def _before_the_beginning(days: Iterable[Day], start: Began | None) -> Iterator[Remark]:
    """The days before the work began: of very many the date of its beginning may be wrong."""
    early = [
        (day, entry, sentence)
        for day in days
        if start is not None and day.date < start.day
        for entry in islice(_doubtful(day), 1)
        if (sentence := too_early(day.date, start))
    ]
    if start is None or len(early) <= _EACH:
        yield from (_question(*one) for one in early)
        return
    names = [str(day.date) for day, _, _ in early[:_NAMED]]
    sentence = f"{len(early)} days of the logbook are {start.says}: {listed([*names, 'others'])}"
    hint = "look whether that date is right"
    yield Remark(VEHICLE, ("work_days", "since"), "out-of-time", sentence, hint)


def _doubtful(day: Day) -> Iterator[Entry]:
    return (entry for entry in day.counting if not entry.despite)


def _question(day: Day, entry: Entry, sentence: str) -> Remark:
    return Remark(day_path(day.date), ("entries", entry.id), "out-of-time", sentence, _HINT)
