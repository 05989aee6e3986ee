"""A first run on an empty folder, and files with mistakes."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot

from crewboard.workbench import Workbench
from tests.terminal.shop import asked, make_shop, open_app, reads, seen, until

SIZES = [(80, 24), (120, 40)]


async def typed(pilot: Pilot[int], text: str) -> None:
    keys = {" ": "space", ",": "comma"}
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
        await pilot.press("f3")
        await reads(pilot, "The van", "Frame", "Deck", "Air piping")
    bench = Workbench(tmp_path)
    assert bench.faults == []
    assert [person.name for person in bench.plan.crew.values()] == ["Ada Marsh", "Ben Holt"]
    assert bench.plan.components["deck"].after == ("frame", "wiring", "air-piping")


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
        await until(pilot, lambda: "the folder has no mistakes" in seen(app), 2.0)


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
