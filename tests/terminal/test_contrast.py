"""Every sign on every screen stands out from its ground, in the tints for the dark and the light.

Contrast as WCAG 2.2 reckons it, success criteria 1.4.3 (text, 4.5 : 1) and 1.4.11 (the edges of
fields, 3 : 1); the relative luminance as defined there.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

import pytest
from rich.segment import Segment
from textual.app import App
from textual.color import Color

from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.tones import DAYLIGHT, EVENING
from tests.terminal.shop import Watch, open_app
from tests.terminal.test_pictures import VIEWS

SAMPLE = Path(__file__).parents[2] / "sample_project"
TEXT, EDGE = 4.5, 3.0
# What only draws lines and bars: nobody has to read it.
_DRAWN = set("─│╭╮╰╯━▔▁▂▃▄▅▆▇█▉▊▋▌▍▎▏▕░▼╇┃ ")
_FIELD_EDGES = set("▌▐")

MEASURED: dict[str, tuple[str, ...]] = VIEWS | {
    "sign-in": ("i",),
    "reading": ("r",),
    "note": ("n",),
    "pick-with-filter": ("b", "z"),
    "confirm": ("h", "5", "escape"),
    "vehicle-settings": ("f3", "o", "enter"),
    "new-task": ("f3", "a"),
    "focused-button": ("f3", "o", "enter", "shift+tab", "shift+tab"),
    "talk": ("g",),
    "close": ("x",),
    "your-name": ("y",),
    "find": ("slash",),
    "hour-cell": ("h", "right", "3"),
}


def luminance(colour: Color) -> float:
    """Relative luminance of an sRGB colour (WCAG 2.2)."""
    parts = (part / 255 for part in (colour.r, colour.g, colour.b))
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: Color, other: Color) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_reckoning_is_that_of_the_standard() -> None:
    """Black on white is 21 : 1 by definition; #767676 on white is the well-known 4.54 : 1."""
    assert contrast(Color(0, 0, 0), Color(255, 255, 255)) == pytest.approx(21)
    assert contrast(Color.parse("#767676"), Color(255, 255, 255)) == pytest.approx(4.54, abs=0.01)


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


@pytest.mark.parametrize("view", MEASURED)
async def test_everything_stands_out_from_its_ground(view: str) -> None:
    app = open_app(SAMPLE, Watch(datetime(2026, 5, 2, 9, 0)))
    async with app.run_test(size=(110, 36)) as pilot:
        for key in MEASURED[view]:
            await pilot.press(key)
            await pilot.pause()
        looks = set()
        for theme in (EVENING.name, DAYLIGHT.name):
            app.theme = theme
            await pilot.pause()
            looks.add(str(app.screen._compositor.render_strips()))
            assert list(dict.fromkeys(too_faint(app))) == [], theme
        assert len(looks) == 2


async def test_f10_turns_to_the_tints_for_a_bright_shop_and_the_next_sitting_remembers() -> None:
    app = open_app(SAMPLE, Watch(datetime(2026, 5, 2, 9, 0)))
    async with app.run_test(size=(80, 24)) as pilot:
        assert app.theme == EVENING.name
        await pilot.press("f10")
        assert app.theme == DAYLIGHT.name
    again = open_app(SAMPLE, Watch(datetime(2026, 5, 2, 9, 0)))
    async with again.run_test(size=(80, 24)) as pilot:
        assert again.theme == DAYLIGHT.name
        await pilot.press("f10")
        assert again.theme == EVENING.name
