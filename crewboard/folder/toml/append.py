"""Logbook lines: one entry a line under its own id, added at the end of the day file's text.

A day file reads

    date = 2026-05-02

    [entries]
    k7f3q2mh = { at = 2026-05-02T09:10:00, by = "mara", kind = "hours", hours = 3.5 }

with `[entries]` as its last table. No line that stands is ever changed, so two people's lines
merge as lines.
"""

from __future__ import annotations

import datetime as dt
import os
import re
from collections.abc import Container, Mapping
from typing import Protocol

from crewboard.folder.cannot import CannotAppend
from crewboard.folder.toml.values import Value, inline_table, toml_key

# No letter or digit that is taken for another one in print or read aloud: no 0 o, no 1 l i.
_FIRST = "abcdefghjkmnpqrstuvwxyz"
_LATER = _FIRST + "23456789"
ID_LENGTH = 8

_ENTRIES = re.compile(rb"^[ \t]*\[[ \t]*entries[ \t]*\][ \t]*(?:#[^\n]*)?\r?$", re.MULTILINE)
_ANY_HEADER = re.compile(rb"^[ \t]*\[", re.MULTILINE)
_MARK = b"\xef\xbb\xbf"


class Dice(Protocol):
    """What ids are drawn with: `random.Random` will do."""

    def randrange(self, stop: int, /) -> int: ...


class SystemDice:
    """The operating system's randomness, without importing `random`."""

    def randrange(self, stop: int, /) -> int:
        return int.from_bytes(os.urandom(8), "big") % stop


def new_id(dice: Dice, taken: Container[str] = ()) -> str:
    """A new entry id: 8 letters and digits, first a letter.

    23 x 31^7 = 6e11 ids: among 1,000 entries of one day, drawn in clones that know nothing of one
    another, two are alike about once in a million days.
    """
    while True:
        first = _FIRST[dice.randrange(len(_FIRST))]
        drawn = first + "".join(_LATER[dice.randrange(len(_LATER))] for _ in range(ID_LENGTH - 1))
        if drawn not in taken:
            return drawn


def entry_line(entry_id: str, fields: Mapping[str, Value]) -> str:
    """``k7f3q2mh = { at = 2026-05-02T09:10:00, by = "mara" }``: one line, without its line end.

    Raises `CannotSpell` for a value that TOML cannot hold.
    """
    return f"{toml_key(entry_id)} = {inline_table(fields)}"


def new_day(date: dt.date) -> bytes:
    """The text of a day file before its first entry."""
    return f"date = {date.isoformat()}\n\n[entries]\n".encode()


def appended(text: bytes, line: str) -> bytes:
    """The day file's text with the line added as the last of its `[entries]`.

    Line ends (LF or CRLF) and a byte-order mark are kept, a missing last line end is added; a
    line that stands there already is not added again, so trying again after a doubtful write is
    safe. Whether the new text says what was meant is proved by whoever writes it (`edit/keep.py`,
    `disk/conflicts.py`). Raises `CannotAppend` where there is no `[entries]` to add to.
    """
    if "\n" in line or "\r" in line:
        raise CannotAppend("an entry is one line")
    written = line.encode()
    newline = b"\r\n" if _crlf(text) else b"\n"
    start, end = _entries_region(text)
    if written in text and written in map(bytes.strip, text[start:end].split(b"\n")):
        return text
    before = text[:end]
    if not before.endswith(b"\n"):
        before += newline
    return before + written + newline + text[end:]


def _crlf(text: bytes) -> bool:
    first_end = text.find(b"\n")
    return first_end > 0 and text[first_end - 1 : first_end] == b"\r"


def _entries_region(text: bytes) -> tuple[int, int]:
    """Where the entries start, and where the next one goes: behind the last of them."""
    if b'"""' in text or b"'''" in text:  # a line of such a text could look like a header
        return _scanned_region(text)
    headers = list(_ENTRIES.finditer(text.removeprefix(_MARK)))
    if len(headers) != 1:
        return _scanned_region(text)
    start = headers[0].end() + (len(_MARK) if text.startswith(_MARK) else 0)
    if _ANY_HEADER.search(text, start):
        return _scanned_region(text)
    return start, len(text)


def _scanned_region(text: bytes) -> tuple[int, int]:
    """The slow, sure way, for day files that were changed by hand."""
    from crewboard.folder.toml.scan import statements

    try:
        decoded = text.decode("utf-8")
    except UnicodeDecodeError:
        raise CannotAppend("the day file is not UTF-8 text") from None
    every = statements(decoded)
    headers = [s for s in every if s.pair is None and s.keys[-1].path == ("entries",)]
    if not headers:
        raise CannotAppend("the day file has no [entries] that a line can be added to")
    last = headers[-1]  # a merge can leave two of them
    body = [s for s in every if s.section == last.section]
    start, end = last.end, body[-1].end
    if body[-1] is every[-1] and not decoded[end:].strip("\r\n\t "):
        end = len(decoded)
    return len(decoded[:start].encode()), len(decoded[:end].encode())
