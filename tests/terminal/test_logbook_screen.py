"""The logbook on the screen: by day, person, task; corrected and taken back with new lines."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest
from textual.pilot import Pilot

from crewboard.logbook.acts import Expected, Finished, HoursWorked, Noted, SignIn
from crewboard.workbench import Said, Workbench
from tests.terminal.shop import SATURDAY, asked, day_file, make_shop, open_app, reads, seen, until

SIZES = [(80, 24), (120, 40)]


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    shop = make_shop(tmp_path / "van")
    bench = Workbench(shop)
    march = datetime(2026, 3, 7, 15)
    said = [
        Said(HoursWorked("ben", 4, "frame/scrape"), march),
        Said(Finished("frame/scrape", crew=("ben",), began=march), march),
    ]
    assert bench.record(said, by="ben", now=march).kept
    morning = SATURDAY.replace(hour=9)
    said = [
        Said(SignIn("ada"), morning),
        Said(HoursWorked("ada", 2.5, "frame/weld", "[b]bold[/b]"), SATURDAY),
        Said(Noted("rust behind the bracket", "frame/weld"), SATURDAY),
    ]
    assert bench.record(said, by="ada", now=SATURDAY).kept
    return shop


async def typed(pilot: Pilot[int], text: str) -> None:
    await pilot.press(*("space" if letter == " " else letter for letter in text))


def struck(shop_app: object) -> str:
    """The text that is struck through on the screen."""
    lines = shop_app.screen._compositor.render_strips()  # type: ignore[attr-defined]
    return " ".join(
        segment.text.strip()
        for line in lines
        for segment in line
        if segment.style and segment.style.strike
    )


@pytest.mark.parametrize("size", SIZES)
async def test_the_days_are_listed_with_people_and_hours_newest_first(
    shop: Path, size: tuple[int, int]
) -> None:
    app = open_app(shop)
    async with app.run_test(size=size) as pilot:
        await pilot.press("f6")
        text = await reads(pilot, "Sat 2 May 2026", "Sat 7 Mar 2026", "Ada Marsh signed in")
        assert text.index("Sat 2 May 2026  1 person") < text.index("Sat 7 Mar 2026  1 person")
        assert 'Ada Marsh worked 2.5 h on "Weld the bracket"' in " ".join(text.split())
        assert "[b]bold[/b]" in text
        await pilot.press("down")
        await reads(pilot, 'Ben Holt worked 4 h on "Scrape the frame"')


@pytest.mark.parametrize("size", SIZES)
async def test_a_line_is_corrected_by_a_new_one_and_both_stay_readable(
    shop: Path, size: tuple[int, int]
) -> None:
    before = day_file(shop)
    app = open_app(shop, by="ada")
    async with app.run_test(size=size) as pilot:
        await pilot.press("f6", "enter", "down", "e")
        await reads(pilot, "Correct the entry")
        await pilot.press("tab", "tab", "ctrl+u", "3", "ctrl+s")
        await until(pilot, lambda: not asked(app))
        await reads(pilot, "CORRECTED by Ada Marsh")
        assert "worked 2.5 h" in struck(app)
        assert "worked 3 h" in seen(app)
        assert "worked 3 h" not in struck(app)
    assert day_file(shop).startswith(before)
    assert Workbench(shop).board(SATURDAY)["frame/weld"].hours == 3


async def test_a_line_taken_back_says_why_and_undo_brings_it_back(shop: Path) -> None:
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f6", "enter", "down", "delete")
        await reads(pilot, "Take the entry back")
        await typed(pilot, "wrong day")
        await pilot.press("enter")
        await reads(pilot, "TAKEN BACK by Ada Marsh: wrong day")
        assert "worked 2.5 h" in struck(app)
        await pilot.press("delete")
        await reads(pilot, "does not count any more")
        await pilot.press("u")
        await until(pilot, lambda: "worked 2.5 h" not in struck(app))
    assert Workbench(shop).board(SATURDAY)["frame/weld"].hours == 2.5


async def test_the_same_lines_by_person_and_by_task(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("f6", "right")
        text = await reads(pilot, "By person")
        assert "Ada Marsh" in text
        assert "2.5 h" in text
        await pilot.press("down")
        await reads(pilot, 'Ben Holt worked 4 h on "Scrape the frame"')
        await pilot.press("right")
        await reads(pilot, "By task", "Scrape the frame")
        await pilot.press("down")
        text = await reads(pilot, "rust behind the bracket")
        assert "Ada Marsh signed in" not in text


async def test_enter_shows_a_line_field_by_field_with_its_file(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f6", "enter", "down", "enter")
        await reads(pilot, "An entry of the logbook", "kind: hours", "days/2026/2026-05-02.toml")


async def test_a_line_written_elsewhere_shows_within_two_seconds(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f6")
        await reads(pilot, "Ada Marsh signed in")
        other = Workbench(shop)
        assert other.record([Said(SignIn("ben"), SATURDAY)], by="ben", now=SATURDAY).kept
        await until(pilot, lambda: "Ben Holt signed in" in seen(app), 2.0)


async def test_a_line_of_another_day_has_its_date_and_no_name_stands_twice(shop: Path) -> None:
    evening = SATURDAY.replace(month=4, day=30, hour=19)
    coming = Said(Expected("ada"), evening, "", SATURDAY.date())
    assert Workbench(shop).record([coming], by="ada", now=evening).kept
    app = open_app(shop)
    async with app.run_test(size=(110, 36)) as pilot:
        await pilot.press("f6")
        screen = await reads(pilot, "30 Apr 19:00 Ada Marsh expected")
        line = next(line for line in screen.splitlines() if "30 Apr 19:00" in line)
        assert line.count("Ada Marsh") == 1
