"""What each letter does: one deed wherever it is bound, on pages and in dialogs. Where that deed
does not fit, the letter is not bound; what is done less often stands behind `o`."""

from __future__ import annotations

from typing import NamedTuple


class Letter(NamedTuple):
    """The deed of a letter: the name of its action, and the word that says it."""

    deed: str
    word: str


LETTERS: dict[str, Letter] = {
    "a": Letter("add", "add"),
    "b": Letter("begin", "begin"),
    "c": Letter("checks", "check"),
    "d": Letter("days", "work days to come"),
    "e": Letter("edit", "edit"),
    "f": Letter("finish", "finish"),
    "g": Letter("talk", "safety talk and bench card"),
    "h": Letter("hours", "hours"),
    "i": Letter("in_or_out", "in or out"),
    "j": Letter("jot", "jot down for the record"),
    "k": Letter("table", "table of tasks"),
    "l": Letter("look", "look at a hold"),
    "m": Letter("mistakes", "mistakes"),
    "n": Letter("note", "note"),
    "o": Letter("other", "other"),
    "p": Letter("pieces", "pieces"),
    "q": Letter("quit", "leave"),
    "r": Letter("reading", "shop reading"),
    "s": Letter("sign", "sign a check"),
    "t": Letter("then", "what comes next"),
    "u": Letter("undo", "undo"),
    "v": Letter("release", "release a hold"),
    "w": Letter("why", "why"),
    "x": Letter("close_day", "close the day"),
    "y": Letter("your_name", "your name"),
    "z": Letter("pictures", "pictures"),
}

AT_ONCE = {
    "found": "Shift+F5",
    "done": "Shift+F6",
    "measured": "Shift+F7",
    "picture": "Shift+F8",
}
"""The keys of what is jotted down most, by the word of its kind: what `j` asks for is said by them.
The F-keys alone are those of the pages, and Shift+F3 is none: for it terminals send what they
answer when they are asked where the cursor is."""

COMES_OF_IT = {
    "task": "Ctrl+F5",
    "hold": "Ctrl+F6",
    "keep": "Ctrl+F7",
    "order": "Ctrl+F8",
}
"""The keys of what comes of a finding, for which Enter asks otherwise."""
