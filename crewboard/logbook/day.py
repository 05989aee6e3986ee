"""One work day of the logbook: its entries, and which of them count."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date, time

from crewboard.logbook.acts import HOURS, SignIn, SignOut, TakenBack
from crewboard.logbook.entry import Entry
from crewboard.logbook.kinds import KINDS_OF_ENTRY
from crewboard.logbook.put_off import PutOff


class Day:
    """The entries of one day's file, in the order of the file.

    A correction names the line that it replaces and takes over its identity, so that what refers
    to the first line (an extended hold, say) goes on meaning the corrected one. A line that was
    corrected twice, by two people, counts as the later of the two says.
    """

    __slots__ = (
        "_counting",
        "_entries",
        "_events",
        "_hours",
        "_ids",
        "_named",
        "_put_off",
        "_record",
        "closes",
        "date",
        "opens",
    )

    def __init__(
        self,
        date: date,
        entries: Iterable[Entry] = (),
        opens: time | None = None,
        closes: time | None = None,
        put_off: PutOff | None = None,
    ) -> None:
        """`put_off` knows of lines besides the `entries`: see there."""
        self.date = date
        self._entries = tuple(entries)
        self.opens = opens
        self.closes = closes
        self._put_off = put_off
        self._counting: tuple[Entry, ...] | None = None
        self._record: tuple[Entry, ...] | None = None
        self._events: tuple[Entry, ...] | None = None
        self._hours: Mapping[str, float] | None = None
        self._ids: frozenset[str] | None = None
        self._named: frozenset[str] | None = None

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
    def entries(self) -> tuple[Entry, ...]:
        """Every line of the file, in its order."""
        if self._put_off is not None:
            self._entries, self._put_off = self._put_off.read(), None
        return self._entries

    @property
    def at_hand(self) -> tuple[Entry, ...]:
        """The lines that are read already; `put_off` tells of the others."""
        return self._entries

    @property
    def put_off(self) -> PutOff | None:
        """What is known of the lines that are not read yet; None where all are."""
        return self._put_off

    @property
    def ids(self) -> frozenset[str]:
        """The ids of every line, without reading what was put off."""
        if self._ids is None:
            off = self._put_off
            ids = off.ids.split() if off is not None else (e.id for e in self._entries)
            self._ids = frozenset(ids)
        return self._ids

    @property
    def named(self) -> frozenset[str]:
        """The tasks and components of which a line is, without reading what was put off."""
        if self._named is None:
            acts = [entry.act for entry in self._entries]
            named = {getattr(act, field, "") for act in acts for field in ("task", "component")}
            off = self._put_off
            named |= off.naming("task", "component") if off is not None else set()
            self._named = frozenset(filter(None, named))
        return self._named

    @property
    def counting(self) -> tuple[Entry, ...]:
        """The entries of the work that count, by time; a corrected line goes under its first id.

        What was put off is not read for them: it is of the record, and changes no other line.
        """
        if self._counting is None:
            counting = _counting(self._entries)
            self._counting = tuple(entry for entry in counting if not _of_record(entry))
        return self._counting

    @property
    def record(self) -> tuple[Entry, ...]:
        """The entries of the vehicle's record that count, by time."""
        if self._record is None:
            self._record = tuple(filter(_of_record, _counting(self.entries)))
        return self._record

    @property
    def all_counting(self) -> tuple[Entry, ...]:
        """Every entry that counts, of the work and of the record, by time."""
        return tuple(sorted((*self.counting, *self.record), key=lambda entry: entry.at))

    @property
    def events(self) -> tuple[Entry, ...]:
        """The counting entries that change what can be worked on: neither hours nor people."""
        if self._events is None:
            self._events = tuple(
                e for e in self.counting if not isinstance(e.act, (*HOURS, SignIn, SignOut))
            )
        return self._events

    @property
    def hours_by_task(self) -> Mapping[str, float]:
        """Person-hours of the day for each task."""
        if self._hours is None:
            totals: dict[str, float] = {}
            for entry in self.counting:
                if isinstance(entry.act, HOURS):
                    totals[entry.act.task] = totals.get(entry.act.task, 0.0) + entry.act.hours
            self._hours = totals
        return self._hours

    def fate(self) -> Mapping[str, str]:
        """Each entry that no longer counts -> the line that replaced it or took it back."""
        from crewboard.logbook.fates import fates  # few days have corrections

        return fates(self.entries)

    def last_wording(self, entry_id: str) -> str:
        """The line that counts in the entry's place: its last correction, or the line itself."""
        last = self.fate().get(entry_id, entry_id)
        return last if any(e.id == last and e.replaces for e in self.entries) else entry_id

    def wording(self, entry: Entry) -> Entry:
        """The entry as it counts now: its last correction, which a new correction begins with."""
        last = self.last_wording(entry.id)
        return next((line for line in self.entries if line.id == last), entry)


def _of_record(entry: Entry) -> bool:
    return KINDS_OF_ENTRY[type(entry.act)].of_record


def _counting(entries: tuple[Entry, ...]) -> tuple[Entry, ...]:
    if any(e.replaces or isinstance(e.act, TakenBack) for e in entries):
        from crewboard.logbook.fates import fates, origins

        gone, first = fates(entries), origins({e.id: e for e in entries})
        entries = tuple(
            e._replace(id=first[e.id][0]) if e.replaces else e
            for e in entries
            if e.id not in gone and not isinstance(e.act, TakenBack)
        )
    return tuple(sorted(entries, key=lambda e: e.at))
