"""Day files that are not where a day is read from: copies that a sync tool leaves beside a day's
file when two computers changed it at once, days in the wrong year's folder, or under another name.

They are known by what they are, not by one tool's way of naming them: a file among the day files
whose path is not that of a day, but that has a date in its name or reads like a day file; and a day
file whose entries are all of another day, that of its `date`.
"""

from __future__ import annotations

import datetime as dt
import os
import re
from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from crewboard.folder.cannot import CannotAppend, CannotFold
from crewboard.folder.disk.part import is_part
from crewboard.folder.disk.read import read_at_most
from crewboard.folder.toml.append import appended, entry_line
from crewboard.folder.toml.day import DayText, parse_day
from crewboard.folder.toml.meant import same
from crewboard.folder.toml.scan import Statement, statements
from crewboard.folder.toml.text import BrokenText

_DATED = re.compile(r"(?<!\d)(\d{4}-\d\d-\d\d)(?!\d)")


class ConflictCopy(NamedTuple):
    """A file that seems to be another wording of the day file at `original` (maybe not there).

    Where the two are the same file, only its `date` is not that of its name and of its entries.
    """

    path: str
    original: str
    date: dt.date
    readable: bool


class Folded(NamedTuple):
    """The day file with the copy's lines added.

    `added` were missing and are there now; `clashing` are in both with different content, and
    stay as the original has them; `new_bytes` equals the original where nothing was missing.
    """

    new_bytes: bytes
    added: tuple[str, ...]
    clashing: tuple[str, ...]


def conflict_copies(
    folder: str | os.PathLike[str], days: str | os.PathLike[str] = ""
) -> list[ConflictCopy]:
    """All such files below the folder, by path. `days` is the folder of the day files, where it is
    another. Links are not followed."""
    root = os.fspath(days or folder)
    return sorted(filter(None, (_copy_at(path, root) for path in _files(os.fspath(folder)))))


def day_place(days: str, date: dt.date) -> str:
    """Where the file of a day stands, below the folder of day files."""
    return os.path.join(days, f"{date.year:04}", f"{date.isoformat()}.toml")


def folded(original: bytes, copy: bytes) -> Folded:
    """Add to the original what only the copy has, entry by entry. Raises `CannotFold`.

    Lines are added as the copy has them; so are comment lines and headings (`opens`) that only
    the copy has. Nothing of the original is changed, nothing of the copy is left out but what
    `clashing` names.
    """
    ours, theirs = _day(original, "day file"), _day(copy, "copy")
    if ours.values.get("date") != theirs.values.get("date"):
        raise CannotFold("the copy is of another date than the day file")
    clashing = [clash.key for clash in theirs.clashes]
    new = original
    for heading in _headings(theirs):
        if heading not in ours.values:
            new = _with_heading(new, copy, heading)
        elif not same(ours.values[heading], theirs.values[heading]):
            clashing.append(heading)
    old_entries, entries = _entries(ours), _entries(theirs)
    lines = _entry_lines(copy)
    added = list[str]()
    try:
        for entry_id, fields in entries.items():
            if entry_id not in old_entries:
                new = appended(new, lines.get(entry_id) or entry_line(entry_id, fields))
                added.append(entry_id)
            elif not same(old_entries[entry_id], fields):
                clashing.append(entry_id)
        for comment in _comments_missing(new, copy):
            new = appended(new, comment)
    except (CannotAppend, ValueError) as error:
        raise CannotFold(str(error)) from None
    _prove(new, {**old_entries, **{added_id: entries[added_id] for added_id in added}})
    return Folded(new, tuple(added), tuple(dict.fromkeys(clashing)))


def _files(folder: str) -> Iterator[str]:
    try:
        with os.scandir(folder) as listing:
            entries = sorted(listing, key=lambda entry: entry.name)
    except OSError:
        return
    for entry in entries:
        if entry.is_dir(follow_symlinks=False):
            yield from _files(entry.path)
        elif entry.is_file(follow_symlinks=False) and not is_part(entry.name):
            yield entry.path


