"""Text fitted to a number of terminal cells: wide characters count as two."""

from __future__ import annotations

from rich.cells import cell_len, chop_cells, set_cell_size

from crewboard.legible import legible
from crewboard.telling.drawn import track
from crewboard.telling.row import percent

__all__ = ["bar", "cell_len", "fitted", "gauge", "shortened", "shown", "whole_facts", "wrapped"]


def shown(text: str) -> str:
    """A text from a file as one safe line."""
    return legible(text)


def shortened(text: str, width: int, *, plain: bool = False) -> str:
    """At most `width` cells; what is cut off is marked."""
    if width <= 0:
        return ""
    if cell_len(text) <= width:
        return text
    mark = "~" if plain else "…"
    return set_cell_size(text, width - 1).rstrip() + mark


def whole_facts(text: str, width: int, *, plain: bool = False) -> str:
    """At most `width` cells of a text whose parts stand between commas and colons, cut off at one
    of them where that leaves most of it: "Arches: 7, ash…", not "Arches: 7, ash, 2 missin…"."""
    cut = shortened(text, width, plain=plain)
    end = max(cut.rfind(", "), cut.rfind(": "))
    if cut == text or cell_len(cut[: max(0, end)]) * 2 < width:
        return cut
    return cut[:end] + cut[-1]


def fitted(text: str, width: int, *, right: bool = False, plain: bool = False) -> str:
    """Exactly `width` cells: cut or filled with blanks."""
    cut = shortened(text, width, plain=plain)
    blanks = " " * max(0, width - cell_len(cut))
    return blanks + cut if right else cut + blanks


def wrapped(text: str, width: int, hang: int = 0) -> list[str]:
    """The text in lines of at most `width` cells; lines after the first are `hang` cells in."""
    width = max(1, width)
    hang = min(hang, width // 2)
    lines: list[str] = []
    for paragraph in text.split("\n"):
        words = paragraph.lstrip(" ")
        line, room = " " * min(len(paragraph) - len(words), width // 2), width
        for word in words.split(" "):
            joined = f"{line} {word}" if line.strip() else line + word
            if cell_len(joined) <= room:
                line = joined
                continue
            if line.strip():
                lines.append(line)
            indent = " " * hang if lines or line else ""
            pieces = chop_cells(word, max(1, width - len(indent)))
            *whole, word = pieces or [""]
            lines += [indent + piece for piece in whole]
            line, room = indent + word, width
        lines.append(line)
    return lines


def bar(share: float | None, width: int = 10, *, plain: bool = False) -> str:
    """ "━━━━━━────  60 %", or "[######----]  60 %" for ASCII; blank where there is no clock."""
    if share is None:
        return ""
    drawn = track(share, width, plain=plain)
    return f"[{drawn}] {percent(share):3} %" if plain else f"{drawn} {percent(share):3} %"


def gauge(share: float | None, width: int, *, plain: bool = False) -> str:
    """The same, blank where there is no clock or no room."""
    return "" if share is None or width <= 0 else track(share, width, plain=plain)
