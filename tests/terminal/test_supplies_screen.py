"""Supplies on the screen, and what is done with a task less often."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot

from crewboard.terminal.widgets.rows import RowList
from crewboard.workbench import Workbench
from tests.terminal.shop import asked, day_file, make_shop, open_app, reads, seen, until

SIZES = [(80, 24), (120, 40)]
SUPPLIES = """\
# ask Ben before ordering
[supplies.canvas]
name = "Roof canvas [12 oz]"
lead_time = "6 weeks"

[supplies.tacks]
name = "Copper tacks"
in_stock = true

[supplies.glue]
name = "Two-part glue"
ordered = 2026-03-01
due = 2026-04-20 # they said
"""
COVER = '[tasks.cover]\ntitle = "Cover the roof"\nsupplies = ["canvas", "tacks"]\n'


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    shop = make_shop(tmp_path / "van", components={"cover": f'name = "Cover"\n{COVER}'})
    (shop / "supplies.toml").write_text(SUPPLIES)
    return shop


async def typed(pilot: Pilot[int], text: str) -> None:
    keys = {" ": "space", "-": "minus"}
    await pilot.press(*(keys.get(letter, letter) for letter in text))


@pytest.mark.parametrize("size", SIZES)
async def test_what_is_overdue_or_not_ordered_stands_above_what_is_here(
    shop: Path, size: tuple[int, int]
) -> None:
    app = open_app(shop)
    async with app.run_test(size=size) as pilot:
        await pilot.press("f7")
        text = await reads(pilot, "Overdue (1)", "Not ordered yet (1)", "Here (1)")
        assert text.index("Two-part glue") < text.index("Roof canvas") < text.index("Copper tacks")
        await pilot.press("down")
        await reads(pilot, "not ordered: takes 6 weeks")


async def test_an_order_and_an_arrival_are_lines_of_the_logbook(shop: Path) -> None:
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f7", "down", "o", "enter")
        await reads(pilot, "Ordered: Roof canvas [12 oz]")
        await typed(pilot, "2026-06-13")
        await pilot.press("ctrl+s")
        await reads(pilot, "due Sat 13 Jun 2026")
        await pilot.press("o", "enter")
        await reads(pilot, "Arrived: Roof canvas")
        await pilot.press("ctrl+s")
        await reads(pilot, "since Sat 2 May 2026")
    assert 'kind = "ordered", supply = "canvas", due = 2026-06-13 }' in day_file(shop)
    assert 'kind = "arrived", supply = "canvas" }' in day_file(shop)
    assert (shop / "supplies.toml").read_text() == SUPPLIES


async def test_what_came_went_back_and_was_used_is_counted_on_the_page(shop: Path) -> None:
    text = SUPPLIES.replace('lead_time = "6 weeks"', 'lead_time = "6 weeks"\nquantity = "8 m"')
    (shop / "supplies.toml").write_text(text)
    app = open_app(shop, by="ada")
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("f7", "down", "o", "enter")
        await reads(pilot, "Ordered: Roof canvas")
        await pilot.press("tab", "1", "0", "ctrl+s")
        await reads(pilot, "0 here, 8 short, 10", "still to come, no date")
        told = (("Arrived", ["6"]), ("Sent back", ["2"]), ("Used", ["tab", "3"]))
        for word, amount in told:
            await pilot.press("o", *word[:4].lower(), "enter")
            await reads(pilot, f"{word}: Roof canvas")
            await pilot.press(*amount, "ctrl+s")
            await until(pilot, lambda: not asked(app))
        await reads(pilot, "1 here, 7 short, 4 still to come, no date promised")
    assert 'kind = "used", supply = "canvas", amount = 3' in day_file(shop)


async def test_a_supply_is_edited_where_it_stands_and_a_new_one_written_below(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f7", "e")
        await reads(pilot, "Edit: Two-part glue")
        await pilot.press(*["tab"] * 6, "ctrl+u")
        await typed(pilot, "2026-05-09")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: not asked(app))
        await pilot.press("a")
        await reads(pilot, "A new supply")
        await typed(pilot, "Sandpaper")
        await pilot.press("ctrl+s")
        await reads(pilot, "Sandpaper")
    text = SUPPLIES.replace("due = 2026-04-20 # they said", "due = 2026-05-09 # they said")
    assert (shop / "supplies.toml").read_text() == (
        text + '\n[supplies.sandpaper]\nname = "Sandpaper"\n'
    )


async def test_a_supply_typed_into_a_tasks_form_is_written_into_the_supplies(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down", "e")
        await reads(pilot, "Edit: Cover the roof")
        await pilot.press(*["tab"] * 9, "enter")
        await reads(pilot, "another supply")
        await pilot.press("end", "space", "enter")
        await typed(pilot, "Tar")
        await pilot.press("enter")
        await reads(pilot, "Tar", "Edit: Cover the roof")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: not asked(app))
    assert Workbench(shop).plan.tasks["cover/cover"].supplies == ("canvas", "tacks", "tar")
    assert Workbench(shop).faults == []


async def test_a_task_is_set_aside_taken_up_and_estimated_anew(shop: Path) -> None:
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "down", "right", "down", "o")
        await reads(pilot, "set aside", "hours left")
        await typed(pilot, "aside")
        await pilot.press("enter")
        await reads(pilot, 'Set aside: "Scrape the frame')
        await typed(pilot, "too cold")
        await pilot.press("enter")
        await until(pilot, lambda: app.board["frame/scrape"].state == "set aside")
        await pilot.press("o")
        await reads(pilot, "pick up again")
        await pilot.press("enter")
        await until(pilot, lambda: app.board["frame/scrape"].state == "ready")
        await pilot.press("o", "enter")
        await reads(pilot, 'Hours left: "Scrape the frame"')
        await typed(pilot, "7")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: app.board["frame/scrape"].left == 7)


async def test_a_near_miss_is_written_down_with_who_saw_it(shop: Path) -> None:
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "o")
        await reads(pilot, "near miss or injury")
        await pilot.press(*"near", "enter")
        await reads(pilot, "Help first, and call: 112.")
        await pilot.press("ctrl+s")
        await reads(pilot, "something has to be written here")
        await typed(pilot, "a prop slipped")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: not asked(app))
    assert 'kind = "incident", what = "a prop slipped" }' in day_file(shop)


async def test_pages_are_told_apart_by_their_word_without_colour(shop: Path) -> None:
    app = open_app(shop, plain=True)
    async with app.run_test(size=(80, 24)) as pilot:
        for key, word in (("f3", "+ Frame"), ("f5", "not here"), ("f7", "not ordered")):
            await pilot.press(key)
            await reads(pilot, word)
            rows = app.screen.query_one(RowList).rows
            assert all(row.cells[0].strip() for row in rows if row.id)
            assert seen(app).isascii()
