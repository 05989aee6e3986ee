"""Holds on the pieces of one series that are due for a look: one row of the work day, let go
together."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from crewboard.logbook.acts import Begun, Finished, SignIn
from crewboard.telling.on_hold import due_together, together_title
from crewboard.telling.work_day import sections
from crewboard.workbench import Said, Workbench
from tests.terminal.shop import CREW, VEHICLE, Watch, asked, day_file, open_app, reads, until

WINDOWS = """\
name = "Windows"
[pieces.lights]
name = "Light"
count = 3
[tasks.glaze]
title = "Glaze the sashes"
each = ["lights"]
hours = [1, 2, 3]
hold = { kind = "dry", lasts = "2 hours", release = "look" }
"""
NINE, THREE = datetime(2026, 5, 2, 9), datetime(2026, 5, 2, 15)
GLAZED = ("windows/glaze/lights/1", "windows/glaze/lights/2")


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """Two of three lights glazed in the morning, and dry at three."""
    root = tmp_path / "van"
    (root / "components").mkdir(parents=True)
    (root / "vehicle.toml").write_text(VEHICLE)
    (root / "crew.toml").write_text(CREW)
    (root / "components/windows.toml").write_text(WINDOWS)
    bench = Workbench(root)
    lines = [Said(SignIn(who), NINE) for who in ("ada", "ben")]
    lines += [Said(Begun(task, ("ada", "ben")), NINE) for task in GLAZED]
    lines += [Said(Finished(task), NINE.replace(minute=30)) for task in GLAZED]
    outcome = bench.record(lines, by="ada", now=NINE.replace(minute=30))
    assert outcome.kept, outcome.refused
    return root


def test_two_lights_due_for_a_look_are_one_row(shop: Path) -> None:
    board = Workbench(shop).board(THREE)
    (together,) = due_together(board)
    assert together_title(board, together) == "Lights 1 and 2: Glaze the sashes"
    (row,) = sections(board).look
    assert row.cells == ("due for a look", "Lights 1 and 2: Glaze the sashes", "since 11:30")
    assert all(hold.id in row.handle for hold in together)  # a command names each
    assert row.below == ("drying since 09:30, due for a look since 11:30",)


async def test_one_look_lets_both_lights_go(shop: Path) -> None:
    app = open_app(shop, Watch(THREE), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Lights 1 and 2: Glaze")
        await pilot.press("enter")
        await reads(pilot, 'Hold: "Lights 1 and 2: Glaze the sashes')
        await pilot.press("v")
        await reads(pilot, "Which?")
        await pilot.press("ctrl+a", "enter")
        await until(pilot, lambda: "Release:" in asked(app))
        await pilot.press("enter")
        await until(pilot, lambda: day_file(shop).count('"released"') == 2)
