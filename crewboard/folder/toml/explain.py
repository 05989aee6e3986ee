"""What the TOML reader's complaint means in plain words: place, what is wrong, how to mend it."""

from __future__ import annotations

import re

from crewboard.folder.toml.scan import KeyPath, Statement, statements
from crewboard.folder.toml.text import DEEPEST, BrokenText
from crewboard.legible import legible

_QUOTES = 'Text stands in double quotes; a quote inside it is written \\".'
_TWICE = "Keep one of the two, or give one another name."
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
# (how the reader's message starts, what it means, how to mend it)
_MEANINGS = (
    (
        "Invalid statement",
        "the line does not start with a key, a [table] or a # comment",
        "Write key = value; a key with spaces or accents stands in double quotes.",
    ),
    (
        "Expected '=' after",
        "there is no = after the key",
        "Write key = value; a key with spaces stands in double quotes.",
    ),
    (
        "Expected ']]' at the end",
        "the table's name is not closed by ]]",
        "Write [[name]]; a name with spaces or accents stands in double quotes.",
    ),
    (
        "Expected ']' at the end",
        "the table's name is not closed by ]",
        "Write [name]; a name with spaces or accents stands in double quotes.",
    ),
    (
        "Invalid initial character for a key part",
        "a key is expected here",
        "A key has letters A to Z, digits, _ and -; any other stands in double quotes.",
    ),
    (
        "Unclosed array",
        "the list is not closed, or a comma is missing",
        "Put a comma between the items and ] at the end.",
    ),
    (
        "Unclosed inline table",
        "the { is not closed by }, or a comma is missing",
        "Put a comma between the pairs and } at the end.",
    ),
    (
        "Unescaped '\\'",
        "a backslash in double quotes is followed by something it cannot go with",
        "Write \\\\ for one backslash, or put the text in single quotes.",
    ),
    (
        "Invalid hex value",
        "after \\u or \\x there are too few of the digits 0-9, A-F",
        "Write \\u and four such digits, or \\\\ for one backslash.",
    ),
    (
        "Escaped character is not",
        "the number after the backslash stands for no character",
        "Write the character itself.",
    ),
    ("Unterminated string", "the text's closing quotation mark is missing", _QUOTES),
    ('Expected \'"""\'', 'the text\'s closing """ is missing', "Close it with three quotes."),
    ("Expected \"'''\"", "the text's closing ''' is missing", "Close it with three quotes."),
    ('Expected "\'"', "the text's closing single quotation mark is missing", "Close it with '."),
    (
        "Invalid date or datetime",
        "there is no such date or time",
        "Write dates as 2026-05-02 and times as 09:30:00, with a day that the month has.",
    ),
    (
        "Cannot mutate immutable namespace",
        "this adds to a table or list that was already closed above",
        "Put all of it in one place.",
    ),
    (
        "Cannot redefine namespace",
        "this adds to a table that has its own [table] elsewhere",
        "Put all of it under that [table].",
    ),
    ("Duplicate inline table key", "the key stands twice within the { }", _TWICE),
    ("Cannot declare", "the table stands twice", _TWICE),
    ("Cannot overwrite a value", "the key stands twice", _TWICE),
)


_MERGE_MARKS = ("<<<<<<<", "=======", ">>>>>>>", "|||||||")
_MERGED = "Keep the right lines of both, and remove the lines that begin with <<<, === and >>>."
# These are told where the text ends; people look where the thing was opened.
_LEFT_OPEN = ("Unclosed", "Unterminated", 'Expected \'"""\'', "Expected \"'")


def explained(text: str, error: ValueError | RecursionError) -> BrokenText:
    """The reader's error for this text (without byte-order mark) in plain words."""
    if isinstance(error, RecursionError):
        return _too_deep(text)
    message = str(getattr(error, "msg", error))
    if "digits" in message and "limit" in message.lower():
        return _too_long_number(text)
    at = _offset(text, *_place(text, error))
    if message.startswith(("Illegal character", "Found invalid character")):
        return _illegal_character(text, at)
    if message.startswith("Invalid value"):
        return _no_value(text, at)
    if message.startswith("Expected newline"):
        return _behind_the_value(text, at)
    if message.startswith(("Cannot overwrite", "Cannot declare")):
        return _twice(text, at)
    if text.startswith(_MERGE_MARKS, text.rfind("\n", 0, at) + 1):
        return _at_offset(text, at, "a merge of two versions was left unfinished here", _MERGED)
    for start, sentence, hint in _MEANINGS:
        if message.startswith(start):
            shown_at = _left_open if message.startswith(_LEFT_OPEN) else _at_offset
            return shown_at(text, at, sentence, hint)
    return _at_offset(text, at, f"not TOML: {legible(message)}", "Look at this line.")


