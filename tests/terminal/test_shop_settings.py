"""The shop's jigs, the room of its places and other kinds of work, on the vehicle's settings."""

from __future__ import annotations

from pathlib import Path

from textual.pilot import Pilot

from crewboard.terminal.forms.form import Form
from crewboard.workbench import Workbench
from tests.terminal.shop import asked, make_shop, open_app, reads, until
from tests.terminal.test_pieces_on_the_vehicle import field, typed


async def settings(pilot: Pilot[int]) -> None:
    await pilot.press("f3")
    await reads(pilot, "Frame", "Roof")
    await pilot.press("home", "o", *"settings", "enter")
    await until(pilot, lambda: isinstance(pilot.app.screen, Form))


async def test_a_place_has_room_other_work_has_names_and_another_vehicle_its_folder(
    tmp_path: Path,
) -> None:
    shop = make_shop(tmp_path / "van")
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await settings(pilot)
        await field(pilot, ("shop", "room"))
        await pilot.press("enter")
        await until(pilot, lambda: "yard" in asked(app))
        await pilot.press("enter")
        await typed(pilot, "2")
        await pilot.press("enter")
        await until(pilot, lambda: "yard: 2" in asked(app))
        await field(pilot, "other_work")
        await typed(pilot, "driving, raising money")
        await field(pilot, "shares_crew_with")
        await typed(pilot, "../bus")
        await pilot.press("ctrl+s")
        await reads(pilot, "saved in vehicle.toml")
    vehicle = Workbench(shop).plan.vehicle
    assert vehicle.shop.room == {"yard": 2}
    assert vehicle.other_work == ("driving", "raising money")
    assert vehicle.shares_crew_with == ("../bus",)


async def test_a_jig_is_added_edited_and_taken_out(tmp_path: Path) -> None:
    shop = make_shop(tmp_path / "van")
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await settings(pilot)
        await field(pilot, "jigs")
        await pilot.press("enter")
        await until(pilot, lambda: "another jig" in asked(app))
        await pilot.press("enter")
        await until(pilot, lambda: "A new jig" in asked(app))
        await typed(pilot, "Bending form")
        await pilot.press("tab")
        await typed(pilot, "2")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: "Bending form" in asked(app) and "another" not in asked(app))
        assert Workbench(shop).plan.vehicle.jigs["bending-form"].number == 2
        await pilot.press("enter")
        await until(pilot, lambda: "another jig" in asked(app))
        await pilot.press("enter")
        await until(pilot, lambda: "from the plan" in asked(app))
        await pilot.press("down", "enter")
        await until(pilot, lambda: "removed from vehicle.toml" in asked(app))
        await pilot.press("enter")
        await until(pilot, lambda: not Workbench(shop).plan.vehicle.jigs)


async def test_the_times_of_its_life_and_the_finish_agreed_on(tmp_path: Path) -> None:
    shop = make_shop(tmp_path / "van")
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await settings(pilot)
        await field(pilot, "~periods")
        await typed(pilot, "first body, 1912 to 1931; second body, about 1931")
        await pilot.press("ctrl+s")
        await reads(pilot, "saved in vehicle.toml")
        await pilot.press("o", *"settings", "enter")
        await until(pilot, lambda: isinstance(app.screen, Form))
        await field(pilot, "shows")
        await pilot.press("enter")
        await until(pilot, lambda: "second body" in asked(app))
        await pilot.press("down", "enter")
        await field(pilot, "standard")
        await typed(pilot, "as it ran")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: Workbench(shop).plan.vehicle.standard == "as it ran")
    vehicle = Workbench(shop).plan.vehicle
    times = [(one.name, one.since, one.until) for one in vehicle.periods.values()]
    assert times == [("first body", "1912", "1931"), ("second body", "about 1931", "")]
    assert vehicle.periods[vehicle.shows].name == "second body"
