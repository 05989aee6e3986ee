"""The tool's own signs in ASCII, for a terminal that lacks them; what people wrote stays."""

import re

from rich.segment import Segment
from textual.color import Color
from textual.filter import LineFilter

# Each by one of the same width; the degree sign goes, see `in_ascii`.
_SIGNS = str.maketrans("…·×−–—█▉▊▋▌▍▎▏", "~-x---###==---")
_APART = re.compile(r"( {2,})")


def in_ascii(text: str) -> str:
    """ "14.1 C, 71 % humidity", as wide as before: what stands in columns keeps its place."""
    if text.isascii():
        return text
    return "".join(map(_without_degrees, _APART.split(text.translate(_SIGNS))))


def _without_degrees(words: str) -> str:
    bare = re.sub(r"°(?=[CF]\b)", "", words)
    return bare + " " * (len(words) - len(bare))


class InAscii(LineFilter):
    """Every line of the screens through `in_ascii`."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:  # noqa: ARG002
        return [segment._replace(text=in_ascii(segment.text)) for segment in segments]