def _copy_at(path: str, days: str) -> ConflictCopy | None:
    name = os.path.basename(path)
    named = _date_in(name)
    in_place = named is not None and path == day_place(days, named)
    if in_place and _says_its_day(path, named):
        return None
    try:
        data = read_at_most(path, days)
    except OSError:
        data = None  # what it is can still be told by its name, and why it is not read by the fold
    day = parse_day(data or b"")
    inside = _date_inside(day) if isinstance(day, DayText) else None
    if in_place:
        of_one_day = (date for date in (inside, named) if date and _all_of(day, date))
        date = next(of_one_day, None) if inside != named else None
    else:
        date = inside or (named if ".toml" in name.lower() else None)
    if date is None:
        return None
    return ConflictCopy(path, day_place(days, date), date, inside is not None)


def _says_its_day(path: str, day: dt.date | None) -> bool:
    """Whether the file begins as the day's file of its name does: nearly all do."""
    try:
        with open(path, "rb") as file:
            return file.readline(64).strip() == f"date = {day}".encode()
    except OSError:
        return True


def _all_of(day: DayText | BrokenText, date: dt.date) -> bool:
    """Whether the entries of a day file are all of that date."""
    if isinstance(day, BrokenText) or not isinstance(day.values.get("entries"), dict):
        return False
    moments = [line.get("at") for line in _entries(day).values() if isinstance(line, dict)]
    return bool(moments) and all(
        isinstance(at, dt.datetime) and at.date() == date for at in moments
    )


def _date_inside(day: DayText) -> dt.date | None:
    """The date of a text that reads like a day file."""
    date = day.values.get("date")
    if isinstance(date, dt.datetime) or not isinstance(day.values.get("entries"), dict):
        return None
    return date if isinstance(date, dt.date) else None


def _date_in(name: str) -> dt.date | None:
    match = _DATED.search(name)
    try:
        return dt.date.fromisoformat(match[1]) if match else None
    except ValueError:
        return None


def _day(data: bytes, which: str) -> DayText:
    day = parse_day(data)
    if isinstance(day, BrokenText):
        raise CannotFold(f"the {which} cannot be read: line {day.line}: {day.sentence}")
    return day


def _entries(day: DayText) -> dict[str, Any]:
    entries = day.values.get("entries", {})
    if not isinstance(entries, dict):
        raise CannotFold("what stands under entries is not a table")
    return entries


def _headings(day: DayText) -> list[str]:
    return [key for key in day.values if key not in ("date", "entries")]


def _entry_statements(text: str) -> Iterator[tuple[str, Statement]]:
    for statement in statements(text):
        path = statement.keys[-1].path
        if statement.pair and len(path) == 2 and path[0] == "entries":
            yield str(path[1]), statement


def _entry_lines(copy: bytes) -> dict[str, str]:
    """The copy's entries that stand on one line, as they are written there."""
    text = copy.decode()
    lines = dict[str, str]()
    for entry_id, statement in _entry_statements(text):
        line = text[statement.start : statement.end].strip()
        if "\n" not in line:
            lines.setdefault(entry_id, line)
    return lines


def _with_heading(day: bytes, copy: bytes, heading: str) -> bytes:
    from crewboard.folder.cannot import CannotEdit
    from crewboard.folder.toml.edit import set_value

    value = _day(copy, "copy").values[heading]
    try:
        return set_value(day.decode(), (heading,), value).encode()
    except CannotEdit as error:
        raise CannotFold(error.sentence) from None


def _comments_missing(day: bytes, copy: bytes) -> list[str]:
    there = {line.strip() for line in day.decode().split("\n")}
    comments = [line.strip() for line in copy.decode().split("\n")]
    return [line for line in comments if line.startswith("#") and line not in there]


def _prove(new: bytes, meant: Mapping[str, Any]) -> None:
    if not same(_entries(_day(new, "day file")), meant):
        raise CannotFold("the copy is laid out in a way that cannot be folded in safely")
