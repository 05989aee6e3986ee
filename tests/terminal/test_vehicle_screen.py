"""The vehicle as a tree: how far each component is, and its plan edited without an editor."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot

from crewboard.terminal.forms.form import Press
from crewboard.terminal.widgets.rows import RowList
from crewboard.workbench import Workbench
from tests.terminal.shop import (
    FRAME,
    ROOF,
    asked,
    make_shop,
    many_tasks,
    open_app,
    reads,
    seen,
    types,
    until,
)

SIZES = [(80, 24), (120, 40)]


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    return make_shop(tmp_path / "van")


def frame(shop: Path) -> str:
    return (shop / "components/frame.toml").read_text(encoding="utf-8")


async def typed(pilot: Pilot[int], text: str) -> None:
    """Type a text into the line that has the keys."""
    keys = {" ": "space", "-": "minus", ".": "full_stop", ",": "comma"}
    await pilot.press(*(keys.get(letter, letter) for letter in text))


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
        await typed(pilot, "arches")
        text = await reads(pilot, "Bend the arches")
        assert "Weld the bracket" not in text
        await pilot.press("escape")
        await reads(pilot, "+ Frame")


async def test_a_changed_title_is_kept_and_every_comment_stays(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down", "e")
        await reads(pilot, "Edit: Scrape the frame")
        await typed(pilot, " [M8] [/b]")
        await pilot.press("ctrl+s")
        await reads(pilot, "Scrape the frame [M8] [/b]")
    assert frame(shop) == FRAME.replace('"Scrape the frame"', '"Scrape the frame [M8] [/b]"')


async def test_hours_are_read_as_people_write_them_and_nonsense_stays_in_the_form(
    shop: Path,
) -> None:
    app = open_app(shop)
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("f3", "right", "down", "e")
        await reads(pilot, "Edit: Scrape the frame")
        await pilot.press("tab", "tab", "tab", "tab", "tab", "ctrl+u")
        await typed(pilot, "9 3 1")
        await pilot.press("ctrl+s")
        await reads(pilot, "write person-hours from low to high")
        assert frame(shop) == FRAME
        await pilot.press("ctrl+u")
        await typed(pilot, "3, 5 8.5")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: not asked(app))
    assert "hours = [3, 5, 8.5]\n" in frame(shop)


async def test_what_was_typed_just_before_the_keeping_key_is_kept(shop: Path) -> None:
    title = "Strap-the-springs-together-before-they-come-off"
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "a", "enter")
        await reads(pilot, "A new task in Frame")
        types(app, *title, "ctrl+s")
        await until(pilot, lambda: not asked(app))
    assert f'title = "{title}"' in frame(shop)


async def test_an_order_that_would_go_round_is_refused_as_it_is_picked(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("f3", "right", "down", "e")
        await reads(pilot, "comes after")
        await pilot.press("tab", "tab", "tab", "enter")
        await reads(pilot, "Space mark")
        await typed(pilot, "boards")
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
        await typed(pilot, "scrape")
        await pilot.press("space", "enter")
        await reads(pilot, "Scrape the frame", "Edit: Weld the bracket")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: not asked(app))
    assert frame(shop) == FRAME.replace('place = "yard"\n', 'place = "yard"\nafter = ["scrape"]\n')


async def test_a_form_with_something_typed_asks_before_it_is_left(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "e")
        await reads(pilot, "Edit: Frame")
        await pilot.press("x", "escape")
        await reads(pilot, "Cancel the form?")
        await pilot.press("n")
        await reads(pilot, "Edit: Frame")
        await pilot.press("escape", "y")
        await until(pilot, lambda: not asked(app))
    assert frame(shop) == FRAME


async def test_a_new_task_gets_a_short_name_a_hold_and_its_place_in_the_tree(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("f3", "down", "a", "enter")
        await reads(pilot, "A new task in Roof")
        await typed(pilot, "Glue the canvas")
        for _ in range(11):
            await pilot.press("tab")
        await pilot.press("enter")
        await reads(pilot, "glue is setting")
        await typed(pilot, "glue")
        await pilot.press("enter", "tab")
        await typed(pilot, "2 days")
        await pilot.press("ctrl+s")
        await reads(pilot, "Glue the canvas")
        assert app.screen.query_one(RowList).at == "roof/glue-the-canvas"
    roof = (shop / "components/roof.toml").read_text()
    assert roof == ROOF + (
        '\n[tasks.glue-the-canvas]\ntitle = "Glue the canvas"\n'
        'hold = { kind = "glue", lasts = "2 days" }\n'
    )
    assert Workbench(shop).faults == []


async def test_a_component_and_a_part_are_added(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "a", "end", "enter")
        await reads(pilot, "A new main component")
        await typed(pilot, "Doors")
        await pilot.press("ctrl+s")
        await reads(pilot, "Doors", "no tasks")
        await pilot.press("a", "down", "enter")
        await reads(pilot, "A new part of Doors")
        await typed(pilot, "Left door")
        await pilot.press("ctrl+s")
        await reads(pilot, "Left door")
    doors = (shop / "components/doors.toml").read_text()
    assert doors == 'name = "Doors"\n\n[parts.left-door]\nname = "Left door"\n'


async def test_a_task_taken_out_leaves_no_gap_and_undo_puts_it_back(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down", "delete")
        await reads(pilot, "Remove?", "What came after it")
        await pilot.press("y")
        await until(pilot, lambda: "frame/scrape" not in app.board.plan.tasks)
        assert app.board.plan.tasks["frame/prime"].after == ()
        await pilot.press("u")
        await until(pilot, lambda: "frame/scrape" in app.board.plan.tasks)
    assert frame(shop) == FRAME


async def test_an_edit_made_outside_shows_within_two_seconds_and_is_kept(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down")
        await reads(pilot, "Scrape the frame")
        outside = frame(shop).replace('"Prime the frame"', '"Prime it twice" # as agreed')
        (shop / "components/frame.toml").write_text(outside)
        await until(pilot, lambda: "Prime it twice" in seen(app), 2.0)
        await pilot.press("e")
        await reads(pilot, "Edit: Scrape the frame")
        await pilot.press("exclamation_mark", "ctrl+s")
        await reads(pilot, "Scrape the frame!")
    assert frame(shop) == outside.replace('"Scrape the frame"', '"Scrape the frame!"')


async def test_the_work_days_of_the_vehicle_are_changed_in_a_form(shop: Path) -> None:
    before = (shop / "vehicle.toml").read_text()
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "d")
        await reads(pilot, "Vehicle, work days and shop")
        await pilot.press(*["tab"] * 5, "ctrl+u")
        await typed(pilot, "wednesday")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: not asked(app))
    after = (shop / "vehicle.toml").read_text()
    assert after == before.replace('["first saturday"]', '["wednesday"]')


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


async def test_unseen_characters_survive_an_edit_of_their_text(tmp_path: Path) -> None:
    text = 'name = "A"\n[tasks.a]\ntitle = "x\\u001b[31m\\u202Ey"\n'
    shop = make_shop(tmp_path / "van", components={"a": text})
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down", "e")
        await reads(pilot, "x␛[31m<U+202E>y")
        assert all("\x1b" not in line and "\u202e" not in line for line in seen(app).splitlines())
        await pilot.press("z", "ctrl+s")
        await until(pilot, lambda: not asked(app))
        assert app.board.plan.tasks["a/a"].title == "x\x1b[31m\u202eyz"


async def test_a_form_is_also_worked_with_the_mouse(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3")
        await reads(pilot, "+ Roof")
        await pilot.click(RowList, offset=(20, 2))  # under the line of the whole vehicle
        await pilot.click(RowList, offset=(20, 2))
        await reads(pilot, "- Roof", "Bend the arches")
        await pilot.press("e")
        await reads(pilot, "Edit: Roof")
        await pilot.press("s")
        keep = next(p for p in app.screen.query(Press) if p.word == "save")
        await pilot.click(keep)
        await reads(pilot, "- Roofs")
    assert 'name = "Roofs"\n' in (shop / "components/roof.toml").read_text()


async def test_a_longer_text_is_written_on_a_sheet_of_its_own(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down", "e")
        await reads(pilot, "Edit: Scrape the frame")
        await pilot.press("tab", "tab", "enter")
        await reads(pilot, "Ctrl+S save")
        await pilot.press("enter", "T", "h", "e", "n", "ctrl+s")
        await reads(pilot, "(and 1 more line)")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: not asked(app))
    text = 'method = """\nLong strokes, along the grain.\nThen"""\n'
    assert frame(shop) == FRAME.replace('method = "Long strokes, along the grain."\n', text)


async def test_what_somebody_else_changed_meanwhile_is_not_written_over(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down", "e")
        await reads(pilot, "Edit: Scrape the frame")
        await pilot.press("exclamation_mark")
        outside = frame(shop).replace('"Scrape the frame"', '"Scour the frame"')
        (shop / "components/frame.toml").write_text(outside)
        await pilot.press("ctrl+s")
        await reads(pilot, '"title" was changed in the file meanwhile: Scour the frame')
        assert frame(shop) == outside
        await pilot.press("escape", "y")
        await reads(pilot, "Scour the frame")


async def test_what_was_looked_for_is_taken_with_one_enter(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down", "down", "e")
        await reads(pilot, "Edit: Weld the bracket")
        await pilot.press("tab", "tab", "tab", "enter")
        await typed(pilot, "scrape")
        await pilot.press("enter", "ctrl+s")
        await until(pilot, lambda: not asked(app))
        assert app.board.plan.tasks["frame/weld"].after == ("frame/scrape",)
        await pilot.press("e")
        await reads(pilot, "Edit: Weld the bracket")
        await pilot.press("tab", "tab", "tab", "backspace", "ctrl+s")
        await until(pilot, lambda: not asked(app))
    assert frame(shop) == FRAME


async def test_a_text_half_written_asks_before_it_is_left(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down", "e")
        await reads(pilot, "Edit: Scrape the frame")
        await pilot.press("tab", "tab", "enter")
        await reads(pilot, "Ctrl+S save")
        await pilot.press("x", "escape")
        await reads(pilot, "Cancel the text?")
        await pilot.press("y")
        await until(pilot, lambda: "Tab, arrows next" in asked(app))
        assert "grain.x" not in seen(app)


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
