"""Hot work on a day that is no work day asks when the shop closes, by command and on the screen."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from crewboard.logbook.acts import SignIn
from crewboard.workbench import Said, Workbench
from tests.command.calling import Shell
from tests.terminal.shop import Watch, day_file, make_shop, open_app, reads, until

SUNDAY = datetime(2026, 5, 3, 10)
WELD = ("weld", "--who", "ada", "ben", "--by", "ada", "--at", "2026-05-03T10:00")


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    root = make_shop(tmp_path / "van")
    here = [Said(SignIn("ada"), SUNDAY), Said(SignIn("ben"), SUNDAY)]
    assert Workbench(root).record(here, by="ada", now=SUNDAY).kept
    return root


def test_the_command_says_how_it_is_answered(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    run = Shell(capsys)
    asked = run("begin", shop, *WELD).err
    assert "nobody has said when the shop closes today, and hot work has a fire watch" in asked
    said = run("open-until", shop, "17:00", "--by", "ada", "--at", "2026-05-03T10:00")
    assert said.code == 0, said.err
    assert "nobody has said when" not in run("begin", shop, *WELD).err
    late = run("open-until", shop, "08:00", "--by", "ada", "--at", "2026-05-03T10:00")
    assert "a time that is still to come" in late.err
    short = run("open-until", shop, "11:30", "--by", "ada", "--at", "2026-05-03T10:00")
    assert short.code == 0
    assert "hot work must end by 10:30" in run("begin", shop, *WELD).err


async def test_the_screen_asks_for_it_once(shop: Path) -> None:
    app = open_app(shop, Watch(SUNDAY), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "2. Weld the bracket")
        await pilot.press("down", "b")
        await reads(pilot, 'Who works on "Weld the bracket')
        await pilot.press("space", "down", "space", "enter")
        await reads(pilot, "Who is the fire watcher")
        await pilot.press("enter")
        await reads(pilot, "Until when is the shop open?")
        await pilot.press(*"17:00", "enter")
        await until(pilot, lambda: "open until" in day_file(shop, "2026-05-03"))
        await reads(pilot, 'Checks: "Weld the bracket')
