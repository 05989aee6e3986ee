"""The vehicle as a tree: how far each component is."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.terminal.widgets.rows import RowList
from tests.terminal.shop import (
    make_shop,
    many_tasks,
    open_app,
    reads,
    seen,
    type_text,
    until,
)

SIZES = [(80, 24), (120, 40)]


@pytest.mark.parametrize("size", SIZES)
async def test_each_component_says_its_state_in_a_word_and_how_far_it_is(
    shop: Path, size: tuple[int, int]
) -> None:
    app = open_app(shop)
    async with app.run_test(size=size) as pilot:
        await pilot.press("f3")
        lines = (await reads(pilot, "Frame", "Roof")).splitlines()
        (of_frame,) = [line for line in lines if "+ Frame" in line]
        (of_roof,) = [line for line in lines if "+ Roof" in line]
        assert "ready" in of_frame
        assert "0 of 3" in of_frame
        assert "waiting" in of_roof
        await pilot.press("down")
        await reads(pilot, "comes after: Frame")


async def test_arrows_open_and_close_a_branch_and_enter_opens_the_sheet(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3")
        await reads(pilot, "+ Frame")
        await pilot.press("right")
        text = await reads(pilot, "- Frame", "Scrape the frame", "Prime the frame")
        assert "Bend the arches" not in text
        await pilot.press("down", "left", "left")
        await until(pilot, lambda: "Prime the frame" not in seen(app))
        await pilot.press("plus")
        await reads(pilot, "Bend the arches", "Prime the frame")
        app.screen.query_one(RowList).go_to("roof/board")
        await pilot.press("enter")
        await reads(pilot, "Lay the roof boards", "Esc back")


async def test_a_find_also_looks_into_closed_branches(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "slash")
        await type_text(pilot, "arches")
        text = await reads(pilot, "Bend the arches")
        assert "Weld the bracket" not in text
        await pilot.press("escape")
        await reads(pilot, "+ Frame")


async def test_a_tree_of_five_thousand_tasks_moves_as_quickly_as_a_small_one(
    tmp_path: Path,
) -> None:
    shop = make_shop(tmp_path / "van", components={"panels": many_tasks(5000)})
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "plus")
        rows = app.screen.query_one(RowList)
        await until(pilot, lambda: len(rows.rows) > 5000)
        await pilot.press("end")
        await reads(pilot, "Lay the roof boards")


@pytest.mark.parametrize(
    "title", ["[M8]", "[@click=app.quit]x[/]", "\x1b[31mred", "שלום", "日本の板"]
)
async def test_user_text_shows_as_typed_in_the_tree_and_in_its_form(
    tmp_path: Path, title: str
) -> None:
    escaped = title.replace("\x1b", "\\u001b")
    text = f'name = "{escaped}"\n[tasks.a]\ntitle = "{escaped}"\n'
    shop = make_shop(tmp_path / "van", components={"a": text})
    shown = title.replace("\x1b", "␛")
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down")
        assert seen(app).count(shown) >= 2
        await pilot.press("e")
        await reads(pilot, f"Edit: {shown}")
        assert app.is_running


WINDOWS = """\
name = "Windows"
[pieces.panes]
name = "Pane"
count = 6
[tasks.glaze]
title = "Glaze the sashes"
each = ["panes"]
hours = [1, 2, 3]
[tasks.wash]
title = "Wash the glass"
after = ["glaze"]
"""


async def test_the_same_work_on_six_panes_is_one_row_until_it_is_opened(tmp_path: Path) -> None:
    app = open_app(make_shop(tmp_path / "van", components={"windows": WINDOWS}))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "end", "right")
        text = await reads(pilot, "+ Glaze the sashes", "0 of 6", "Wash the glass")
        assert "Pane 3" not in text
        await pilot.press("down")
        await reads(pilot, "0 of 6 pieces finished, about 12 h left", "ready: Panes 1-6")
        await pilot.press("right")
        await reads(pilot, "- Glaze the sashes", "Pane 1", "Pane 6")
        await pilot.press("down", "down", "left")  # up to the series, from one of its pieces
        assert app.screen.query_one(RowList).at == "windows/glaze"
        await pilot.press("left")
        await until(pilot, lambda: "Pane 3" not in seen(app))
