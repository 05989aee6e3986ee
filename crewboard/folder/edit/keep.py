"""Keeping things in the folder: entries as lines of their day's file, and all under the lock."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Mapping
from datetime import date
from typing import Any, TypeVar

from crewboard.folder.cannot import (
    CannotAppend,
    CannotKeep,
    CannotSpell,
    ChangedMeanwhile,
    NotKept,
)
from crewboard.folder.disk.lock import folder_lock
from crewboard.folder.disk.notkept import not_kept
from crewboard.folder.disk.undo import FileChange
from crewboard.folder.read.day_file import decode_day, entry_fields
from crewboard.folder.read.files import day_path
from crewboard.folder.toml.append import appended, entry_line, new_day
from crewboard.folder.toml.day import parse_day
from crewboard.folder.toml.meant import same
from crewboard.folder.toml.text import BrokenText
from crewboard.logbook.entry import Entry
from crewboard.order.admit.refusal import Refusal

Result = TypeVar("Result")


def locked(root: str | os.PathLike[str], act: Callable[[], Result]) -> Result | Refusal:
    """What `act` gives, done while nobody else writes; what hinders it becomes a refusal."""
    try:
        with folder_lock(root):
            return act()
    except NotKept as error:
        return _of_the_disk(error, root)
    except OSError as error:  # a file could not be read that was to be written
        return _of_the_disk(not_kept(error.filename or root, error), root)
    except ChangedMeanwhile as error:
        where = os.path.relpath(error.path, root)
        return Refusal("changed", f"{where} is being changed by another program", "try again")
    except (CannotKeep, CannotAppend, CannotSpell) as error:
        return Refusal("cannot-keep", str(error))


def _of_the_disk(error: NotKept, root: str | os.PathLike[str]) -> Refusal:
    path = os.path.relpath(error.path, root)
    where = f" ({path})" if path != "." else ""
    if error.doubtful:
        sentence = f"it is not sure whether it was saved: {error.sentence}{where}"
        return Refusal("disk", sentence, "look at the folder before you try again: it may be there")
    return Refusal("disk", f"nothing was saved: {error.sentence}{where}", error.hint)


def days_with(
    root: str, entries: Iterable[tuple[date, Entry]], bytes_of: Callable[[str], bytes | None]
) -> list[FileChange]:
    """The changes that add each entry to its day's file."""
    days: dict[date, list[Entry]] = {}
    for day, entry in entries:
        days.setdefault(day, []).append(entry)
    return [day_with(root, day, bytes_of(day_path(day)), days[day]) for day in sorted(days)]


def day_with(root: str, day: date, before: bytes | None, entries: Iterable[Entry]) -> FileChange:
    """The change that adds the entries to a day's file; `before` None: there is no file yet.

    Raises CannotKeep where the file is broken, or the new text would not say what is meant.
    """
    path, meant = day_path(day), list(entries)
    text = new_day(day) if before is None else before
    old = parse_day(text)
    if isinstance(old, BrokenText):
        raise CannotKeep(
            f"{path}:{old.line}:{old.column}: {old.sentence}. "
            "The file is broken, so nothing is written over it; mend it first"
        )
    for entry in meant:
        text = appended(text, entry_line(entry.id, entry_fields(entry)))
    _prove(day, text, old.values, meant)
    return FileChange(f"{root}/{path}", before, text)


def _prove(day: date, text: bytes, old: Mapping[str, Any], meant: list[Entry]) -> None:
    """The one proof before an entry is written: read back as any reader will read it, the new text
    holds the entries as they were meant, and everything that stood there as it was."""
    path, new = day_path(day), parse_day(text)
    if isinstance(new, BrokenText):
        raise CannotKeep(f"{path}: adding the entry would break the file: {new.sentence}")
    lines = new.values.get("entries", {})
    added = {entry.id: lines.get(entry.id) for entry in meant}
    read, _ = decode_day(day, {"entries": added})
    if read is None or list(read.entries) != meant:
        raise CannotKeep(f"{path}: the entry could not be written as it was meant")
    others = {entry_id: fields for entry_id, fields in lines.items() if entry_id not in added}
    if not same({**new.values, "entries": others}, {"entries": {}, **old}):
        raise CannotKeep(f"{path}: adding the entry would change what stands there")
