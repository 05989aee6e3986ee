"""A hold is put on one piece at the bench: that piece is left alone, the others go on."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.workbench import Workbench
from tests.terminal.shop import SATURDAY, Watch, asked, day_file, make_shop, open_app, reads, until

GATE = """\
name = "Gate"
[pieces.rails]
name = "Rail"
count = 3
[tasks.shape]
title = "Shape"
each = ["rails"]
"""


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    return make_shop(tmp_path / "van", components={"gate": GATE})


async def test_a_clamp_is_put_on_one_rail_and_the_others_go_on(shop: Path) -> None:
    app = open_app(shop, Watch(SATURDAY), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f4", "a")
        await reads(pilot, "Start a hold")
        await pilot.press("enter")
        await reads(pilot, "all of it")
        await pilot.press(*"rail", "space", "2", "enter", "tab", "enter")
        await reads(pilot, "in clamps")
        await pilot.press(*"clamp", "enter", "ctrl+s")
        await until(pilot, lambda: not asked(app))
        await reads(pilot, "on hold  Rail 2", "in clamps since")
        await pilot.press("f2")
        await reads(pilot, "LEAVE ALONE (1)", "Rail 2 until released")
    assert 'hold = "clamp", piece = "gate/rails/2" }' in day_file(shop)
    board = Workbench(shop).board(SATURDAY)
    states = [board[f"gate/shape/rails/{number}"].state for number in (1, 2, 3)]
    assert states == ["ready", "on hold", "ready"]
