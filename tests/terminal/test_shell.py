"""The shell around the pages: keys, small windows, changes from outside, refusals, undo."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from crewboard.logbook.acts import ClosedDay, HoldStarted, HoursWorked, Noted, SignIn
from crewboard.terminal.page import Page
from crewboard.terminal.screens import PAGES
from crewboard.terminal.widgets.rows import RowList
from crewboard.workbench import Said, Workbench
from tests.terminal.shop import (
    SATURDAY,
    Watch,
    day_file,
    make_shop,
    open_app,
    reads,
    seen,
    types,
    until,
)


@pytest.mark.parametrize("entry", PAGES, ids=lambda entry: entry.name)
@pytest.mark.parametrize("size", [(80, 24), (60, 16)])
async def test_every_page_opens_by_its_key_and_explains_itself(
    shop: Path, entry: object, size: tuple[int, int]
) -> None:
    page = next(each for each in PAGES if each is entry)
    app = open_app(shop)
    async with app.run_test(size=size) as pilot:
        await reads(pilot, "The market van")
        await pilot.press(page.key)
        await until(pilot, lambda: getattr(app.screen, "word", "") == page.word)
        await pilot.press("f1")
        text = await reads(pilot, f"{page.word}: help")
        assert len(text) > 200
        await pilot.press("escape")
        await until(pilot, lambda: getattr(app.screen, "word", "") == page.word)
        await pilot.press("f2")
        await reads(pilot, "goes first today")


@pytest.mark.parametrize("size", [(59, 24), (80, 15), (20, 5), (1, 1)])
async def test_a_window_too_small_says_so_in_one_line(shop: Path, size: tuple[int, int]) -> None:
    app = open_app(shop)
    async with app.run_test(size=size) as pilot:
        await until(pilot, lambda: seen(app).strip())
        first, *rest = seen(app).splitlines()
        assert first.startswith("Window too small"[: max(0, size[0] - 1)])
        assert not "".join(rest).strip()
        await pilot.press("s")
        await pilot.pause(0.1)
        assert len("".join(seen(app).split("\n")[1:]).strip()) == 0


async def test_the_smallest_window_still_shows_the_day(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(60, 16)) as pilot:
        text = await reads(pilot, "1. Scrape the frame")
        assert "Sat 2 May 2026" in text


async def test_an_edit_from_outside_shows_within_two_seconds(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1. Scrape the frame")
        frame = shop / "components" / "frame.toml"
        frame.write_text(frame.read_text().replace("Scrape the frame", "Sand the frame"))
        await until(pilot, lambda: "1. Sand the frame" in seen(app), 2.0)


async def test_an_edit_from_outside_is_never_written_over(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1. Scrape the frame")
        app.record([SignIn("ada")])
        other = Workbench(shop)
        assert other.record([Said(SignIn("ben"), SATURDAY)], by="", now=SATURDAY).kept
        app.record([SignIn("jo")])
        await reads(pilot, "3 here")
    assert day_file(shop).count("sign-in") == 3


async def test_the_minute_moves_on_by_itself(shop: Path) -> None:
    watch = Watch()
    app = open_app(shop, watch)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "10:00")
        watch.now = SATURDAY.replace(hour=11, minute=7)
        await reads(pilot, "11:07")


async def test_a_broken_file_is_told_and_the_rest_still_opens(shop: Path) -> None:
    (shop / "components" / "roof.toml").write_text("name = [broken\n")
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1. Scrape the frame", "1 mistake: m")
        await pilot.press("m")
        await reads(pilot, "components/roof.toml", "line 1")


async def test_a_newer_folder_is_only_shown(shop: Path) -> None:
    vehicle = shop / "vehicle.toml"
    vehicle.write_text(vehicle.read_text().replace("format = 1", "format = 99"))
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "read-only")
        app.record([SignIn("ada")])
        await reads(pilot, "this folder was written by a newer program and is only shown")
    assert day_file(shop) == ""


async def test_undo_takes_the_last_thing_back_and_both_lines_stay(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1. Scrape the frame")
        app.record([SignIn("ada")])
        await reads(pilot, "1 here")
        await pilot.press("ctrl+z")
        await reads(pilot, "0 here", "undone: Ada Marsh signed in")
        await pilot.press("u")
        await reads(pilot, "there is nothing to undo")
    assert "sign-in" in day_file(shop)
    assert "taken back" in day_file(shop)


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write anywhere")
async def test_what_the_disk_refuses_is_kept_on_the_screen_for_a_real_read_only_folder(
    shop: Path,
) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1. Scrape the frame")
        shop.chmod(0o555)
        try:
            app.record([Noted("found a bolt")])
            await reads(pilot, "Not saved:")
        finally:
            shop.chmod(0o755)


async def test_what_the_disk_refuses_is_tried_again_or_saved_elsewhere(
    shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import errno

    from crewboard.folder.disk import undo
    from crewboard.folder.disk.notkept import not_kept

    def full(*_args: object, **_more: object) -> None:
        raise not_kept(str(shop / "days"), OSError(errno.ENOSPC, "no space"))

    app = open_app(shop)
    elsewhere = shop.parent / "kept.toml"
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1. Scrape the frame")
        with monkeypatch.context() as patched:
            patched.setattr(undo, "apply", full)
            app.record([Noted("found a bolt")])
            await reads(pilot, "Not saved: nothing was saved: the disk is full")
            assert "What you typed is still here." in seen(app)
            await pilot.press("ctrl+s")
            await reads(pilot, "Save elsewhere")
            types(app, *str(elsewhere), "enter")
            await until(pilot, elsewhere.exists)
            assert 'text = "found a bolt"' in elsewhere.read_text()
            await reads(pilot, "Enter try again")
        await pilot.press("enter")
        await until(pilot, lambda: "found a bolt" in day_file(shop))
        await until(pilot, lambda: isinstance(app.screen, Page))


def test_a_file_that_is_there_is_not_saved_over(tmp_path: Path) -> None:
    from crewboard.terminal.recording import save

    there = tmp_path / "there.toml"
    there.write_text("mine")
    saved = save(str(there), [Said(Noted("x"), SATURDAY)], "", SATURDAY)
    assert not saved.kept
    assert "nothing was written over it" in saved.sentence
    assert there.read_text() == "mine"


def test_a_reason_goes_into_the_act_that_has_room_for_one_and_else_beside_it() -> None:
    from crewboard.logbook.acts import Begun

    begun = Said(Begun("a/b"), SATURDAY, despite="because")
    assert begun.insisted == Begun("a/b", despite="because")
    worked = Said(HoursWorked("ada", 1.0), SATURDAY, despite="because")
    assert (worked.insisted, worked.reason) == (worked.act, "because")


async def test_ascii_alone_draws_the_screens_where_it_is_asked_for(shop: Path) -> None:
    app = open_app(shop, plain=True)
    async with app.run_test(size=(80, 24)) as pilot:
        text = await reads(pilot, "1. Scrape the frame", "Begin Finish Hours In/out")
        assert not_ascii(text) == set()
        await pilot.press("b")
        assert not_ascii(await reads(pilot, "Who works on")) == set()
        await pilot.press("escape", "end", "enter", "end", "w")
        assert not_ascii(await reads(pilot, "Why: ")) == set()
        await pilot.press("escape", "h")
        assert not_ascii(await reads(pilot, "Nothing to write hours on yet")) == set()


def not_ascii(text: str) -> set[str]:
    return {character for character in text if not character.isascii()}


async def test_every_state_has_its_word_without_any_colour(
    shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        text = await reads(pilot, "ready 1. Scrape the frame")
        assert "waits + 3 tasks" in text
        await pilot.press("end", "enter")
        await reads(pilot, "waits Prime the frame")


async def test_naughty_names_show_as_typed_on_the_day(tmp_path: Path) -> None:
    title = "[/] [@click=app.quit]x[/] [M8] bolt"
    bad = 'name = "[bold]Odd[/]"\n\n[tasks.odd]\ntitle = "' + title + '"\nmethod = "[red]x[/red]"\n'
    crew = '[people.mal]\nname = "Mal [/] \\u001b[31m"\n'
    shop = make_shop(tmp_path / "van", components={"odd": bad})
    (shop / "crew.toml").write_text(crew)
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, title)
        await pilot.press("slash", *"bolt", "enter")
        await reads(pilot, title)
        await pilot.press("enter")
        await reads(pilot, "[red]x[/red]", "[bold]Odd[/]")
        await pilot.press("w")
        await reads(pilot, f'Why: "{title}"')
        await pilot.press("escape", "t")
        await reads(pilot, f'What comes next: "{title}"')
        await pilot.press("escape", "b")
        await reads(pilot, "Mal [/] \u241b[31m")
        await pilot.press("enter")
        await reads(pilot, 'begun: "[/] [')
        await pilot.press("n")
        await reads(pilot, f'about: the task "{title}"')
        await pilot.press("escape", "f")
        await reads(pilot, 'Finish: "[/] [')
        await pilot.press("escape", "escape", "h")
        await reads(pilot, "Mal [/]", "[@click=app.q")


async def test_keys_typed_in_a_burst_never_start_two_things_at_once(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1. Scrape the frame")
        types(app, "i", "b", "f", "n")
        await reads(pilot, "Sign in and out")
        boxes = [each for each in app.screen_stack if not isinstance(each, Page)]
        assert len(boxes) == 2  # the bare screen below everything, and one question
        while not isinstance(app.screen, Page):
            await pilot.press("escape")
    assert day_file(shop) == ""


async def test_whose_name_stands_under_an_entry_is_said_once(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "your name: y")
        await pilot.press("y")
        await reads(pilot, "Your name")
        await pilot.press(*"ben", "enter")
        await reads(pilot, "your name: Ben Holt", "you: Ben Holt")
        app.record([Noted("found a bolt")])
    assert 'by = "ben"' in day_file(shop)


async def test_a_drive_pulled_out_leaves_the_last_board_to_read(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1. Scrape the frame")
        away = shop.rename(shop.with_name("away"))
        await reads(pilot, "cannot read the folder", "1. Scrape the frame")
        away.rename(shop)
        await until(pilot, lambda: "cannot read" not in seen(app))


async def test_the_mouse_opens_what_it_clicks(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        text = await reads(pilot, "2. Weld the bracket")
        line = next(n for n, each in enumerate(text.splitlines()) if "2. Weld" in each)
        await pilot.click(offset=(20, line))
        await until(pilot, lambda: app.screen.query_one(RowList).at == "frame/weld")
        keys = text.splitlines()[-2]
        await pilot.click(offset=(keys.index("why") + 1, 22))
        await reads(pilot, 'Why: "Weld the bracket')
        await pilot.press("escape")
        await pilot.click(offset=(text.splitlines()[-1].index("4 Hold"), 23))
        await until(pilot, lambda: getattr(app.screen, "word", "") == "Holds")


async def test_ctrl_c_says_in_the_crews_words_how_to_leave(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "What goes first today")
        await pilot.press("ctrl+c")
        await reads(pilot, "q quits Crewboard; everything is saved already")


async def test_a_form_in_ascii_is_ascii_and_its_field_stands_out(shop: Path) -> None:
    app = open_app(shop, plain=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "What goes first today")
        await pilot.press("f3", "a", "enter")
        text = await reads(pilot, "A new task in Frame", "person-hours")
        assert text.isascii()
        field = app.focused
        assert field is not None
        assert field.parent is not None
        assert field.parent.query(".label").first().styles.text_style.bold


async def test_nothing_but_the_notice_is_left_of_a_tiny_window(shop: Path) -> None:
    clamped = HoldStarted("clamp", component="frame", leave_alone=True, why="one joint sprang")
    assert Workbench(shop).record([Said(clamped, SATURDAY)], by="ada", now=SATURDAY).kept
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "LEAVE ALONE")
        await pilot.resize_terminal(50, 12)
        await reads(pilot, "Window too small")
        assert "LEAVE ALONE" not in seen(app)


async def test_the_top_line_says_that_the_day_is_closed(shop: Path) -> None:
    why = "nobody came"
    closed = ClosedDay(why)
    assert Workbench(shop).record([Said(closed, SATURDAY)], by="ada", now=SATURDAY).kept
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        text = await reads(pilot, "closed 10:00")
        assert "closes 16:00" not in text
