"""Tasks, parts and components are added and removed, and what comes after what is picked."""

from __future__ import annotations

from pathlib import Path

from crewboard.terminal.widgets.rows import RowList
from crewboard.workbench import Workbench
from tests.terminal.shop import (
    FRAME,
    ROOF,
    asked,
    frame,
    open_app,
    reads,
    type_text,
    until,
)
from tests.terminal.test_pieces_on_the_vehicle import field


async def test_a_new_task_gets_a_short_name_a_hold_and_its_place_in_the_tree(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("f3", "down", "a", "enter")
        await reads(pilot, "A new task in Roof")
        await type_text(pilot, "Glue the canvas")
        for _ in range(11):
            await pilot.press("tab")
        await pilot.press("enter")
        await reads(pilot, "glue is setting")
        await type_text(pilot, "glue")
        await pilot.press("enter", "tab")
        await type_text(pilot, "2 days")
        await pilot.press("ctrl+s")
        await reads(pilot, "Glue the canvas")
        assert app.screen.query_one(RowList).at == "roof/glue-the-canvas"
    roof = (shop / "components/roof.toml").read_text()
    assert roof == ROOF + (
        '\n[tasks.glue-the-canvas]\ntitle = "Glue the canvas"\n'
        'hold = { kind = "glue", lasts = "2 days" }\nadded = 2026-05-02\n'
    )
    assert Workbench(shop).faults == []


async def test_a_component_and_a_part_are_added(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "a", "end", "enter")
        await reads(pilot, "A new main component")
        await type_text(pilot, "Doors")
        await pilot.press("ctrl+s")
        await reads(pilot, "Doors", "no tasks")
        await pilot.press("a", "down", "enter")
        await reads(pilot, "A new part of Doors")
        await type_text(pilot, "Left door")
        await pilot.press("ctrl+s")
        await reads(pilot, "Left door")
    doors = (shop / "components/doors.toml").read_text()
    assert doors == 'name = "Doors"\n\n[parts.left-door]\nname = "Left door"\n'


async def test_a_task_taken_out_leaves_no_gap_and_undo_puts_it_back(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down", "delete")
        await reads(pilot, "Remove?", "What came after it")
        await pilot.press("enter")
        await until(pilot, lambda: "frame/scrape" not in app.board.plan.tasks)
        assert app.board.plan.tasks["frame/prime"].after == ()
        await pilot.press("u")
        await until(pilot, lambda: "frame/scrape" in app.board.plan.tasks)
    assert frame(shop) == FRAME


async def test_an_order_that_would_go_round_is_refused_as_it_is_picked(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("f3", "right", "down", "e")
        await reads(pilot, "comes after")
        await pilot.press("tab", "tab", "tab", "enter")
        await reads(pilot, "Space mark")
        await type_text(pilot, "boards")
        await pilot.press("space", "enter")
        await reads(pilot, "the order of work goes round in a loop")
        text = asked(app)
        for step in ("roof/bend", "roof/board", "frame/scrape", "components/roof.toml:2"):
            assert step in text, step
        await pilot.press("escape")
        await reads(pilot, "Edit: Scrape the frame", "Not saved: the order of work goes round")
        await pilot.press("escape")
        await until(pilot, lambda: not asked(app))
    assert frame(shop) == FRAME


async def test_what_comes_before_is_picked_from_a_list_and_written_short(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down", "down", "e")
        await reads(pilot, "Edit: Weld the bracket")
        await pilot.press("tab", "tab", "tab", "enter")
        await reads(pilot, "Space mark")
        await type_text(pilot, "scrape")
        await pilot.press("space", "enter")
        await reads(pilot, "Scrape the frame", "Edit: Weld the bracket")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: not asked(app))
    assert frame(shop) == FRAME.replace('place = "yard"\n', 'place = "yard"\nafter = ["scrape"]\n')


async def test_what_was_looked_for_is_taken_with_one_enter(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down", "down", "e")
        await reads(pilot, "Edit: Weld the bracket")
        await pilot.press("tab", "tab", "tab", "enter")
        await type_text(pilot, "scrape")
        await pilot.press("enter", "ctrl+s")
        await until(pilot, lambda: not asked(app))
        assert app.board.plan.tasks["frame/weld"].after == ("frame/scrape",)
        await pilot.press("e")
        await reads(pilot, "Edit: Weld the bracket")
        await pilot.press("tab", "tab", "tab", "backspace", "ctrl+s")
        await until(pilot, lambda: not asked(app))
    assert frame(shop) == FRAME


async def test_the_work_days_of_the_vehicle_are_changed_in_a_form(shop: Path) -> None:
    before = (shop / "vehicle.toml").read_text()
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "home", "o", *"settings", "enter")
        await reads(pilot, "Vehicle, work days and shop")
        await field(pilot, ("work_days", "every"))
        await pilot.press("ctrl+u")
        await type_text(pilot, "wednesday")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: not asked(app))
    after = (shop / "vehicle.toml").read_text()
    assert after == before.replace('["first saturday"]', '["wednesday"]')
