"""A task is edited in its form: what is typed is kept, what stood beside it in the file stays."""

from __future__ import annotations

from pathlib import Path

from crewboard.terminal.forms.form import Press
from crewboard.terminal.widgets.rows import RowList
from tests.terminal.shop import (
    FRAME,
    asked,
    frame,
    make_shop,
    open_app,
    reads,
    seen,
    type_text,
    types,
    until,
)


async def test_a_changed_title_is_kept_and_every_comment_stays(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down", "e")
        await reads(pilot, "Edit: Scrape the frame")
        await type_text(pilot, " [M8] [/b]")
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
        await type_text(pilot, "9 3 1")
        await pilot.press("ctrl+s")
        await reads(pilot, "write person-hours from low to high")
        assert frame(shop) == FRAME
        await pilot.press("ctrl+u")
        await type_text(pilot, "3, 5 8.5")
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


async def test_what_is_typed_in_a_burst_goes_into_the_fields_it_is_meant_for(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f7", "a")
        await reads(pilot, "A new supply")
        types(app, *"Nails", "tab", *"40", "enter", "down", "down", *"6 weeks", "up", "up", "up")
        types(app, *"0", "ctrl+s")
        await until(pilot, lambda: not asked(app))
        supply = app.board.plan.supplies["nails"]
    assert (supply.name, supply.quantity, str(supply.lead_time)) == ("Nails", "400", "6 weeks")


async def test_a_form_with_something_typed_asks_before_it_is_left(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "e")
        await reads(pilot, "Edit: Frame")
        await pilot.press("x", "escape")
        await reads(pilot, "Throw it away?")
        await pilot.press("escape")
        await reads(pilot, "Edit: Frame")
        await pilot.press("escape", "enter")
        await until(pilot, lambda: not asked(app))
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
        await pilot.press("escape", "enter")
        await reads(pilot, "Scour the frame")


async def test_a_text_half_written_asks_before_it_is_left(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down", "e")
        await reads(pilot, "Edit: Scrape the frame")
        await pilot.press("tab", "tab", "enter")
        await reads(pilot, "Ctrl+S save")
        await pilot.press("x", "escape")
        await reads(pilot, "Throw it away?")
        await pilot.press("enter")
        await until(pilot, lambda: "Tab, arrows next" in asked(app))
        assert "grain.x" not in seen(app)
