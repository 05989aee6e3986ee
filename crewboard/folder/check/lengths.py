"""Lengths of the logbook that cannot be read: the entries stay, what they measure is not known."""

from __future__ import annotations

from collections.abc import Iterator

from crewboard.folder.check.logbook import standing
from crewboard.folder.read.fault import Remark, brief
from crewboard.folder.read.files import day_path
from crewboard.folder.read.folder import Folder
from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import fields_of
from crewboard.plan.as_typed import Unread
from crewboard.plan.length import length


def no_lengths(folder: Folder) -> Iterator[Remark]:
    """Each field that should hold a length and does not, of the entries that count."""
    units = folder.plan.vehicle.units
    for day in folder.logbook.days.values():
        for entry in standing(day):
            for field in _of_lengths(entry):
                written = getattr(entry.act, field)
                try:
                    if written:
                        length(written, units)
                except Unread as unread:
                    path = ("entries", entry.id, field)
                    sentence = brief(unread.sentence)
                    yield Remark(day_path(day.date), path, "no-length", sentence, unread.hint)


_fields: dict[str, tuple[str, ...]] = {}


def _of_lengths(entry: Entry) -> tuple[str, ...]:
    """The fields of an entry that hold a length."""
    if entry.kind not in _fields:
        fields = fields_of(type(entry.act))
        _fields[entry.kind] = tuple(field.name for field in fields if field.kind == "length")
    return _fields[entry.kind]
