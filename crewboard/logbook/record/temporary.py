"""What must not stay and was not undone: said once here for the order of work and the record."""

from collections.abc import Iterable

from crewboard.logbook.entry import Entry
from crewboard.logbook.record.listed import Temporary, Undone


def still_temporary(entries: Iterable[Entry]) -> dict[str, tuple[Entry, Temporary]]:
    """Of entries up to a moment: those that name something temporary, by their ids, as they come,
    without those of which another says that it is undone."""
    told = [entry for entry in entries if isinstance(entry.act, (Temporary, Undone))]
    undone = {entry.act.entry for entry in told if isinstance(entry.act, Undone)}
    return {
        entry.id: (entry, entry.act)
        for entry in told
        if isinstance(entry.act, Temporary) and entry.id not in undone
    }
