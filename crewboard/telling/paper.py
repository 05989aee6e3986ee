"""Lines of text at a width, for terminals and text files."""

from __future__ import annotations

from collections.abc import Iterable

from crewboard.legible import legible


class Paper:
    """Lines put down one after the other, wrapped at `width` columns.

    Every text passes `legible` here. A word longer than a line is left whole: paths and ids can be
    copied from it.
    """

    def __init__(self, width: int = 80) -> None:
        self.width = width
        self.lines: list[str] = []

    def line(self, text: str = "", *, indent: int = 0, hang: int = 0) -> None:
        """One paragraph; lines after its first are set in by `hang` more."""
        text = legible(text)
        blanks = " " * indent
        if cells(text) + indent <= self.width:
            self.lines.append((blanks + text).rstrip(" "))
        else:
            self.lines += _wrapped(text, self.width, blanks, blanks + " " * hang)

    def heading(self, text: str) -> None:
        """A heading with an empty line before it."""
        if self.lines:
            self.lines.append("")
        self.line(text)

    def text(self, text: str, *, indent: int = 0) -> None:
        """A text of several paragraphs, such as a task's method."""
        for paragraph in legible(text, lines=True).expandtabs(4).strip("\n").split("\n"):
            self.line(paragraph.rstrip(), indent=indent)

    def items(self, texts: Iterable[str], *, indent: int = 2) -> None:
        """Points, each with a dash."""
        for each in texts:
            self.line(f"- {each}", indent=indent, hang=2)


def cells(text: str) -> int:
    """Columns the text takes on a screen: wide characters take two, combining marks none.

    Source: Unicode Standard Annex 11, East Asian Width.
    """
    if text.isascii():
        return len(text)
    from unicodedata import category, east_asian_width

    return sum(
        0 if category(char) in ("Mn", "Me") else 2 if east_asian_width(char) in ("W", "F") else 1
        for char in text
    )


def padded(text: str, width: int) -> str:
    """The text, filled up with blanks to `width` columns."""
    return text + " " * max(0, width - cells(text))


def _wrapped(text: str, width: int, first: str, later: str) -> list[str]:
    lines: list[str] = []
    line, used, begun = first, len(first), False
    for word in text.split(" "):
        long = cells(word)
        if begun and used + 1 + long > width:
            lines.append(line.rstrip(" "))
            line, used, begun = later, len(later), False
        line += f" {word}" if begun else word
        used += long + (1 if begun else 0)
        begun = True
    lines.append(line.rstrip(" "))
    return lines
