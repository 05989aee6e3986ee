"""How a value, a string and a key are spelled in TOML (https://toml.io/en/v1.0.0)."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping, Sequence
from typing import TypeAlias

from crewboard.folder.cannot import CannotSpell

Scalar: TypeAlias = "str | bool | int | float | dt.datetime | dt.date | dt.time"
Value: TypeAlias = "Scalar | Sequence[Value] | Mapping[str, Value]"

_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+\Z")
_SHORT_ESCAPES = {"\b": "\\b", "\t": "\\t", "\n": "\\n", "\f": "\\f", "\r": "\\r"}
_SHORT_ESCAPES |= {'"': '\\"', "\\": "\\\\"}
# Control characters must be escaped; direction-changing, zero-width and line-separating ones are
# escaped too, so that a line of the file looks in every editor like what it is.
_ESCAPED_CATEGORIES = frozenset(("Cc", "Cf", "Zl", "Zp"))
_SPELLING_JOINERS = frozenset((0x200C, 0x200D))  # several scripts spell ordinary words with them


def toml_value(value: Value) -> str:
    """The value on one line. Seconds are always written. Raises `CannotSpell`."""
    if isinstance(value, str):
        return toml_string(value)
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return _integer(value)
    if isinstance(value, float):
        return repr(float(value))
    if isinstance(value, (dt.datetime, dt.date, dt.time)):
        return _moment(value)
    if isinstance(value, Mapping):
        return inline_table(value)
    if isinstance(value, Sequence) and not isinstance(value, (bytes, bytearray)):
        return "[" + ", ".join(map(toml_value, value)) + "]"
    raise CannotSpell(f"a value of the kind {type(value).__name__} cannot be written in TOML")


def inline_table(fields: Mapping[str, Value]) -> str:
    """``{ by = "mara", hours = 3.5 }`` on one line. Raises `CannotSpell`."""
    if not fields:
        return "{}"
    return "{ " + ", ".join(f"{toml_key(k)} = {toml_value(v)}" for k, v in fields.items()) + " }"


def toml_string(text: str) -> str:
    """The text as a basic string on one line. Raises `CannotSpell` for a lone surrogate."""
    if text.isprintable() and '"' not in text and "\\" not in text:
        return f'"{text}"'
    return f'"{text.translate(_ON_ONE_LINE)}"'


def toml_lines(text: str, newline: str) -> str:
    """The text as a multi-line basic string whose lines end as the file's lines do.

    Blanks at a line's end are escaped, since editors like to strip them.
    """
    body = text.translate(_ON_LINES).replace('"""', '""\\"')
    if body.endswith('"'):
        body = body[:-1] + '\\"'
    body = re.sub("[ \t](?=\n|\\Z)", lambda blank: _escape(ord(blank.group())), body)
    return f'"""{newline}{body.replace(chr(10), newline)}"""'


def literal_string(text: str) -> str | None:
    """The text between single quotes, or None where that cannot hold it."""
    if "'" in text or text.translate(_ON_LINES).replace("\\\\", "\\") != text or "\n" in text:
        return None
    return f"'{text}'"


def toml_key(key: str) -> str:
    """The key, bare where TOML allows it. Raises `CannotSpell` for a lone surrogate."""
    return key if _BARE_KEY.match(key) else toml_string(key)


class _Spellings(dict[int, str]):
    """How each character is written between double quotes, worked out when it is first met."""

    def __missing__(self, code: int) -> str:
        from unicodedata import category

        if 0xD800 <= code <= 0xDFFF:
            raise CannotSpell(f"the text has half a character (U+{code:04X}) that no file can hold")
        steers = category(chr(code)) in _ESCAPED_CATEGORIES and code not in _SPELLING_JOINERS
        spelling = self[code] = _escape(code) if steers or code in (0x22, 0x5C) else chr(code)
        return spelling


_ON_ONE_LINE = _Spellings()
_ON_LINES = _Spellings({0x09: "\t", 0x0A: "\n", 0x22: '"'})


def _escape(code: int) -> str:
    short = _SHORT_ESCAPES.get(chr(code))
    return short or (f"\\u{code:04X}" if code <= 0xFFFF else f"\\U{code:08X}")


def _integer(number: int) -> str:
    if not -(2**63) <= number < 2**63:
        raise CannotSpell("the number is too large: whole numbers reach to 9223372036854775807")
    return str(int(number))


def _moment(moment: dt.datetime | dt.date | dt.time) -> str:
    if isinstance(moment, dt.time) and moment.tzinfo is not None:
        raise CannotSpell("a time of day with a time zone but no date cannot be written in TOML")
    offset = moment.utcoffset() if isinstance(moment, dt.datetime) else None
    if offset is not None and offset % dt.timedelta(minutes=1):
        raise CannotSpell("the moment's time zone is not a whole number of minutes from UTC")
    return moment.isoformat()
