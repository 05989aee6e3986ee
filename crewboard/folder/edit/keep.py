"""Keeping entries: each becomes a line of its day's file, proved before it is written."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from crewboard.folder.disk.undo import FileChange
from crewboard.folder.read.day_file import decode_day, entry_fields
from crewboard.folder.read.files import day_path
from crewboard.folder.toml.append import appended, entry_line, new_day
from crewboard.folder.toml.day import DayText, parse_day
from crewboard.folder.toml.decode import BrokenText
from crewboard.logbook.entry import Entry


class CannotKeep(ValueError):
    """The entries do not fit into the day's file; the message says why. Nothing was written."""


def day_with(root: str, day: date, before: bytes | None, entries: Iterable[Entry]) -> FileChange:
    """The change that adds the entries to a day's file; `before` None: there is no file yet.

    Raises CannotKeep where the file is broken, or the new text would not say what is meant.
    """
    path = day_path(day)
    text = new_day(day) if before is None else before
    day_text = parse_day(text)
    if isinstance(day_text, BrokenText):
        raise CannotKeep(
            f"{path}:{day_text.line}:{day_text.column}: {day_text.sentence}. "
            "The file is broken, so nothing is written over it; mend it first"
        )
    meant = list(entries)
    for entry in meant:
        text = appended(text, entry_line(entry.id, entry_fields(entry)))
    _prove(path, day, text, day_text, meant)
    return FileChange(f"{root}/{path}", before, text)


def _prove(path: str, day: date, text: bytes, old_day: DayText, meant: list[Entry]) -> None:
    """The new text holds every old value unchanged, and the new entries as they were meant."""
    new_day_text = parse_day(text)
    if isinstance(new_day_text, BrokenText):
        says = f"{path}: adding the entry would break the file: {new_day_text.sentence}"
        raise CannotKeep(says)
    old, new = old_day.values, new_day_text.values
    kept, _ = decode_day(day, {"entries": {e.id: new.get("entries", {}).get(e.id) for e in meant}})
    without = {k: v for k, v in new.get("entries", {}).items() if k not in {e.id for e in meant}}
    if list(kept.entries) != meant or {**new, "entries": without} != {"entries": {}, **old}:
        raise CannotKeep(f"{path}: the entry could not be written as it was meant")
