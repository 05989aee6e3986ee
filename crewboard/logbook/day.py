"""One work day of the logbook: its entries, and which of them count."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date, time

from crewboard.logbook.acts import HoursWorked, SignIn, SignOut, TakenBack
from crewboard.logbook.entry import Entry


class Day:
    """The entries of one day's file, in the order of the file.

    A correction names the line that it replaces and takes over its identity, so that what refers
    to the first line (an extended hold, say) goes on meaning the corrected one. A line that was
    corrected twice, by two people, counts as the later of the two says.
    """

    __slots__ = ("_counting", "_events", "_hours", "closes", "date", "entries", "opens")

    def __init__(
        self,
        date: date,
        entries: Iterable[Entry] = (),
        opens: time | None = None,
        closes: time | None = None,
    ) -> None:
        self.date = date
        self.entries = tuple(entries)
        self.opens = opens
        self.closes = closes
        self._counting: tuple[Entry, ...] | None = None
        self._events: tuple[Entry, ...] | None = None
        self._hours: Mapping[str, float] | None = None

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Day):
            return NotImplemented
        return (self.date, self.entries, self.opens, self.closes) == (
            other.date,
            other.entries,
            other.opens,
            other.closes,
        )

    __hash__ = None  # type: ignore[assignment]

    @property
    def counting(self) -> tuple[Entry, ...]:
        """The entries that count, by time: corrected lines under their first id, none taken back."""
        if self._counting is None:
            self._counting = _counting(self.entries)
        return self._counting

    @property
    def events(self) -> tuple[Entry, ...]:
        """The counting entries that change what can be worked on: neither hours nor people."""
        if self._events is None:
            self._events = tuple(
                e for e in self.counting if not isinstance(e.act, HoursWorked | SignIn | SignOut)
            )
        return self._events

    @property
    def hours_by_task(self) -> Mapping[str, float]:
        """Person-hours of the day for each task."""
        if self._hours is None:
            totals: dict[str, float] = {}
            for entry in self.counting:
                if isinstance(entry.act, HoursWorked):
                    totals[entry.act.task] = totals.get(entry.act.task, 0.0) + entry.act.hours
            self._hours = totals
        return self._hours

    def fate(self) -> Mapping[str, str]:
        """For each entry that no longer counts: the id of the line that replaced or took it back."""
        return _fates(self.entries)


def _fates(entries: Iterable[Entry]) -> dict[str, str]:
    """Line id -> id of the line that took its place. A line taken back takes nothing's place."""
    everything = list(entries)
    withdrawn: dict[str, str] = {}
    # A taking-back can itself be taken back: settle them from the last to the first.
    for entry in reversed(everything):
        if isinstance(entry.act, TakenBack) and entry.id not in withdrawn:
            withdrawn[entry.act.entry] = entry.id
    fates = dict(withdrawn)
    for entry in everything:
        if entry.replaces and entry.id not in withdrawn and entry.replaces not in withdrawn:
            fates[entry.replaces] = entry.id
    for entry in everything:  # of two corrections of one line the later counts
        later = fates.get(entry.replaces) if entry.replaces else None
        if later is not None and later != entry.id and entry.id not in fates:
            fates[entry.id] = later
    return fates


def _counting(entries: tuple[Entry, ...]) -> tuple[Entry, ...]:
    if not any(e.replaces or isinstance(e.act, TakenBack) for e in entries):
        return tuple(sorted(entries, key=lambda e: e.at))
    fates = _fates(entries)
    first = {e.id: e.replaces for e in entries if e.replaces}

    def root(entry_id: str) -> str:
        seen = set()
        while entry_id in first and entry_id not in seen:
            seen.add(entry_id)
            entry_id = first[entry_id]
        return entry_id

    standing = [
        e._replace(id=root(e.id)) if e.replaces else e
        for e in entries
        if e.id not in fates and not isinstance(e.act, TakenBack)
    ]
    return tuple(sorted(standing, key=lambda e: e.at))
