"""What F1 says of a page: its own words, then its keys."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from textual.screen import Screen

from crewboard.telling.line import GAP, Line, title
from crewboard.terminal.letters import LETTERS
from crewboard.terminal.widgets.edges import key_name

# Keys that every list and page has.
COMMON = (
    ("arrows", "move; PgUp, PgDn, Home and End too"),
    ("Enter", "open what the cursor is on"),
    ("Esc", "back"),
    ("/", "find: type a few letters of a title"),
    ("u, Ctrl+Z", "undo the last thing written in this sitting"),
    ("Ctrl+P", "print: the morning sheet, checks, talk, tags, lists, the day sheet, hours"),
    ("y", "say whose name stands under what is written"),
    ("F10", "tints for a bright shop, or for a dark one"),
    ("m", "read the mistakes found in the folder"),
    ("q, Ctrl+Q", "quit Crewboard; everything is saved already"),
)

# Keys that only some dialogs name at their foot, and all lists to pick from and forms have.
_EVERY_DIALOG = (
    ("Enter", "OK: what stands under the cursor, or what was typed"),
    ("Esc", "cancel: nothing is written"),
)

_TOOLKIT = ("tab", "shift+tab", "ctrl+c", "super+c")


def page_help(page: Screen[None], explains: Iterable[str | Line]) -> Iterator[Line]:
    """The lines of a page's help: what it says of itself, then its keys."""
    for paragraph in explains:
        if isinstance(paragraph, Line):
            yield paragraph
        else:
            yield Line(paragraph)
            yield GAP
    yield title("Keys of this screen")
    explained: set[str] = set()
    for active in page.active_bindings.values():
        binding = active.binding
        told_below = binding.id in ("find", "back") or binding.key in _TOOLKIT
        if active.node is not page or told_below or not binding.description:
            continue
        meaning = binding.tooltip or binding.description
        if meaning not in explained:
            explained.add(meaning)
            yield Line(meaning, "strong", 2, f"{binding.key_display or key_name(binding.key):<9}")
    yield GAP
    yield title("Keys of every screen")
    from crewboard.terminal.screens import PAGES

    for entry in PAGES:
        yield Line(entry.word, "strong", 2, f"{entry.key.upper():<9}")
    for key, meaning in COMMON:
        yield Line(meaning, "strong", 2, f"{key:<9}")
    yield GAP
    yield title("Every letter")
    yield Line("It does the same on every screen, or nothing there.")
    for letter, meant in LETTERS.items():
        yield Line(meant.word, "strong", 2, f"{letter:<9}")


def dialog_help(foot: str, more: Iterable[tuple[str, str]]) -> Iterator[Line]:
    """The keys of a dialog, one a line: those at its foot, each with what is said `more` of it."""
    at_foot = [part.strip() for part in foot.split("   ") if part.strip()]
    keys = {key: meaning for key, meaning in (key_and_word(part) for part in at_foot) if meaning}
    keys = {**dict(_EVERY_DIALOG), **_own_words(keys), **dict(more)}
    for key, meaning in keys.items():
        yield Line(meaning, "strong", 2, f"{key:<12}")


def _own_words(keys: Mapping[str, str]) -> dict[str, str]:
    """Without the words that are the same in every dialog, of which more can be said."""
    return {key: word for key, word in keys.items() if word not in ("OK", "cancel")}


def key_and_word(part: str) -> tuple[str, str]:
    """ "Ctrl+S save" as key and word; keys before a comma stand together: "Tab, arrows next"."""
    words = part.split()
    keys = 1 + next((n for n, word in enumerate(words) if not word.endswith(",")), 0)
    return " ".join(words[:keys]), " ".join(words[keys:])
