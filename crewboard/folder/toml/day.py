"""Reading a day file, with what merging by lines can leave in it.

Where two clones of a folder are merged line by line, a line may come in twice (say, where one
side's last line had no line end), and a line that somebody changed by hand comes in with both
wordings. TOML allows neither. Here the first stands for the line come twice; of two wordings the
first is read and the other is named, so that one clash never hides a whole day.

Lines come twice are left where they are. Taking one out looks harmless, but where two clones each
take out another of the two, a merge takes out both.
"""

import re
from datetime import date, datetime
from typing import Any, NamedTuple

from crewboard.folder.toml.decode import parse_text
from crewboard.folder.toml.text import BrokenText, text_of

# Compiled when they are first used: a plain day needs neither.
_PAIR = r"""[ \t]*([A-Za-z0-9_-]+|"[^"\\]*"|'[^']*')[ \t]*="""
_PLAIN_LINE = r"([a-z0-9]+) = \{ (.*) \}\n|(?:#[^\x00-\x08\x0a-\x1f\x7f]*)?\n"


# Of everything that TOML allows only what `append` writes: a date, `[entries]`, one line an entry
# with plain values, comments and empty lines.
_PLAIN_TEXT = r'"[^"\\\x00-\x1f\x7f]*"'
_MOMENT = r"\d{4}-\d\d-\d\d(?:T\d\d:\d\d:\d\d)?"
_NUMBER = r"(?:0|[1-9]\d{0,6})(?:\.\d{1,6})?"
_VALUE = rf"{_PLAIN_TEXT}|{_MOMENT}|{_NUMBER}|true|false|\[(?:{_PLAIN_TEXT}(?:, {_PLAIN_TEXT})*)?\]"
_PLAIN_PAIR = re.compile(rf"([a-z_]+) = ({_VALUE})", re.ASCII)
PLAIN_HEAD = re.compile(r"date = (\d{4}-\d\d-\d\d)\n\n\[entries\]\n", re.ASCII)
DATED_LINE = re.compile(
    r"([a-z0-9]+) = \{ at = (\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d), (.*) \}", re.ASCII
)
PLAIN_REMARK = re.compile(r"(?:#[^\x00-\x08\x0a-\x1f\x7f]*)?")
_TEXTS = re.compile(_PLAIN_TEXT)


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


def plain_day(text: str) -> dict[str, Any] | None:
    """The values of a day file as this program writes it, at twice the speed of a TOML reader.

    None where anything else or a mistake is in it: then only a TOML reader can tell.
    """
    head = PLAIN_HEAD.match(text)
    if head is None:
        return None
    entries: dict[str, dict[str, Any]] = {}
    at, end, lines = head.end(), len(text), 0
    plain_line = re.compile(_PLAIN_LINE, re.ASCII)
    try:
        values = {"date": date.fromisoformat(head[1]), "entries": entries}
        while at < end:
            line = plain_line.match(text, at)
            if line is None:
                return None
            at = line.end()
            if line[1]:
                fields = plain_fields(line[2])
                if fields is None:
                    return None
                entries[line[1]] = fields
                lines += 1
    except ValueError:  # the 30th of February
        return None
    return values if len(entries) == lines else None


def plain_fields(written: str) -> dict[str, Any] | None:
    """The keys and plain values of an entry's line, None where anything else is in it.

    Raises ValueError for a date that there is not.
    """
    pairs = _PLAIN_PAIR.findall(written)
    if ", ".join([f"{key} = {value}" for key, value in pairs]) != written:
        return None
    fields = {key: _plain_value(value) for key, value in pairs}
    return fields if len(fields) == len(pairs) else None


def _plain_value(written: str) -> Any:
    first = written[0]
    if first == '"':
        return written[1:-1]
    if first == "[":
        return [quoted[1:-1] for quoted in _TEXTS.findall(written)]
    if first in "tf":
        return written == "true"
    if "T" in written:
        return datetime.fromisoformat(written)
    if "-" in written:
        return date.fromisoformat(written)
    return float(written) if "." in written else int(written)


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
    match = re.match(_PAIR, line)
    return match[1].strip("\"'") if match else None
