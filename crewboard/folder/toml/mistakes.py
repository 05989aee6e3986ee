"""Mistakes in a TOML text that need a look at the text to be told well."""

from __future__ import annotations

import re

from crewboard.folder.toml.decode import DEEPEST, BrokenText
from crewboard.folder.toml.scan import KeyPath, Statement, statements
from crewboard.legible import legible

QUOTES = 'Text stands in double quotes; a quote inside it is written \\".'
TWICE = "Keep one of the two, or give one another name."
_FORMS = 'Values are "text", 3, 2.5, true, false, 2026-05-02, 09:30:00, [ ] or { }.'
_NO_CLOSING = "the text's closing quotation mark is missing on this line"
_LONGEST = 40  # characters of the file's own words in a sentence

_WORD = re.compile(r"[^\s,\[\]{}#=]*")
_NO_STATEMENT = re.compile(r"[ \t\r]*(?:#[^\n]*)?\n")
_BRACKETS = re.compile(r""""(?:[^"\\\n]|\\.)*+"|'[^'\n]*+'|#[^\n]*+|[\[\]{}]""")
# (how the word looks, how to mend it)
_LOOKS_LIKE = (
    (r"\d+,\d", "A decimal point is a point: 3.5."),
    (r"\d+:\d", "Times are written 09:30:00, with two digits each."),
    (r"\d{1,2}\.\d{1,2}\.\d{2,4}|\d+/\d+/\d+|\d{1,4}-\d+", "Dates are written 2026-05-02."),
    (r"[+-]?0\d", "Numbers have no leading noughts."),
    (r"[+-]?(\.\d|\d+\.(\D|\Z))", "Write digits on both sides of the point: 0.5."),
    (r"(?i)(true|false|yes|no|on|off)\Z", "Write true or false, in small letters."),
    (r"(?i)[+-]?\d", "Numbers are written 3, -3 or 2.5, without a unit."),
)


def at_offset(text: str, offset: int, sentence: str, hint: str) -> BrokenText:
    """The sentence with the offset's line and column."""
    line_start = text.rfind("\n", 0, offset) + 1
    return BrokenText(text.count("\n", 0, offset) + 1, offset - line_start + 1, sentence, hint)


def illegal_character(text: str, at: int) -> BrokenText:
    """A control character, or a line's end within a text of one line."""
    char = text[at : at + 1]
    if char in ("\n", "") or text[at : at + 2] == "\r\n":
        hint = f'{QUOTES} Text of several lines stands between """ and """.'
        return at_offset(text, at, _NO_CLOSING, hint)
    return at_offset(
        text,
        at,
        f"the control character {legible(char)} (U+{ord(char):04X}) may not stand in a TOML file",
        f"Take it out, or write it as \\u{ord(char):04X} between double quotes.",
    )


def no_value(text: str, at: int) -> BrokenText:
    """Where a value is expected there is none, or a word without quotes."""
    found = _WORD.match(text, at)
    word = found.group() if found else ""
    if not word:
        return at_offset(text, at, "the value is missing", _FORMS)
    return at_offset(text, at, f"{_short(word)} is not a value", _mending(word))


def behind_the_value(text: str, at: int) -> BrokenText:
    """Something stands behind a value, or the value is only the beginning of a longer word."""
    start = at
    while start > 0 and text[start - 1] not in " \t\r\n,[]{}=\"'":
        start -= 1
    found = re.compile(r"[^\s\[\]{}#=]*").match(text, start)
    word = found.group() if found else ""
    if start < at < start + len(word) and word[:1] in "+-.0123456789":
        return at_offset(text, start, f"{_short(word)} is not a value", _mending(word))
    rest = text[at : at + _LONGEST].splitlines()
    what = f"behind the value stands {_short(rest[0])}" if rest else "something is behind the value"
    return at_offset(
        text,
        at,
        f"{what}, which does not belong to it",
        f"Start a new line after the value. {QUOTES}",
    )


def twice(text: str, at: int) -> BrokenText:
    """The same key or table twice: the reader points behind the second, people look for both."""
    before = dict[KeyPath, Statement]()
    for statement in statements(text):
        path = statement.keys[-1].path
        if isinstance(path[-1], int) and path[:-1] in before:
            path = path[:-1]  # a [table] and a [[table]] of one name
        if statement.start <= at <= statement.end and path in before:
            first = text.count("\n", 0, before[path].keys[0].start) + 1
            start = statement.keys[0].start
            name = _short(text[start : statement.keys[-1].end])
            what = "key" if statement.pair else "table"
            sentence = f"the {what} {name} stands twice: it is already on line {first}"
            return at_offset(text, start, sentence, TWICE)
        for key in statement.keys:
            before.setdefault(key.path, statement)
    return at_offset(text, at, "the same name stands twice, as a key or as a table", TWICE)


def left_open(text: str, at: int, sentence: str, hint: str) -> BrokenText:
    """Something opened and not closed: told where it was opened, not where the file ends."""
    found = [statement for statement in statements(text) if statement.end <= at]
    start = found[-1].end if found else 0
    while (skipped := _NO_STATEMENT.match(text, start)) is not None:
        start = skipped.end()
    if not text[at:].strip():
        return at_offset(text, start, sentence, hint)
    first, here = text.count("\n", 0, start) + 1, text.count("\n", 0, at) + 1
    opened = f"; it begins on line {first}" if first < here else ""
    return at_offset(text, at, sentence + opened, hint)


def too_deep(text: str) -> BrokenText:
    """Brackets or dotted keys beyond the depth that the reader follows."""
    hint = "Look whether brackets or dots were doubled; 20 levels are more than enough."
    depth = 0
    for found in _BRACKETS.finditer(text):
        depth += 1 if found.group() in "[{" else -1 if found.group() in "]}" else 0
        if depth >= DEEPEST:
            return at_offset(text, found.start(), "the brackets are nested too deeply", hint)
    dots = re.search(rf"(?:[^\n.]*+\.){{{DEEPEST - 1}}}", text)
    return at_offset(text, dots.start() if dots else 0, "the key has too many parts", hint)


def too_long_number(text: str) -> BrokenText:
    """A number of thousands of digits."""
    found = re.search(r"[0-9_]{1000,}", text)
    at = found.start() if found else 0
    return at_offset(text, at, "the number is too long", "Write a shorter one.")


def _mending(word: str) -> str:
    for looks, hint in _LOOKS_LIKE:
        if re.match(looks, word):
            return hint
    return f"{QUOTES} {_FORMS}"


def _short(words: str) -> str:
    shown = legible(words)
    return shown if len(shown) <= _LONGEST else shown[: _LONGEST - 1] + "…"
