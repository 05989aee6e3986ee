"""Whether every sign on a screen stands out from its ground, in either tints.

Contrast as WCAG 2.2 reckons it, success criteria 1.4.3 (text, 4.5 : 1) and 1.4.11 (the edges of
fields, 3 : 1); the relative luminance as defined there.
"""

from __future__ import annotations

from collections.abc import Iterator

from rich.segment import Segment
from textual.app import App
from textual.color import Color
from textual.pilot import Pilot

from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.tones import DAYLIGHT, EVENING

TEXT, EDGE = 4.5, 3.0
# What only draws lines and bars: nobody has to read it.
_DRAWN = set("─│╭╮╰╯━▔▁▂▃▄▅▆▇█▉▊▋▌▍▎▏▕░▼╇┃ ")
_FIELD_EDGES = set("▌▐")


async def stands_out(pilot: Pilot[int]) -> None:
    """Fails where something on the screen is too faint, in either tints."""
    app, looks = pilot.app, set()
    for theme in (EVENING.name, DAYLIGHT.name):
        app.theme = theme
        await pilot.pause()
        looks.add(str(app.screen._compositor.render_strips()))
        assert list(dict.fromkeys(too_faint(app))) == [], theme
    assert len(looks) == 2


def luminance(colour: Color) -> float:
    """Relative luminance of an sRGB colour (WCAG 2.2)."""
    parts = (part / 255 for part in (colour.r, colour.g, colour.b))
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: Color, other: Color) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def too_faint(app: App[int]) -> Iterator[str]:
    """Every text and every edge of a field that does not stand out, with its contrast."""
    strips = app.screen._compositor.render_strips()
    if isinstance(app.screen, Dialog):  # the page behind is greyed on purpose
        box = app.screen.query_one("#box").region
        strips = [strip.crop(box.x, box.right) for strip in strips[box.y : box.bottom]]
    for strip in strips:
        for segment in strip:
            signs = {sign for sign in segment.text if not sign.isspace()}
            style = segment.style
            if not signs or signs <= _DRAWN - _FIELD_EDGES or style is None:
                continue
            front, ground = _colours(segment)
            least = EDGE if signs <= _FIELD_EDGES else TEXT
            if (measured := contrast(front, ground)) < least:
                yield f"{measured:.2f} {segment.text.strip()[:30]!r} {front.hex} on {ground.hex}"


def _colours(segment: Segment) -> tuple[Color, Color]:
    style = segment.style
    assert style is not None
    assert style.color is not None, segment
    assert style.bgcolor is not None, segment
    front, ground = Color.from_rich_color(style.color), Color.from_rich_color(style.bgcolor)
    if style.dim:
        front = ground.blend(front, 0.5)
    return (ground, front) if style.reverse else (front, ground)
