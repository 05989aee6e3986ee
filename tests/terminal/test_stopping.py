"""Stopping work for the day on the screens: from the other menu, and when the day is closed."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from crewboard.logbook.acts import Act, Begun, SignIn
from crewboard.workbench import Said, Workbench
from tests.terminal.shop import (
    SATURDAY,
    Watch,
    asked,
    day_file,
    make_shop,
    open_app,
    reads,
    seen,
    until,
)

EVENING = datetime(2026, 5, 2, 15, 30)


@pytest.fixture
def van(tmp_path: Path) -> Path:
    root = make_shop(tmp_path / "van")
    acts: list[Act] = [SignIn("ada"), SignIn("ben"), Begun("frame/scrape", ("ada", "ben"))]
    said = [Said(act, SATURDAY) for act in acts]
    assert Workbench(root).record(said, by="", now=SATURDAY).kept
    return root


async def test_a_task_is_stopped_for_today_from_the_other_menu(van: Path) -> None:
    app = open_app(van, Watch(EVENING), by="ada")
    async with app.run_test(size=(100, 30)) as pilot:
        await reads(pilot, "Scrape the frame")
        await pilot.press("o")
        await reads(pilot, "stop for today", "it goes on another day")
        await pilot.press("enter")
        await reads(pilot, 'Stop for today: "Scrape the frame')
        await pilot.press(*"sill", "enter")
        await until(pilot, lambda: 'kind = "stopped"' in day_file(van))
        await until(pilot, lambda: "goes on another day" in seen(app))
        await until(pilot, lambda: "under way  " not in seen(app))


async def test_closing_the_day_offers_that_work_goes_on_another_day(van: Path) -> None:
    app = open_app(van, Watch(EVENING), by="ada")
    async with app.run_test(size=(100, 30)) as pilot:
        await reads(pilot, "Scrape the frame")
        await pilot.press("x")
        await reads(pilot, "Close the day", "o says what goes on another day")
        await pilot.press("o", "enter")
        await reads(pilot, "What goes on another day?", "[x]")
        await pilot.press("enter")
        await until(pilot, lambda: 'kind = "stopped"' in day_file(van))
        await reads(pilot, "Close the day")
        assert "under way:" not in asked(app)