def _place(text: str, error: ValueError) -> tuple[int, int]:
    line, column = getattr(error, "lineno", None), getattr(error, "colno", None)
    if isinstance(line, int) and isinstance(column, int):
        return line, column
    if position := re.search(r"\(at line (\d+), column (\d+)\)\Z", str(error)):
        return int(position[1]), int(position[2])
    return text.count("\n") + 1, len(text) - text.rfind("\n")


def _offset(text: str, line: int, column: int) -> int:
    start = 0
    for _ in range(line - 1):
        start = text.find("\n", start) + 1
    return start + column - 1


def _at_offset(text: str, offset: int, sentence: str, hint: str) -> BrokenText:
    """The sentence with the offset's line and column."""
    line_start = text.rfind("\n", 0, offset) + 1
    return BrokenText(text.count("\n", 0, offset) + 1, offset - line_start + 1, sentence, hint)


def _illegal_character(text: str, at: int) -> BrokenText:
    """A control character, or a line's end within a text of one line."""
    char = text[at : at + 1]
    if char in ("\n", "") or text[at : at + 2] == "\r\n":
        hint = f'{_QUOTES} Text of several lines stands between """ and """.'
        return _at_offset(text, at, _NO_CLOSING, hint)
    return _at_offset(
        text,
        at,
        f"the control character {legible(char)} (U+{ord(char):04X}) may not stand in a TOML file",
        f"Remove it, or write it as \\u{ord(char):04X} between double quotes.",
    )


def _no_value(text: str, at: int) -> BrokenText:
    """Where a value is expected there is none, or a word without quotes."""
    match = _WORD.match(text, at)
    word = match.group() if match else ""
    if not word:
        return _at_offset(text, at, "the value is missing", _FORMS)
    return _at_offset(text, at, f"{_short(word)} is not a value", _mending(word))


def _behind_the_value(text: str, at: int) -> BrokenText:
    """Something stands behind a value, or the value is only the beginning of a longer word."""
    start = at
    while start > 0 and text[start - 1] not in " \t\r\n,[]{}=\"'":
        start -= 1
    match = re.compile(r"[^\s\[\]{}#=]*").match(text, start)
    word = match.group() if match else ""
    if start < at < start + len(word) and word[:1] in "+-.0123456789":
        return _at_offset(text, start, f"{_short(word)} is not a value", _mending(word))
    rest = text[at : at + _LONGEST].splitlines()
    what = f"behind the value stands {_short(rest[0])}" if rest else "something is behind the value"
    return _at_offset(
        text,
        at,
        f"{what}, which does not belong to it",
        f"Start a new line after the value. {_QUOTES}",
    )


def _twice(text: str, at: int) -> BrokenText:
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
            return _at_offset(text, start, sentence, _TWICE)
        for key in statement.keys:
            before.setdefault(key.path, statement)
    return _at_offset(text, at, "the same name stands twice, as a key or as a table", _TWICE)


def _left_open(text: str, at: int, sentence: str, hint: str) -> BrokenText:
    """Something opened and not closed: told where it was opened, not where the file ends."""
    before = [statement for statement in statements(text) if statement.end <= at]
    start = before[-1].end if before else 0
    while (skipped := _NO_STATEMENT.match(text, start)) is not None:
        start = skipped.end()
    if not text[at:].strip():
        return _at_offset(text, start, sentence, hint)
    first, here = text.count("\n", 0, start) + 1, text.count("\n", 0, at) + 1
    opened = f"; it begins on line {first}" if first < here else ""
    return _at_offset(text, at, sentence + opened, hint)


def _too_deep(text: str) -> BrokenText:
    """Brackets or dotted keys beyond the depth that the reader follows."""
    hint = "Look whether brackets or dots were doubled; 20 levels are more than enough."
    depth = 0
    for bracket in _BRACKETS.finditer(text):
        depth += 1 if bracket.group() in "[{" else -1 if bracket.group() in "]}" else 0
        if depth >= DEEPEST:
            return _at_offset(text, bracket.start(), "the brackets are nested too deeply", hint)
    dots = re.search(rf"(?:[^\n.]*+\.){{{DEEPEST - 1}}}", text)
    return _at_offset(text, dots.start() if dots else 0, "the key has too many parts", hint)


def _too_long_number(text: str) -> BrokenText:
    """A number of thousands of digits."""
    digits = re.search(r"[0-9_]{1000,}", text)
    at = digits.start() if digits else 0
    return _at_offset(text, at, "the number is too long", "Write a shorter one.")


def _mending(word: str) -> str:
    for looks, hint in _LOOKS_LIKE:
        if re.match(looks, word):
            return hint
    return f"{_QUOTES} {_FORMS}"


def _short(words: str) -> str:
    shown = legible(words)
    return shown if len(shown) <= _LONGEST else shown[: _LONGEST - 1] + "…"
