"""What was read of one file, and what it said when it could last be read."""

from collections.abc import Container
from typing import Any, NamedTuple

from crewboard.folder.disk.watch import Trace
from crewboard.folder.read.fault import Fault
from crewboard.folder.read.losses import GONE, MEANT
from crewboard.logbook.day import Day
from crewboard.order.unreadable import Unreadable

NO_FILE = Trace(0, 0, 0)


class FileRead(NamedTuple):
    """One file as it was read: what it says (None where it is broken or gone), and its mistakes.

    `parts` of it could not be read, or lost what they said. `last` is what a broken file said when
    it could still be read, in this sitting. `lost` are the ids of a day's entries that were there
    then and still count; `stands_in`: the file itself is gone.
    """

    trace: Trace
    value: Any
    faults: tuple[Fault, ...]
    parts: tuple[Unreadable, ...] = ()
    last: Any = None
    lost: tuple[str, ...] = ()
    stands_in: bool = False

    @property
    def shown(self) -> Any:
        """What it says, or said when it was last read; None where it never was."""
        return self.last if self.value is None else self.value

    @property
    def broken(self) -> bool:
        return self.value is None and bool(self.faults)

    def after(self, before: "FileRead | None") -> "FileRead":
        """This reading, with what the one before knew and this one does not give."""
        if before is None or before.shown is None:
            return self
        if self.broken:
            return self._replace(last=before.shown)
        if isinstance(self.value, Day) and isinstance(before.shown, Day):
            return self._with_lost_lines(self.value, before.shown)
        return self

    def _with_lost_lines(self, day: Day, before: Day) -> "FileRead":
        """Lines of a day are never taken out: those that are gone since still count."""
        if before.ids <= day.ids:
            return self
        lost = [entry for entry in before.entries if entry.id not in day.ids]
        from crewboard.folder.read.unread import lost_lines

        whole = Day(day.date, (*lost, *day.entries), day.opens, day.closes)
        fault, part = lost_lines(day.date, len(lost))
        return self._replace(
            value=whole,
            faults=(*self.faults, fault),
            parts=(*self.parts, part),
            lost=tuple(entry.id for entry in lost),
        )

    def without(self, let_go: Container[str]) -> "FileRead":
        """As if those entries had never been there."""
        if not isinstance(self.value, Day):
            return self
        entries = [entry for entry in self.value.entries if entry.id not in let_go]
        return self._replace(
            value=Day(self.value.date, entries, self.value.opens, self.value.closes)
        )


def gone(path: str, before: FileRead, why: OSError | None) -> FileRead:
    """What stands in for a file that was here at the last look: what it said is still shown."""
    sentence = f"it is gone since the last look{f': {why.strerror}' if why else ''}"
    fault = Fault(path, 1, 1, GONE, sentence, f"put it back, or, {MEANT}")
    return FileRead(NO_FILE, None, (fault,), (), before.shown, (), True)
