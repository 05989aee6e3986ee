"""Keeping entries: each becomes a line of its day's file, proved before it is written."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from crewboard.folder.day_file import decode_day, entry_fields
from crewboard.folder.files import day_path
from crewboard.folder.text.append import appended, entry_line, new_day
from crewboard.folder.text.decode import BrokenText, parse_toml
from crewboard.folder.text.undo import FileChange
from crewboard.logbook.entry import Entry


class CannotKeep(ValueError):
    """The entries do not fit into the day's file; the message says why. Nothing was written."""


def day_with(root: str, day: date, before: bytes | None, entries: Iterable[Entry]) -> FileChange:
    """The change that adds the entries to a day's file; `before` None: there is no file yet.

    Raises CannotKeep where the file is broken, or the new text would not say what is meant.
    """
    path = day_path(day)
    text = new_day(day) if before is None else before
    values = parse_toml(text)
    if isinstance(values, BrokenText):
        raise CannotKeep(
            f"{path}:{values.line}:{values.column}: {values.sentence}. "
            "The file is broken, so nothing is written over it; mend it first"
        )
    meant = list(entries)
    for entry in meant:
        text = appended(text, entry_line(entry.id, entry_fields(entry)))
    _prove(path, day, text, values, meant)
    return FileChange(f"{root}/{path}", before, text)


def _prove(path: str, day: date, text: bytes, old: dict[str, object], meant: list[Entry]) -> None:
    """The new text holds every old value unchanged, and the new entries as they were meant."""
    new = parse_toml(text)
    if isinstance(new, BrokenText):
        raise CannotKeep(f"{path}: adding the entry would break the file: {new.sentence}")
    kept, _ = decode_day(day, {"entries": {e.id: new.get("entries", {}).get(e.id) for e in meant}})
    without = {k: v for k, v in new.get("entries", {}).items() if k not in {e.id for e in meant}}
    if list(kept.entries) != meant or {**new, "entries": without} != {"entries": {}, **old}:
        raise CannotKeep(f"{path}: the entry could not be written as it was meant")
