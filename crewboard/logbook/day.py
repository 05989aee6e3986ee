"""One work day of the logbook: its entries, and which of them count."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date, datetime, time

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
        """The entries that count, by time; a corrected line goes under its first id."""
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
        """Each entry that no longer counts -> the line that replaced it or took it back."""
        return _fates(self.entries)


def _fates(entries: Iterable[Entry]) -> dict[str, str]:
    """Line id -> id of the line that took it back or took its place."""
    lines = {e.id: e for e in entries}
    takers: dict[str, list[str]] = {}
    for entry in lines.values():
        if isinstance(entry.act, TakenBack):
            takers.setdefault(entry.act.entry, []).append(entry.id)

    def taken_back_by(entry_id: str, asking: frozenset[str]) -> str | None:
        # Who takes back a line means its corrections too; a taking-back that was itself taken
        # back does not count.
        asking |= {entry_id}
        for taker in takers.get(entry_id, ()):
            if taker not in asking and taken_back_by(taker, asking) is None:
                return taker
        replaces = lines[entry_id].replaces if entry_id in lines else ""
        return taken_back_by(replaces, asking) if replaces and replaces not in asking else None

    fates: dict[str, str] = {}
    if takers:
        taken = ((entry_id, taken_back_by(entry_id, frozenset())) for entry_id in lines)
        fates = {entry_id: taker for entry_id, taker in taken if taker is not None}
    last: dict[str, tuple[datetime, int, str]] = {}
    origin = {entry_id: _origin(entry_id, lines) for entry_id in lines}
    for entry_id, (first, depth) in origin.items():
        if entry_id not in fates:
            # Two people corrected the same line: the one written later counts, wherever it stands.
            rank = (lines[entry_id].written or lines[entry_id].at, depth, entry_id)
            if depth == 0:
                rank = (datetime.min, 0, entry_id)
            last[first] = max(last.get(first, rank), rank)
    for entry_id, (first, _) in origin.items():
        if entry_id not in fates and last[first][2] != entry_id:
            fates[entry_id] = last[first][2]
    return fates


def _origin(entry_id: str, lines: Mapping[str, Entry]) -> tuple[str, int]:
    """The id of the first line of a chain of corrections, and how many corrections after it."""
    seen: list[str] = []
    while entry_id in lines and lines[entry_id].replaces and entry_id not in seen:
        seen.append(entry_id)
        entry_id = lines[entry_id].replaces
    return entry_id, len(seen)


def _counting(entries: tuple[Entry, ...]) -> tuple[Entry, ...]:
    if any(e.replaces or isinstance(e.act, TakenBack) for e in entries):
        fates, lines = _fates(entries), {e.id: e for e in entries}
        entries = tuple(
            e._replace(id=_origin(e.id, lines)[0]) if e.replaces else e
            for e in entries
            if e.id not in fates and not isinstance(e.act, TakenBack)
        )
    return tuple(sorted(entries, key=lambda e: e.at))
