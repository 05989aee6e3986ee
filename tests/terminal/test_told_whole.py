"""In a narrow window too a person reads the whole of what is told and asked."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.logbook.acts import SignIn
from crewboard.terminal.screens.hours import HoursPage
from crewboard.terminal.widgets.hours_table import HoursTable
from crewboard.workbench import Said, Workbench
from tests.terminal.shop import SATURDAY, make_shop, open_app, reads, seen, until

LOOSE = """\
name = "Side"

[tasks.carry]
title = "Carry the side in"
people = [3, 4]
hazards = ["manual-handling"]

[tasks.oil]
title = "Oil the hinges"
"""


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    root = make_shop(tmp_path / "van", components={"side": LOOSE})
    nine = SATURDAY.replace(hour=9)
    said = [Said(SignIn(who), nine) for who in ("ada", "ben", "dov")]
    assert Workbench(root).record(said, by="ada", now=nine).kept
    return root


async def test_a_notice_longer_than_the_last_line_is_read_to_its_end(shop: Path) -> None:
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Scrape the frame", "2 Day 3 Parts")
        app.tell(f"saved: {'a clock that stands still, ' * 4}and what is to be done now")
        text = await reads(pilot, "saved: a clock", "and what is to be done now")
        assert "2 Day 3 Parts" not in text
        await pilot.resize_terminal(60, 20)
        await reads(pilot, "saved: a clock", "and what is to be done now")
        app.tell("noted")
        await reads(pilot, "noted")
        await until(pilot, lambda: "and what is to be done now" not in seen(app))
        assert "begin finish" in seen(app)  # the line of keys is free again


async def test_too_few_people_are_told_before_the_checks_are_read_and_signed(shop: Path) -> None:
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Scrape the frame")
        await pilot.press("slash", *"carry", "enter", "b")
        await reads(pilot, 'Who works on "Carry the side in"?')
        await pilot.press("space", "down", "space", "enter")
        text = await reads(pilot, "These checks come before the work")
        assert "then it is begun" not in text
        await reads(pilot, 'still asked: "Carry the side in" needs at least 3 people, 2 named')
        await reads(pilot, "sign as Ada Marsh", "Esc cancel")  # and the foot is not pushed out
        await pilot.press("escape")
        await reads(pilot, "not begun: 5 checks still to sign")
        assert "Refused" not in seen(app)


async def test_hours_begin_in_the_column_of_the_task_under_the_cursor(shop: Path) -> None:
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Scrape the frame")
        for title in ("scrape", "oil"):
            await pilot.press("slash", *title, "enter", "b")
            await reads(pilot, "Who works on")
            await pilot.press("space", "enter")
            await reads(pilot, "begun:")
            await pilot.press("escape")
        await pilot.press("slash", *"oil", "enter", "h")
        await until(pilot, lambda: isinstance(app.screen, HoursPage))
        await reads(pilot, "column: Oil the hinges")
        assert app.screen.query_one(HoursTable).cell is not None


async def test_a_digit_jots_down_the_same_where_there_are_no_pieces_yet(shop: Path) -> None:
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Scrape the frame")
        await pilot.press("j")
        await reads(pilot, "2 done to a piece no pieces yet", "3 measured")
        await pilot.press("2")
        await reads(pilot, "no pieces yet: on the vehicle (F3) p adds some")
        await pilot.press("0")
        await reads(pilot, "no pieces yet: on the vehicle (F3) p adds some")
