"""Every sign on every screen stands out from its ground, in either tints."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest
from textual.color import Color

from crewboard.terminal.tones import DAYLIGHT, EVENING
from tests.terminal.contrast import contrast, stands_out
from tests.terminal.shop import Watch, open_app

SAMPLE = Path(__file__).parents[2] / "sample_project"
# What has no golden picture (`test_pictures.py` measures those too).
MEASURED: dict[str, tuple[str, ...]] = {
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


def test_the_reckoning_is_that_of_the_standard() -> None:
    """Black on white is 21 : 1 by definition; #767676 on white is the well-known 4.54 : 1."""
    assert contrast(Color(0, 0, 0), Color(255, 255, 255)) == pytest.approx(21)
    assert contrast(Color.parse("#767676"), Color(255, 255, 255)) == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("view", MEASURED)
async def test_everything_stands_out_from_its_ground(view: str) -> None:
    app = open_app(SAMPLE, Watch(datetime(2026, 5, 2, 9, 0)))
    async with app.run_test(size=(110, 36)) as pilot:
        for key in MEASURED[view]:
            await pilot.press(key)
            await pilot.pause()
        await stands_out(pilot)


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
