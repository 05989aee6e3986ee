"""Golden pictures: every page on the sample as words and tones, so that a change of look is meant;
and that all of it stands out from its ground.

    CREWBOARD_DRAW=1 .venv/bin/python -m pytest tests/terminal/test_pictures.py

draws them anew in `tests/terminal/pictures/`; `git diff` then shows what changed.
"""

from __future__ import annotations

import os
from datetime import datetime
from difflib import unified_diff
from pathlib import Path

import pytest
from textual.pilot import Pilot

from crewboard.terminal.screens.day_plan import DayPlanPage
from crewboard.terminal.screens.forecast import ForecastPage
from tests.terminal.contrast import stands_out
from tests.terminal.drawing import drawn
from tests.terminal.shop import Watch, open_app, until

SAMPLE = Path(__file__).parents[2] / "sample_project"
PICTURES = Path(__file__).with_name("pictures")
SHOWN_AT = datetime(2026, 5, 2, 9, 0)
SIZES = [(80, 24), (110, 36)]
DRAW = bool(os.environ.get("CREWBOARD_DRAW"))
AGAIN = "the screen looks otherwise than its picture; where that is meant: CREWBOARD_DRAW=1"

# What is shown, and the keys that lead there from the opened screens.
VIEWS: dict[str, tuple[str, ...]] = {
    "work-day": (),
    "work-day-last-row": ("end", "enter", "end"),
    "look-at-hold": ("enter",),
    "task-sheet": ("slash", *"plumb", "enter", "enter"),
    "finish": ("slash", *"plumb", "enter", "f", "enter"),
    "why": ("end", "enter", "end", "w"),
    "checks": ("c",),
    "hours": ("h",),
    "help": ("f1",),
    "vehicle": ("f3",),
    "component-form": ("f3", "down", "enter", "e"),
    "task-form": ("f3", "slash", *"plumb", "enter", "e"),
    "holds": ("f4",),
    "hold": ("f4", "enter"),
    "crew": ("f5",),
    "person": ("f5", "enter"),
    "logbook": ("f6",),
    "supplies": ("f7",),
    "sorting": ("z",),
    "forecast": ("f8",),
    "day-plan": ("f9",),
    "fabric": ("0",),
    "findings": ("0", "tab"),
    "jot": ("j", "enter"),
    "jot-found": ("0", "j", "1"),
    "reckon": ("slash", *"plumb", "enter", "enter", "equals_sign"),
    "reckon-boards": ("3", "slash", *"choose", "enter", "equals_sign", "1"),
    "reckoned-boards": (
        *("3", "slash", *"choose", "enter", "equals_sign", "1", *"2034", "tab"),
        *(*"9x152", "comma", *"9x104", "comma", *"9x88", "enter", "right"),
    ),
    "jot-spliced": ("0", "j", "2", "3"),
}


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("view", VIEWS)
async def test_a_screen_looks_as_in_its_picture(view: str, size: tuple[int, int]) -> None:
    app = open_app(SAMPLE, Watch(SHOWN_AT))
    async with app.run_test(size=size) as pilot:
        for key in VIEWS[view]:
            await pilot.press(key)
            await pilot.pause()
        picture = await _at_rest(pilot)
        if size == SIZES[-1]:
            await stands_out(pilot)
    path = PICTURES / f"{view}-{size[0]}x{size[1]}.txt"
    if DRAW:
        path.write_text(picture, encoding="utf-8")
    kept = path.read_text(encoding="utf-8") if path.exists() else ""
    different = list(unified_diff(kept.splitlines(), picture.splitlines(), path.name, "now", n=1))
    assert not different, "\n".join([AGAIN, *different])


async def _at_rest(pilot: Pilot[int]) -> str:
    """What is drawn once nothing is being worked out and nothing changes any more."""
    app = pilot.app
    await until(pilot, lambda: not _busy(app.screen), 60)
    picture, times = "", 0
    while times < 3:
        await pilot.pause(0.03)
        latest = drawn(app)
        times = times + 1 if latest == picture else 0
        picture = latest
    return picture


def _busy(screen: object) -> bool:
    if isinstance(screen, ForecastPage):
        return bool(screen.playing) or screen.forecast is None
    return isinstance(screen, DayPlanPage) and screen.planning
