"""What the TOML reader's complaint means in plain words: place, what is wrong, how to mend it."""

from __future__ import annotations

import re

from crewboard.folder.text.decode import BrokenText
from crewboard.folder.text.scan import Statement, statements
from crewboard.legible import legible

_QUOTES = 'Text stands in double quotes; a quote inside it is written \\".'
_TWICE = "Keep one of the two, or give one another name."
# (how the reader's message starts, what it means, how to mend it)
_MEANINGS = (
    (
        "Invalid statement",
        "the line does not start with a key, a [table] or a # comment",
        "Write key = value; a key with spaces or accents stands in double quotes.",
    ),
    (
        "Expected newline",
        "after the value there is something that does not belong to it",
        f"Start a new line after the value. {_QUOTES}",
    ),
    ("Expected '=' after", "there is no = after the key", "Write key = value."),
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


def explained(text: str, error: ValueError | RecursionError) -> BrokenText:
    """The reader's error for this text (without byte-order mark) in plain words."""
    if isinstance(error, RecursionError):
        return _too_deep(text)
    message = str(getattr(error, "msg", error))
    if "digits" in message and "limit" in message.lower():
        return _too_long_number(text)
    line, column = _place(text, error)
    if message.startswith(("Illegal character", "Found invalid character")):
        return _illegal_character(text, line, column)
    if message.startswith("Invalid value"):
        return _no_value(text, line, column)
    if message.startswith(("Cannot overwrite", "Cannot declare")):
        return _twice(text, line, column)
    for start, sentence, hint in _MEANINGS:
        if message.startswith(start):
            return BrokenText(line, column, sentence, hint)
    return BrokenText(line, column, f"not TOML: {legible(message)}", "Look at this line.")


def _place(text: str, error: ValueError) -> tuple[int, int]:
    line, column = getattr(error, "lineno", None), getattr(error, "colno", None)
    if isinstance(line, int) and isinstance(column, int):
        return line, column
    if found := re.search(r"\(at line (\d+), column (\d+)\)\Z", str(error)):
        return int(found[1]), int(found[2])
    return text.count("\n") + 1, len(text) - text.rfind("\n")


def _offset(text: str, line: int, column: int) -> int:
    at = 0
    for _ in range(line - 1):
        at = text.find("\n", at) + 1
    return at + column - 1


def _char(text: str, line: int, column: int) -> str:
    at = _offset(text, line, column)
    return text[at : at + 1]


def _illegal_character(text: str, line: int, column: int) -> BrokenText:
    char = _char(text, line, column)
    if char in ("\n", "\r\n", ""):
        return BrokenText(
            line,
            column,
            "the text's closing quotation mark is missing on this line",
            f'{_QUOTES} Text of several lines stands between """ and """.',
        )
    if char == "\r" and text[_offset(text, line, column) + 1 :][:1] == "\n":
        return BrokenText(
            line, column, "the text's closing quotation mark is missing on this line", _QUOTES
        )
    return BrokenText(
        line,
        column,
        f"the control character {legible(char)} (U+{ord(char):04X}) may not stand in a TOML file",
        f"Take it out, or write it as \\u{ord(char):04X} between double quotes.",
    )


_FORMS = 'Values are "text", 3, 2.5, true, false, 2026-05-02, 09:30:00, [ ] or { }.'


def _no_value(text: str, line: int, column: int) -> BrokenText:
    found = re.compile(r"[^\s,\]}#]*").match(text, _offset(text, line, column))
    word = found.group() if found else ""
    if not word:
        return BrokenText(line, column, "the value is missing", _FORMS)
    if len(word) > 40:
        word = word[:40] + "…"
    return BrokenText(line, column, f"{legible(word)} is not a value", f"{_QUOTES} {_FORMS}")


def _twice(text: str, line: int, column: int) -> BrokenText:
    """The reader points behind the second one; people look for both by their keys."""
    at = _offset(text, line, column)
    before = dict[tuple[str | int, ...], Statement]()
    for statement in statements(text):
        path = statement.keys[-1].path
        if statement.start <= at <= statement.end and path in before:
            first = text.count("\n", 0, before[path].keys[0].start) + 1
            start = statement.keys[0].start
            name = legible(text[start : statement.keys[-1].end])
            what = "key" if statement.pair else "table"
            return BrokenText(
                text.count("\n", 0, start) + 1,
                start - text.rfind("\n", 0, start),
                f"the {what} {name} stands twice: it is already on line {first}",
                _TWICE,
            )
        for key in statement.keys:
            before.setdefault(key.path, statement)
    return BrokenText(line, column, "the same name stands twice, as a key or as a table", _TWICE)


_BRACKETS = re.compile(r""""(?:[^"\\\n]|\\.)*+"|'[^'\n]*+'|#[^\n]*+|[\[\]{}]""")


def _too_deep(text: str) -> BrokenText:
    hint = "Look whether brackets or dots were doubled; 20 levels are more than enough."
    depth = 0
    for found in _BRACKETS.finditer(text):
        depth += 1 if found.group() in "[{" else -1 if found.group() in "]}" else 0
        if depth > 100:
            return _at(text, found.start(), "the brackets are nested too deeply", hint)
    dots = re.search(r"(?:[^\n.]*+\.){500}", text)
    return _at(text, dots.start() if dots else 0, "the key has too many parts", hint)


def _too_long_number(text: str) -> BrokenText:
    found = re.search(r"[0-9_]{1000,}", text)
    return _at(
        text, found.start() if found else 0, "the number is too long", "Write a shorter one."
    )


def _at(text: str, offset: int, sentence: str, hint: str) -> BrokenText:
    line_start = text.rfind("\n", 0, offset) + 1
    return BrokenText(text.count("\n", 0, offset) + 1, offset - line_start + 1, sentence, hint)
