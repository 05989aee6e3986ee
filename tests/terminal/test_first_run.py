"""A first run on an empty folder, and files with mistakes."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from textual.pilot import Pilot

from crewboard.workbench import Workbench
from tests.terminal.shop import asked, make_shop, open_app, reads, seen, until

SIZES = [(80, 24), (120, 40)]


async def typed(pilot: Pilot[int], text: str) -> None:
    keys = {" ": "space", ",": "comma", "-": "minus"}
    await pilot.press(*(keys.get(letter, letter) for letter in text))


@pytest.mark.parametrize("size", SIZES)
async def test_an_empty_folder_becomes_a_vehicle_after_a_few_questions(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    app = open_app(tmp_path)
    async with app.run_test(size=size) as pilot:
        await reads(pilot, "A new vehicle", "holds no vehicle.toml yet")
        await pilot.press("ctrl+s")
        await reads(pilot, "its name: something has to be written here")
        await typed(pilot, "The van")
        await pilot.press("tab", "tab", "tab", "tab", "tab")
        await typed(pilot, "Ada Marsh, Ben Holt")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: not asked(app))
        await reads(pilot, "The van", "Frame", "Deck", "Air piping")
    bench = Workbench(tmp_path)
    assert bench.faults == []
    assert [person.name for person in bench.plan.crew.values()] == ["Ada Marsh", "Ben Holt"]
    assert bench.plan.components["deck"].after == ("frame", "wiring", "air-piping")


async def test_the_first_form_shows_whom_to_call_the_places_and_the_shops_air(
    tmp_path: Path,
) -> None:
    app = open_app(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "emergency call", "places", "shop °C from-to", "components too")
        await typed(pilot, "Van")
        await pilot.press(*(["tab"] * 7))
        await typed(pilot, "112")
        await pilot.press("tab")
        await typed(pilot, "bench, pit")
        await pilot.press("tab")
        await typed(pilot, "10-")
        await pilot.press("tab", "tab", "enter")
        await reads(pilot, "Running gear", "Space mark")
        await pilot.press("down", "down", "space", "enter", "tab")
        await typed(pilot, "cab, tailboard")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: not asked(app))
    plan = Workbench(tmp_path).plan
    assert plan.vehicle.shop.emergency == "112"
    assert plan.vehicle.shop.places == ("bench", "pit")
    assert plan.vehicle.shop.conditions.at_least_c == 10
    assert plan.components.keys() >= {"frame", "running-gear", "cab", "tailboard"}
    assert "body-framing" not in plan.components


async def test_going_through_the_form_with_enter_says_of_nobody_that_they_are_of_age(
    tmp_path: Path,
) -> None:
    app = open_app(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "A new vehicle", "Enter pick")
        await typed(pilot, "Van")
        await pilot.press(*(["enter"] * 5))
        await typed(pilot, "Ada Marsh, Ben Holt, ada marsh")
        await pilot.press("enter")
        await reads(pilot, "Space yes/no")
        await pilot.press("enter")
        await typed(pilot, "112")  # in the next field, and not lost
        await pilot.press("ctrl+s")
        await until(pilot, lambda: not asked(app))
    plan = Workbench(tmp_path).plan
    assert plan.crew["ada"].adult is None
    assert list(plan.crew) == ["ada", "ben"], "who is named twice is one person, in their order"
    assert plan.vehicle.shop.emergency == "112"


async def test_a_folder_of_a_vehicle_asks_nothing(tmp_path: Path) -> None:
    app = open_app(make_shop(tmp_path / "van"))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "The market van")
        assert asked(app) == ""


@pytest.mark.parametrize("size", SIZES)
async def test_mistakes_are_listed_with_place_sentence_and_mending_and_go_when_mended(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    shop = make_shop(tmp_path / "van")
    roof = shop / "components/roof.toml"
    whole = roof.read_text()
    roof.write_text(whole.replace('["bend"]', '["bendd"]').replace("month", "moon"))
    app = open_app(shop)
    async with app.run_test(size=size) as pilot:
        await reads(pilot, "2 mistakes: m")
        await pilot.press("m")
        await reads(pilot, "components/roof.toml:6:29", 'there is no task or component "bendd"')
        await pilot.press("down")
        await reads(pilot, "line 10, column 10", 'did you mean "bend"?')
        roof.write_text(whole)
        await until(pilot, lambda: "No mistakes." in seen(app), 2.0)


async def test_a_broken_file_leaves_the_rest_to_be_worked_with(tmp_path: Path) -> None:
    shop = make_shop(tmp_path / "van")
    (shop / "components/roof.toml").write_text("name = [")
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down", "e")
        await reads(pilot, "Edit: Scrape the frame")
        await pilot.press("exclamation_mark", "ctrl+s")
        await reads(pilot, "Scrape the frame!")
    assert (shop / "components/roof.toml").read_text() == "name = ["


async def test_after_the_first_form_the_vehicle_is_shown_and_one_key_types_its_tasks(
    tmp_path: Path,
) -> None:
    app = open_app(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "A new vehicle")
        await typed(pilot, "Van")
        await pilot.press("ctrl+s")
        await reads(pilot, "k types the tasks", "Frame")
        await pilot.press("k")
        await reads(pilot, "Tasks of ", "Tab next cell")


@pytest.mark.skipif(os.name != "posix", reason="needs a pseudo-terminal")
def test_crewboard_new_in_a_terminal_opens_the_first_form_at_once(tmp_path: Path) -> None:
    from tests.terminal.real_terminal import RealTerminal

    van = tmp_path / "our-van"
    with RealTerminal(["new", str(van)]) as terminal:
        terminal.until("A new vehicle")
        terminal.type("The van\x13")
        terminal.until("the folder is made")
        terminal.type("q")
        assert terminal.ended() == 0
    assert Workbench(van).plan.vehicle.name == "The van"
    left = tmp_path / "left"
    with RealTerminal(["new", str(left)]) as terminal:
        terminal.until("A new vehicle")
        terminal.type("\x1b")
        terminal.look(1.0)
        terminal.type("q")
        assert terminal.ended() == 0
    assert not left.exists()
    with RealTerminal(["new", str(left), "--name", "Left"]) as terminal:
        assert terminal.ended() == 0
    assert Workbench(left).plan.vehicle.name == "Left"
