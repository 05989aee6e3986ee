"""What must not stay and was not undone: said once here for the order of work and the record."""

from collections.abc import Iterable

from crewboard.logbook.entry import Entry
from crewboard.logbook.record.listed import Temporary, Undone


def ever_temporary(entries: Iterable[Entry]) -> list[tuple[Entry, Entry | None]]:
    """Of entries up to a moment: those that name something temporary, as they come, each with the
    one that says that it is undone."""
    told = [entry for entry in entries if isinstance(entry.act, (Temporary, Undone))]
    undone = {entry.act.entry: entry for entry in told if isinstance(entry.act, Undone)}
    return [(one, undone.get(one.id)) for one in told if isinstance(one.act, Temporary)]


def still_temporary(entries: Iterable[Entry]) -> dict[str, tuple[Entry, Temporary]]:
    """Those that name something temporary, by their ids, as they come, without what is undone."""
    return {
        entry.id: (entry, entry.act)
        for entry, undone in ever_temporary(entries)
        if isinstance(entry.act, Temporary) and undone is None
    }
