"""Closing a day from the screens: today, and a past day that was forgotten."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from crewboard.logbook.acts import Act, HoursWorked, SignIn
from crewboard.workbench import Said, Workbench
from tests.command.calling import Shell
from tests.terminal.shop import SATURDAY, Watch, make_shop, open_app, reads, seen, until

NEXT = datetime(2026, 6, 6, 9)  # the work day after SATURDAY


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """Ada and Ben came on the first Saturday of May, and nobody wrote that they went."""
    root = make_shop(tmp_path / "van")
    acts: list[Act] = [SignIn("ada"), SignIn("ben"), HoursWorked("ada", 2, "frame/scrape")]
    said = [Said(act, SATURDAY) for act in acts]
    assert Workbench(root).record(said, by="", now=SATURDAY).kept
    return root


def day_file(shop: Path) -> str:
    return (shop / "days/2026/2026-05-02.toml").read_text()


async def test_a_day_that_was_left_open_stands_over_the_next_and_is_closed_by_its_key(
    shop: Path,
) -> None:
    app = open_app(shop, Watch(NEXT))
    async with app.run_test(size=(110, 30)) as pilot:
        screen = await reads(pilot, "LEFT OPEN", "Sat 2 May 2026 was never closed")
        assert "never signed out: Ada Marsh" in screen.splitlines()[1]
        await pilot.press("x")
        await reads(pilot, "Close which day?", "Sat 2 May 2026")
        await pilot.press("enter")
        await reads(pilot, "Close Sat 2 May 2026", "In the way (6)")
        await pilot.press("enter")
        await reads(pilot, "who answers for it")
        await pilot.press(*"they had gone", "enter", *"ada", "enter")
        await until(pilot, lambda: "day closed" in day_file(shop))
        await reads(pilot, "hours: Ada Marsh 2 h", "no hours yet: Ben Holt", "Next: Sat 6 Jun 2026")
        await pilot.press("escape")
        await until(pilot, lambda: "LEFT OPEN" not in seen(app))
    text = day_file(shop)
    assert text.count("sign-out") == 2
    assert "at = 2026-05-02T16:00:00" in text, "as of when the shop closed"
    assert "written = 2026-06-06T09:00:00" in text, "and when that was put down"


async def test_all_that_is_to_be_said_before_closing_stands_there_at_once(shop: Path) -> None:
    app = open_app(shop, Watch(SATURDAY))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("x")
        text = await reads(pilot, "Close the day", "In the way (6)", "not signed: tools counted")
        for said in ("everyone out or", "no hours yet: Ben Holt", "still here:", "paper:"):
            assert said in text, said
        for key in ("i in/out", "c check", "o other", "Enter close with a reason", "Esc cancel"):
            assert key in text, key


async def test_the_checks_of_a_day_that_was_left_open_are_signed_for_that_day(shop: Path) -> None:
    app = open_app(shop, Watch(NEXT))
    async with app.run_test(size=(110, 40)) as pilot:
        await reads(pilot, "LEFT OPEN")
        await pilot.press("x", "enter")
        await reads(pilot, "Close Sat 2 May 2026")
        await pilot.press("c")
        await reads(pilot, "Checks after the work", "tools")
        await pilot.press("s")
        await reads(pilot, "Who signs")
        await pilot.press("enter")
        await until(pilot, lambda: 'check = "tools"' in day_file(shop))
    assert not (shop / "days/2026/2026-06-06.toml").exists()


async def test_the_screen_says_the_same_of_a_day_left_open_as_the_command(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    app = open_app(shop, Watch(NEXT))
    async with app.run_test(size=(300, 30)) as pilot:
        line = (await reads(pilot, "LEFT OPEN")).splitlines()[1]
    sentence = line.partition("x closes it")[2].strip()
    assert sentence.endswith(".")
    printed = " ".join(Shell(capsys)("day", shop, "--at", f"{NEXT:%Y-%m-%dT%H:%M}").out.split())
    assert f"LEFT OPEN: {sentence}" in printed
