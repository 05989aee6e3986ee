"""What must follow soon, and what must not be left half done, on the screens."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from crewboard.logbook.acts import Begun, Finished, SignIn
from crewboard.workbench import Said, Workbench
from tests.command.a_shop import CREW, VEHICLE
from tests.terminal.shop import Watch, open_app, reads, until

MORNING = datetime(2026, 5, 2, 9, 0)
NOON = datetime(2026, 5, 2, 12, 0)
FRAME = """\
name = "Frame"
[tasks.scrape]
title = "Scrape to bare metal"
hours = [1, 2, 3]
[tasks.prime]
title = "Prime"
after = ["scrape"]
within = { scrape = "4 hours" }
hours = [1, 1, 1]
[tasks.glue]
title = "Glue up the door"
hours = [1, 2, 3]
in_one_go = true
"""


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    root = tmp_path / "wagon"
    (root / "components").mkdir(parents=True)
    (root / "vehicle.toml").write_text(VEHICLE)
    (root / "crew.toml").write_text(CREW)
    (root / "components/frame.toml").write_text(FRAME)
    said = [Said(SignIn("ada"), MORNING), Said(SignIn("tom"), MORNING)]
    said.append(Said(Begun("frame/scrape", ("ada",)), MORNING))
    assert Workbench(root).record(said, by="ada", now=MORNING).kept
    return root


async def test_finishing_says_by_when_the_primer_must_follow(shop: Path) -> None:
    app = open_app(shop, Watch(NOON))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Scrape to bare metal")
        await pilot.press("f")
        await reads(pilot, "Must follow:", '"Prime" by 16:00: 4 hours after this')
        await pilot.press(*"11:30")
        await reads(pilot, '"Prime" by 15:30: 4 hours after this')
        await pilot.press("enter")
        await reads(pilot, "must follow", "by 15:30")


async def test_the_board_says_since_when_it_is_too_late(shop: Path) -> None:
    said = [Said(Finished("frame/scrape"), NOON)]
    assert Workbench(shop).record(said, by="ada", now=NOON).kept
    app = open_app(shop, Watch(NOON.replace(hour=16, minute=5)))
    async with app.run_test(size=(110, 36)) as pilot:
        await reads(pilot, "too late", "since 16:00", "again (reopen it)")


async def test_the_last_one_on_a_glue_up_is_asked_before_they_leave_it(shop: Path) -> None:
    said = [Said(Begun("frame/glue", ("tom",)), NOON)]
    assert Workbench(shop).record(said, by="tom", now=NOON).kept
    app = open_app(shop, Watch(NOON))
    async with app.run_test(size=(110, 36)) as pilot:
        await reads(pilot, "Glue up the door")
        await pilot.press("x")
        await reads(pilot, "must not be left half done:", '"Glue up the door"')
        await pilot.press("enter")
        await reads(pilot, "who answers for it")
        await pilot.press(*"it was only dry", "enter", *"ada", "enter")
        day = shop / "days/2026/2026-05-02.toml"
        await until(pilot, lambda: "day closed" in day.read_text())
    assert "it was only dry" in day.read_text()
