"""A screen as a grid of words and, beneath it, a grid of tones: what a golden picture holds."""

from __future__ import annotations

from collections.abc import Iterator

from rich.segment import Segment
from rich.style import Style
from textual.app import App

from crewboard.terminal.tones import EVENING

SIGNS = {
    "danger": "d",
    "warning": "w",
    "caution": "c",
    "must": "m",
    "safe": "s",
    "faint": "f",
    "strong": "S",
    "plain": "p",
}
KEY, STRUCK, OTHER = "k", "x", "-"
LEGEND = (
    "tones: "
    + ", ".join(f"{sign} {tone}" for tone, sign in SIGNS.items())
    + f", {KEY} a key, {STRUCK} struck out, {OTHER} the toolkit's own"
)
# The toolkit draws the ends of a scroll bar with these; they differ from version to version.
_BAR_ENDS = dict.fromkeys(map(ord, "▁▂▃▄▅▆▇▉▊▋▌▍▎▏▔▕"), " ")
_TONE_OF = {
    colour.lower(): SIGNS[tone] for tone in SIGNS for colour in [EVENING.variables[f"tone-{tone}"]]
}


def drawn(app: App[int]) -> str:
    """The screen's text, then the tone of every cell that is not blank."""
    lines = [list(strip) for strip in app.screen._compositor.render_strips()]
    words = ("".join(segment.text for segment in line).translate(_BAR_ENDS) for line in lines)
    tones = ("".join(_tones(line)) for line in lines)
    return "\n".join([*map(str.rstrip, words), LEGEND, *map(str.rstrip, tones), ""])


def _tones(line: list[Segment]) -> Iterator[str]:
    for segment in line:
        sign = _sign(segment.style or Style())
        yield "".join(" " if cell.isspace() else sign for cell in segment.text.translate(_BAR_ENDS))


def _sign(style: Style) -> str:
    if style.strike:
        return STRUCK
    if style.underline:
        return KEY
    colour = style.color
    return _TONE_OF.get(colour.get_truecolor().hex.lower(), OTHER) if colour else OTHER
