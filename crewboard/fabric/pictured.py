"""Which pictures show a piece before, while and after something was done to it."""

from collections.abc import Iterator
from datetime import datetime

from crewboard.fabric.fabric import Fabric, PieceRecord
from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import fields_of
from crewboard.logbook.record.done import DoneTo, PieceMade, Reused, TakenOff
from crewboard.logbook.record.seen import Found, Layers, Measured, Pictured
from crewboard.logbook.work import Finished

# Entries whose pictures were taken to show what was there, and at the work.
_SEEN = (Found, Layers, Measured)
_AT_WORK = (DoneTo, PieceMade, TakenOff, Reused)
_EVIDENCE = ("evidence", "measured")
_WHILE_OPEN = ("during", "hidden now")


def shown_before(fabric: Fabric, record: PieceRecord, first: datetime) -> bool:
    """Whether a picture shows it before the first action: one captioned so, one of a finding, or
    one taken before it, whatever for. By the day, where the picture itself does not say when it
    was taken."""
    if any(_not_after(fabric, entry, first) for entry in _captioned(record, "before")):
        return True
    others = (entry for shows in _EVIDENCE for entry in _captioned(record, shows))
    if any(_moment(fabric, entry) < first for entry in others):
        return True
    seen = (entry for entry in record.entries if isinstance(entry.act, _SEEN))
    return any(_has_pictures(entry) and entry.at.date() <= first.date() for entry in seen)


def shown_while_open(fabric: Fabric, record: PieceRecord, closed: Entry) -> bool:
    """Whether a picture shows it at the work, or what the closing hid, before it was closed in."""
    task = closed.act.task if isinstance(closed.act, Finished) else ""
    captions = (
        entry
        for of_file in fabric.pictures.values()
        for entry in of_file
        if isinstance(entry.act, Pictured)
        and entry.act.shows in _WHILE_OPEN
        and (record.piece.id in entry.act.pieces or (task and entry.act.task == task))
    )
    if any(_not_after(fabric, entry, closed.at) for entry in captions):
        return True
    at_work = (entry for entry in record.entries if isinstance(entry.act, _AT_WORK))
    return any(_has_pictures(entry) and entry.at.date() <= closed.at.date() for entry in at_work)


def shown_after(fabric: Fabric, record: PieceRecord, last: datetime) -> bool:
    """Whether a picture shows it after the last action."""
    after = _captioned(record, "after")
    return any(_moment(fabric, entry).date() >= last.date() for entry in after)


def _captioned(record: PieceRecord, shows: str) -> Iterator[Entry]:
    for entry in record.entries:
        if isinstance(entry.act, Pictured) and entry.act.shows == shows:
            yield entry


def _not_after(fabric: Fabric, entry: Entry, moment: datetime) -> bool:
    taken = _taken(fabric, entry)
    return taken <= moment if taken is not None else entry.at.date() <= moment.date()


def _moment(fabric: Fabric, entry: Entry) -> datetime:
    return _taken(fabric, entry) or entry.at


def _taken(fabric: Fabric, entry: Entry) -> datetime | None:
    return fabric.taken_at(entry.act.file) if isinstance(entry.act, Pictured) else None


def _has_pictures(entry: Entry) -> bool:
    fields = (field for field in fields_of(type(entry.act)) if field.kind == "pictures")
    return any(getattr(entry.act, field.name) for field in fields)
