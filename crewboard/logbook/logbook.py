"""All work days together."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from typing import NamedTuple

from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry


class Logbook(NamedTuple):
    """The days by date, oldest first."""

    days: Mapping[date, Day] = {}

    def counting(self) -> Iterator[Entry]:
        """Every entry that counts, day by day."""
        for day in self.days.values():
            yield from day.counting

    def find(self, entry_id: str) -> tuple[Day, Entry] | None:
        """The day and the line with that id, newest day first."""
        for day in reversed(list(self.days.values())):
            for entry in day.entries:
                if entry.id == entry_id:
                    return day, entry
        return None
