"""Reading a day file, with what merging by lines can leave in it.

Where two clones of a folder are merged line by line, a line may come in twice (say, where one
side's last line had no line end), and a line that somebody changed by hand comes in with both
wordings. TOML allows neither. Here the first stands for the line come twice; of two wordings the
first is read and the other is named, so that one clash never hides a whole day.

Lines come twice are left where they are. Taking one out looks harmless, but where two clones each
take out another of the two, a merge takes out both.
"""

from __future__ import annotations

import re
from typing import Any, NamedTuple

from crewboard.folder.toml.decode import BrokenText, parse_text, text_of
from crewboard.folder.toml.plain_day import plain_day

_PAIR = re.compile(r"""[ \t]*([A-Za-z0-9_-]+|"[^"\\]*"|'[^']*')[ \t]*=""")


class Clash(NamedTuple):
    """The same id (or heading) with two wordings, on these lines (from 1); the first is read."""

    key: str
    first_line: int
    line: int


class DayText(NamedTuple):
    """A day file's values; the lines that stood there before (`doubled`), and the clashes."""

    values: dict[str, Any]
    doubled: tuple[int, ...] = ()
    clashes: tuple[Clash, ...] = ()


def parse_day(data: bytes) -> DayText | BrokenText:
    """The values of a day file, or what is wrong with it. Never raises for any bytes."""
    text = text_of(data)
    if isinstance(text, BrokenText):
        return text
    plain = plain_day(text)
    if plain is not None:
        return DayText(plain)
    text = text.removeprefix("\ufeff")
    values = parse_text(text)
    if not isinstance(values, BrokenText):
        return DayText(values)
    return _read_past_doubles(text) or values


def _read_past_doubles(text: str) -> DayText | None:
    if '"""' in text or "'''" in text:  # a line of such a text could look like an entry
        return None
    lines = text.split("\n")
    seen = dict[str, tuple[int, str]]()
    doubled, clashes = list[int](), list[Clash]()
    for number, line in enumerate(lines, 1):
        stripped = line.strip()
        if not stripped or stripped.startswith("#"):
            continue
        key = _key(stripped)
        if key is None:
            return None
        first_line, wording = seen.setdefault(key, (number, stripped))
        if first_line == number:
            continue
        if wording == stripped:
            doubled.append(number)
        else:
            clashes.append(Clash(key, first_line, number))
        lines[number - 1] = ""  # not taken out: the lines keep their numbers
    values = parse_text("\n".join(lines))
    if isinstance(values, BrokenText):
        return None
    return DayText(values, tuple(doubled), tuple(clashes))


def _key(line: str) -> str | None:
    """What the line may give only once in a day file; None where it is no line of such a file."""
    if line.startswith("["):
        return "[entries]" if line.replace(" ", "").startswith("[entries]") else None
    match = _PAIR.match(line)
    return match[1].strip("\"'") if match else None
