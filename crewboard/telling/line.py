"""A line to read: what it says and what it means. No face's own types: screens colour the tone,
paper and the command line wrap the words."""

from collections.abc import Sequence
from typing import NamedTuple

# What a line means, by the words of safety signs (ISO 3864): "danger" forbids, "warning" and
# "caution" warn, "must" has to be done, "safe" can be done; the others only weigh.
Tone = str
TONES = ("danger", "warning", "caution", "must", "safe", "faint", "strong", "plain")


class Pointer(NamedTuple):
    """A name in a text that leads to another place of the pages on which it stands."""

    name: str
    address: str


class Line(NamedTuple):
    """One paragraph. `word` stands before it in the tone, the rest in plain.

    `indent` cells in; what is wrapped hangs under the text, or `hang` cells further in on paper.
    """

    text: str
    tone: Tone = "plain"
    indent: int = 0
    word: str = ""
    bold: bool = False
    handle: str = ""  # by what a command calls what the line is about; screens do not show it
    hang: int = 0
    ways: tuple[
        Pointer, ...
    ] = ()  # names in it, on pages; nothing else shows that they lead anywhere


def title(text: str, tone: Tone = "strong") -> Line:
    """A line that heads what follows."""
    return Line(text, tone, bold=True)


def step_by_step(steps: Sequence[str]) -> list[Line]:
    """Steps that follow one another, each on a line."""
    return [Line(step, "plain", 2, "then" if number else "") for number, step in enumerate(steps)]


GAP = Line("")
