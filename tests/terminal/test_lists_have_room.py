"""Lists in a narrow and in a wide window: names whole, columns in line, nothing said twice."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from crewboard.terminal.screens.day_plan import DayPlanPage
from tests.terminal.shop import Watch, open_app, reads, until

SAMPLE = Path(__file__).parents[2] / "sample_project"
MORNING = datetime(2026, 5, 2, 9)


async def test_lists_at_80_columns_have_their_names_whole() -> None:
    app = open_app(SAMPLE, Watch(MORNING))
    async with app.run_test(size=(80, 24)) as pilot:
        day = await reads(pilot, "On hold (10)")
        assert "Rear crate doors " in day
        assert "Arches 7 and 8" in day  # of one series, on one day: one row
        await pilot.press("end", "enter")
        waiting = await reads(pilot, "Waiting for")
        heads = [line for line in waiting.splitlines() if "Waiting for" in line]
        assert all(")" in line.partition("│")[0] for line in heads)  # their counts are never cut
        await pilot.press("f4")
        holds = await reads(pilot, "Steam and bend: Arches 3 and 4", "On hold (10)")
        assert "Glue up the moulding for the right side" in holds
        assert "Coat the frame with chassis black" in holds
        await pilot.press("f6")
        logbook = await reads(pilot, "Sat 2 May 2026  2 people")  # not who was only asked to come
        assert "expected until 15:00" in " ".join(logbook.split())
        await pilot.press("f2", "c")
        await reads(pilot, "ways out and alarm in order")


async def test_lists_at_110_columns_have_their_columns_in_line(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(DayPlanPage, "effort", 0.0)
    app = open_app(SAMPLE, Watch(MORNING))
    async with app.run_test(size=(110, 36)) as pilot:
        await pilot.press("f5")
        crew = await reads(pilot, "2026-04", "Here (2)")
        bars = [line.index("█") for line in crew.splitlines() if "█" in line]
        assert len(bars) > 2
        assert len(set(bars)) == 1
        assert all("h  █" in line for line in crew.splitlines() if "█" in line)
        assert "Leila Brockmar (under 18)" in crew
        await pilot.press("f9")
        await until(pilot, lambda: not getattr(app.screen, "planning", True))
        await reads(pilot, "Plan for Sat 2 May 2026, 09:00 to 16:30: ")
        app.open_task("body-frame/plumb-and-brace")
        sheet = await reads(pilot, "Why")
        assert sheet.count("Plumb the frame and brace it") == 1
        assert sheet.count("Let new pieces into the cant rails") == 1
