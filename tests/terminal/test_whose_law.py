"""Whose law comes first is said in the settings; a hazard that no crew uses says so where it is put
on a task."""

from __future__ import annotations

from pathlib import Path

from textual.pilot import Pilot

from crewboard.terminal.forms.form import Form
from crewboard.terminal.planning.choices import hazard_choices, not_used
from crewboard.terminal.screens.task_sheet import TaskSheetPage
from crewboard.workbench import Workbench
from tests.terminal.shop import asked, make_shop, open_app, reads, until
from tests.terminal.test_pieces_on_the_vehicle import field, typed


async def settings(pilot: Pilot[int]) -> None:
    await pilot.press("f3")
    await reads(pilot, "Frame", "Roof")
    await pilot.press("home", "o", *"settings", "enter")
    await until(pilot, lambda: isinstance(pilot.app.screen, Form))


async def test_the_jurisdiction_is_typed_in_the_settings_as_people_write_it(tmp_path: Path) -> None:
    shop = make_shop(tmp_path / "van")
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await settings(pilot)
        await field(pilot, "jurisdiction")
        await typed(pilot, "uk")
        await pilot.press("ctrl+s")
        await reads(pilot, "saved in vehicle.toml")
    plan = Workbench(shop).plan
    assert plan.vehicle.jurisdiction == "GB"
    assert plan.sheets["hot-work"].here == "GB"


async def test_what_no_crew_uses_says_so_when_it_is_put_on_a_task(tmp_path: Path) -> None:
    shop = make_shop(tmp_path / "van")
    (shop / "hazards.toml").write_text('[noise]\ndo_not_use = "Buy a quiet one."\n')
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Scrape the frame")
        await pilot.press("slash", *"scrape", "enter", "enter")
        await until(pilot, lambda: isinstance(app.screen, TaskSheetPage))
        await pilot.press("e")
        await until(pilot, lambda: isinstance(app.screen, Form))
        await field(pilot, "hazards")
        await pilot.press("enter")
        await until(pilot, lambda: "Space mark" in asked(app))
        await pilot.press(*"noise")
        await until(pilot, lambda: "do not use" in asked(app))
        await pilot.press("space", "enter")
        await until(pilot, lambda: "Buy a quiet one" in asked(app))
        assert "noise" in asked(app)  # it may be put there all the same: nobody begins it


def test_hazards_are_picked_by_their_names(tmp_path: Path) -> None:
    board = open_app(make_shop(tmp_path / "van")).board
    names = {choice.id: choice.text for choice in hazard_choices(board, ())}
    assert names["hot-work"] == board.plan.sheets["hot-work"].short
    assert not any("-" in name and name == hazard for hazard, name in names.items())
    assert not_used(board, ("noise", "no-such")) == []
