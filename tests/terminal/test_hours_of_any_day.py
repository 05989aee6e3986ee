"""Hours of guests, on pieces and other work, and of days that are past, on the screens."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from crewboard.logbook.acts import (
    Act,
    ClosedDay,
    GuestCame,
    GuestHours,
    GuestLeft,
    HoursWorked,
    SignIn,
    SignOut,
)
from crewboard.terminal.screens.hours import HoursPage
from crewboard.workbench import Said, Workbench
from tests.terminal.shop import SATURDAY, Watch, day_file, make_shop, open_app, reads, until

AFTERNOON = SATURDAY.replace(hour=15)
THURSDAY = datetime(2026, 5, 7, 20, 0)
PANES = 'name = "Windows"\n[pieces.panes]\nname = "Pane"\ncount = 2\n'


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """Ada and a guest here since nine; the crew names kinds of other work."""
    root = make_shop(tmp_path / "van", components={"windows": PANES})
    vehicle = root / "vehicle.toml"
    kinds = 'other_work = ["driving", "meetings"]\n'
    vehicle.write_text(vehicle.read_text().replace("\n[work_days]", f"{kinds}\n[work_days]", 1))
    nine = SATURDAY.replace(hour=9)
    said = [Said(SignIn("ada"), nine), Said(GuestCame("Ines Bratt"), nine)]
    assert Workbench(root).record(said, by="", now=nine).kept
    return root


async def test_a_guests_hours_are_typed_into_the_same_table(shop: Path) -> None:
    app = open_app(shop, Watch(AFTERNOON))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1 here")
        await pilot.press("h")
        await reads(pilot, "Nothing to write hours on yet")
        await pilot.press("a")
        await reads(pilot, "Add a column for what?")
        await pilot.press(*"driving", "enter")
        await reads(pilot, "column: driving, other work", "Ines Bratt (guest)")
        await pilot.press("down", "2", "enter")
        await reads(pilot, "1 to save: Ctrl+S saves")
        await pilot.press("ctrl+s")
        await reads(pilot, "hours saved: 1 entry")
    assert 'kind = "guest hours", name = "Ines Bratt", hours = 2' in day_file(shop)
    assert 'other = "driving"' in day_file(shop)


async def test_a_piece_and_a_component_have_columns_too(shop: Path) -> None:
    app = open_app(shop, Watch(AFTERNOON))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1 here")
        await pilot.press("h")
        await reads(pilot, "Nothing to write hours on yet")
        await pilot.press("a")
        await reads(pilot, "Add a column for what?")
        await pilot.press(*"pane", "space", *"2", "enter")
        await reads(pilot, "column: Pane 2, Windows")
        await pilot.press("3", "tab", "a")
        await reads(pilot, "Add a column for what?")
        await pilot.press(*"roof", "space", *"no", "enter")
        await reads(pilot, "column: Roof")
        await pilot.press("1", "ctrl+s")
        await reads(pilot, "hours saved: 2 entries")
    assert 'piece = "windows/panes/2"' in day_file(shop)
    assert 'component = "roof"' in day_file(shop)


async def test_a_column_stays_in_its_place_when_its_hours_are_saved(shop: Path) -> None:
    app = open_app(shop, Watch(AFTERNOON))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1 here")
        await pilot.press("h")
        await reads(pilot, "Nothing to write hours on yet")
        for word in ("scrape", "prime"):
            await pilot.press("a")
            await reads(pilot, "Add a column for what?")
            await pilot.press(*word, "enter")
        await reads(pilot, "column: Prime the frame")
        page = app.screen
        assert isinstance(page, HoursPage)
        before = list(page.table.columns)
        await pilot.press("1", "ctrl+s")
        await reads(pilot, "hours saved: 1 entry")
        await pilot.press("h")
        await until(pilot, lambda: isinstance(app.screen, HoursPage))
        await reads(pilot, "Prime the")
        assert isinstance(app.screen, HoursPage)
        assert [on for on in before if on in app.screen.table.columns] == app.screen.table.columns


async def test_h_asks_which_day_where_one_is_open_behind_today(shop: Path) -> None:
    app = open_app(shop, Watch(THURSDAY))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "0 here")
        await pilot.press("h")
        await reads(pilot, "Hours of which day?", "Sat 2 May 2026", "never signed out: Ada Marsh")
        await pilot.press("enter")
        await reads(pilot, "Sat 2 May 2026: nothing new to save", "Nothing to write hours on")
        await pilot.press("a")
        await reads(pilot, "Add a column for what?")
        await pilot.press(*"scrape", "enter")
        await reads(pilot, "column: Scrape the frame, Frame")
        await pilot.press("4", "ctrl+s")
        await reads(pilot, "hours saved: 1 entry")
    line = day_file(shop).splitlines()[-1]
    assert "at = 2026-05-02T16:00:00" in line
    assert "written = 2026-05-07T20:00:00" in line
    assert day_file(shop, "2026-05-07") == ""


async def test_d_turns_to_any_past_day_and_asks_about_what_is_not_saved(shop: Path) -> None:
    went = SATURDAY.replace(hour=16)
    left: list[Act] = [SignOut("ada"), GuestLeft("Ines Bratt"), ClosedDay("late")]
    closed = [Said(act, went) for act in left]
    outcome = Workbench(shop).record(closed, by="ada", now=went)
    assert outcome.kept, outcome.refused
    app = open_app(shop, Watch(THURSDAY))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "0 here")
        await pilot.press("h")
        await reads(pilot, "Thu 7 May 2026: nothing new to save")  # no day is open behind today
        await pilot.press("a")
        await reads(pilot, "Add a column for what?")
        await pilot.press(*"meetings", "enter")
        await reads(pilot, "column: meetings")
        await pilot.press("2", "h")
        await reads(pilot, "Hours of which day?", "Sat 2 May 2026")
        await pilot.press("down", "enter")
        await reads(pilot, "1 typed and not saved")
        await pilot.press("escape")
        await reads(pilot, "Thu 7 May 2026: 1 to save")
        await pilot.press("ctrl+s")
        await reads(pilot, "hours saved: 1 entry")
        await pilot.press("h", "h")
        await reads(pilot, "Hours of which day?")
        await pilot.press(*"another", "enter")
        await reads(pilot, "its date")
        await pilot.press(*"2026-05-20", "enter")
        await reads(pilot, "still to come")
        await pilot.press(*["backspace"] * 10, *"2026-04-18", "enter")
        await reads(pilot, "Sat 18 Apr 2026: nothing new to save")
    assert 'other = "meetings"' in day_file(shop, "2026-05-07")


async def test_a_guests_hours_can_be_corrected_in_the_table(shop: Path) -> None:
    worked = Said(GuestHours("ines bratt", 2.0, "frame/scrape"), AFTERNOON)
    assert Workbench(shop).record([worked], by="", now=AFTERNOON).kept
    app = open_app(shop, Watch(AFTERNOON))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1 here")
        await pilot.press("h")
        await reads(pilot, "Ines Bratt (guest)")
        await pilot.press("down", "3", "ctrl+s")
        await reads(pilot, "hours saved: 1 entry")
    assert "replaces = " in day_file(shop)
    assert day_file(shop).count('kind = "guest hours"') == 2


async def test_hours_on_another_vehicle_are_seen_and_asked_about_before_they_are_kept(
    shop: Path,
) -> None:
    bus = make_shop(shop.parent / "bus")
    (bus / "vehicle.toml").write_text('name = "The Plank Bus"\n')
    there = [Said(HoursWorked("ada", 6.0, "frame/scrape"), AFTERNOON)]
    assert Workbench(bus).record(there, by="", now=AFTERNOON).kept
    vehicle = shop / "vehicle.toml"
    shares = 'shares_crew_with = ["../bus"]\n'
    vehicle.write_text(vehicle.read_text().replace("\n[work_days]", f"{shares}\n[work_days]", 1))
    app = open_app(shop, Watch(AFTERNOON), by="ben")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1 here")
        await pilot.press("h", "a")
        await reads(pilot, "Add a column for what?")
        await pilot.press(*"scrape", "enter")
        await reads(pilot, "column: Scrape the frame")
        await pilot.press("5", "enter")
        await reads(pilot, "Ada Marsh has 6 h on The Plank Bus that day")
        await pilot.press("ctrl+s")
        await reads(pilot, "with 5 h here that is 11 h in")
        assert "hours = 5" not in day_file(shop)
        await pilot.press(*"sewed", "enter")
        await until(pilot, lambda: "hours = 5" in day_file(shop))
    assert 'despite = "sewed"' in day_file(shop)
