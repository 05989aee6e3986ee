"""What the TOML reader's complaint means in plain words: place, what is wrong, how to mend it."""

from __future__ import annotations

import re

from crewboard.folder.toml.decode import BrokenText
from crewboard.folder.toml.mistakes import (
    QUOTES,
    TWICE,
    at_offset,
    behind_the_value,
    illegal_character,
    left_open,
    no_value,
    too_deep,
    too_long_number,
    twice,
)
from crewboard.legible import legible

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
    ("Unterminated string", "the text's closing quotation mark is missing", QUOTES),
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
    ("Duplicate inline table key", "the key stands twice within the { }", TWICE),
    ("Cannot declare", "the table stands twice", TWICE),
    ("Cannot overwrite a value", "the key stands twice", TWICE),
)


_MERGE_MARKS = ("<<<<<<<", "=======", ">>>>>>>", "|||||||")
_MERGED = "Keep the right lines of both, and take out the lines that begin with <<<, === and >>>."
# These are told where the text ends; people look where the thing was opened.
_LEFT_OPEN = ("Unclosed", "Unterminated", 'Expected \'"""\'', "Expected \"'")


def explained(text: str, error: ValueError | RecursionError) -> BrokenText:
    """The reader's error for this text (without byte-order mark) in plain words."""
    if isinstance(error, RecursionError):
        return too_deep(text)
    message = str(getattr(error, "msg", error))
    if "digits" in message and "limit" in message.lower():
        return too_long_number(text)
    at = _offset(text, *_place(text, error))
    if message.startswith(("Illegal character", "Found invalid character")):
        return illegal_character(text, at)
    if message.startswith("Invalid value"):
        return no_value(text, at)
    if message.startswith("Expected newline"):
        return behind_the_value(text, at)
    if message.startswith(("Cannot overwrite", "Cannot declare")):
        return twice(text, at)
    if text.startswith(_MERGE_MARKS, text.rfind("\n", 0, at) + 1):
        return at_offset(text, at, "a merge of two versions was left unfinished here", _MERGED)
    for start, sentence, hint in _MEANINGS:
        if message.startswith(start):
            told = left_open if message.startswith(_LEFT_OPEN) else at_offset
            return told(text, at, sentence, hint)
    return at_offset(text, at, f"not TOML: {legible(message)}", "Look at this line.")


def _place(text: str, error: ValueError) -> tuple[int, int]:
    line, column = getattr(error, "lineno", None), getattr(error, "colno", None)
    if isinstance(line, int) and isinstance(column, int):
        return line, column
    if found := re.search(r"\(at line (\d+), column (\d+)\)\Z", str(error)):
        return int(found[1]), int(found[2])
    return text.count("\n") + 1, len(text) - text.rfind("\n")


def _offset(text: str, line: int, column: int) -> int:
    start = 0
    for _ in range(line - 1):
        start = text.find("\n", start) + 1
    return start + column - 1
