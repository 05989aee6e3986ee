"""A hold ends at one time on every screen, and is let go or made longer from any row."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

import pytest

from crewboard.logbook.acts import Begun, Finished, Reading
from crewboard.workbench import Said, Workbench
from tests.terminal.shop import SATURDAY, Watch, day_file, make_shop, open_app, reads, until

PAINT = """\
name = "Paint"

[tasks.coat]
title = "Coat the floor"
hours = [1, 2, 3]
hold = { kind = "cure", lasts = "2 days", conditions = { at_least_c = 10 } }

[tasks.tread]
title = "Tread the floor"
after = ["coat"]
hours = [1, 2, 3]
"""


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    return make_shop(tmp_path / "van", components={"paint": PAINT})


def say(shop: Path, *said: Said) -> None:
    outcome = Workbench(shop).record(said, by="ada", now=said[-1].at)
    assert outcome.kept, outcome.refused


async def test_the_finish_dialog_says_that_the_clock_will_stand_still_in_the_cold(
    shop: Path,
) -> None:
    say(shop, Said(Reading(4.0), SATURDAY))
    say(shop, Said(Begun("paint/coat"), SATURDAY))
    app = open_app(shop, Watch(SATURDAY + timedelta(hours=1)))
    cold = "stopped: too cold (4 °C, it wants 10 °C)"
    async with app.run_test(size=(110, 36)) as pilot:
        await pilot.press("f3", "slash", *"Coat", "enter", "f")
        await reads(pilot, "This starts a clock: curing, 2 days, not before", cold)
        await pilot.press("enter")
        await until(pilot, lambda: "finished" in day_file(shop))
        await pilot.press("f4")
        await reads(pilot, cold)
        hold = next(iter(app.board.holds.values()))
        assert hold.end.stopped is not None


@pytest.mark.parametrize("find", ["Tread", "Coat"], ids=["the follower", "the task itself"])
@pytest.mark.parametrize("page", ["f3", "sheet"])
async def test_a_hold_is_let_go_from_the_row_of_what_it_stops(
    shop: Path, find: str, page: str
) -> None:
    say(shop, Said(Begun("paint/coat"), SATURDAY), Said(Finished("paint/coat"), SATURDAY))
    app = open_app(shop, Watch(SATURDAY + timedelta(hours=1)), by="ada")
    async with app.run_test(size=(110, 36)) as pilot:
        await pilot.press("f3", "slash", *find, "enter")
        if page == "sheet":
            await pilot.press("enter")
            await reads(pilot, "Esc back")
        await pilot.press("l")
        await reads(pilot, 'Hold: "Coat the floor')
        await pilot.press("v")
        await reads(pilot, 'Release: "Coat the floor')
        await pilot.press(*"dry", "enter")
        await until(pilot, lambda: 'kind = "released"' in day_file(shop))


async def test_work_still_tacky_after_its_time_is_held_longer_from_its_row(shop: Path) -> None:
    later = datetime(2026, 5, 5, 10)
    say(shop, Said(Reading(18.0), SATURDAY))
    say(shop, Said(Begun("paint/coat"), SATURDAY), Said(Finished("paint/coat"), SATURDAY))
    for hours in (60, 48, 36, 24, 12, 1):  # read so often that nobody has to look
        say(shop, Said(Reading(18.0), later - timedelta(hours=hours)))
    app = open_app(shop, Watch(later), by="ada")
    async with app.run_test(size=(110, 36)) as pilot:
        hold = next(iter(app.board.holds.values()))
        assert hold.stage == "over"
        await pilot.press("f3", "slash", *"Coat", "enter", "l")
        await reads(pilot, 'Hold: "Coat the floor', "e edit: more time")
        await pilot.press("e")
        await reads(pilot, 'Extend: "Coat the floor')
        await pilot.press(*"1", "space", *"day", "enter")
        await reads(pilot, "why it is made longer")
        await pilot.press(*"tacky", "enter")
        await until(pilot, lambda: 'kind = "extended"' in day_file(shop, "2026-05-05"))
        await until(pilot, lambda: app.board["paint/tread"].state == "waiting")
