"""All work days together."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from typing import NamedTuple

from crewboard.logbook.acts import TakenBack
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logged import Logged


class Logbook(NamedTuple):
    """The days by date, oldest first."""

    days: Mapping[date, Day] = {}
    logged: Logged = Logged()  # what a data logger wrote down beside them

    def counting(self) -> Iterator[Entry]:
        """Every entry of the work that counts, day by day."""
        for day in self.days.values():
            yield from day.counting

    def record(self) -> Iterator[Entry]:
        """Every entry of the vehicle's record that counts, day by day."""
        for day in self.days.values():
            yield from day.record

    def find(self, entry_id: str) -> tuple[Day, Entry] | None:
        """The day and the line with that id, newest day first."""
        for day in reversed(list(self.days.values())):
            if entry_id in day.ids:
                return day, next(entry for entry in day.entries if entry.id == entry_id)
        return None

    def with_entry(self, day: date, entry: Entry) -> Logbook:
        """The logbook as it will be with one more entry in that day's file."""
        before = self.days.get(day, Day(day))
        more = Day(day, (*before.entries, entry), before.opens, before.closes)
        days = {**self.days, day: more}
        return self._replace(days={that_day: days[that_day] for that_day in sorted(days)})

    def without(self, entry_id: str) -> Logbook:
        """The logbook as if that entry did not count, in whatever wording: a correction must not
        meet itself."""
        place = self.find(entry_id) if entry_id else None
        if place is None:
            return self
        from crewboard.logbook.fates import origins

        day, entry = place
        first, _ = origins({line.id: line for line in day.entries})[entry_id]
        return self.with_entry(day.date, Entry("~", entry.at, TakenBack(first)))
