"""Who is here and since when, from one list; notes and where the next person reads them."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from crewboard.logbook.acts import Noted
from crewboard.telling.day import day_head
from crewboard.workbench import Said, Workbench
from tests.intake.a_camera import jpeg
from tests.terminal.shop import (
    SATURDAY,
    Watch,
    day_file,
    open_app,
    reads,
    until,
)

SIZES = [(80, 24), (120, 40)]
SILL = "pictures/left sill.jpg"


async def test_two_who_came_at_five_past_ten_are_signed_in_as_of_then(shop: Path) -> None:
    app = open_app(shop, Watch(SATURDAY.replace(hour=10, minute=40)))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("i", *"10:05", "space", "down", "space")
        await reads(pilot, "signed in or out at 10:05")
        await pilot.press("enter")
        await until(pilot, lambda: day_file(shop).count('kind = "sign-in"') == 2)
    text = day_file(shop)
    assert text.count("at = 2026-05-02T10:05:00") == 2
    assert text.count("written = 2026-05-02T10:40:00") == 2


async def test_a_time_that_is_still_to_come_is_not_taken(shop: Path) -> None:
    app = open_app(shop, Watch(SATURDAY))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("i", *"11:30", "space", "enter")
        await reads(pilot, "11:30 is later than it is now")
        await pilot.press(*["backspace"] * 5, "enter")
        await until(pilot, lambda: 'kind = "sign-in"' in day_file(shop))
    assert "T10:00:00" in day_file(shop)


async def test_the_time_somebody_came_is_corrected_in_the_list_of_who_is_here(shop: Path) -> None:
    app = open_app(shop, Watch(SATURDAY))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("i", "space", "enter")
        await until(pilot, lambda: 'kind = "sign-in"' in day_file(shop))
        await pilot.press("i", "ctrl+e")
        await reads(pilot, "When was it?", "Ada Marsh signed in at 10:00")
        await pilot.press(*"09:30", "enter")
        await reads(pilot, "Sign in and out", "here since 09:30")


async def test_a_guest_is_signed_in_and_out_in_the_list_of_who_is_here(shop: Path) -> None:
    app = open_app(shop, Watch(SATURDAY))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("i", "ctrl+g")
        await reads(pilot, "A guest signs in")
        await pilot.press(*"Zora Bratt", "ctrl+s")
        await reads(pilot, "Sign in and out", "Zora Bratt", "guest since 10:00")
        await pilot.press(*"Zora", "space", "enter")
        await until(pilot, lambda: 'kind = "guest left"' in day_file(shop))


async def test_guests_who_came_together_earlier_are_signed_in_and_out_as_of_then(
    shop: Path,
) -> None:
    app = open_app(shop, Watch(SATURDAY.replace(hour=12)))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("i", *"10:05", "ctrl+g")
        await reads(pilot, "A guest signs in", "signed in at", "10:05")
        await pilot.press(*"Zora, Milo", "ctrl+s")
        await reads(pilot, "Sign in and out", "guest since 10:05")
        await pilot.press(*"11.30")
        await pilot.press("end", "space", "up", "space", "enter")
        await until(pilot, lambda: day_file(shop).count('kind = "guest left"') == 2)
    lines = [line for line in day_file(shop).splitlines() if 'kind = "guest' in line]
    assert [line.partition("at = ")[2][:16] for line in lines] == [
        "2026-05-02T10:05",
        "2026-05-02T10:05",
        "2026-05-02T11:30",
        "2026-05-02T11:30",
    ]


async def test_whose_name_stands_under_what_is_written_is_remembered_for_the_day(
    shop: Path,
) -> None:
    app = open_app(shop, Watch(SATURDAY))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("y", *"ben", "enter")
        await until(pilot, lambda: app.by == "ben")
    later = open_app(shop, Watch(SATURDAY.replace(hour=15)))
    async with later.run_test(size=(80, 24)):
        assert later.by == "ben"
    next_day = open_app(shop, Watch(SATURDAY.replace(day=3)))
    async with next_day.run_test(size=(80, 24)):
        assert next_day.by == ""


async def test_a_note_of_several_lines_is_about_the_component_and_the_next_one_reads_it(
    shop: Path,
) -> None:
    app = open_app(shop, Watch(SATURDAY))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await reads(pilot, 'about: the task "Scrape the frame"')
        await pilot.press(*"two bolts sheared", "ctrl+j", *"[b]left rear[/b]", "tab")
        await reads(pilot, "about: the whole of Frame")
        await pilot.press("enter")
        await until(pilot, lambda: 'kind = "note"' in day_file(shop))
        await pilot.press("enter")
        await reads(pilot, "noted on Frame", "two bolts sheared")
    assert 'component = "frame"' in day_file(shop)
    assert "two bolts sheared\\n[b]left rear[/b]" in day_file(shop)


def test_what_was_noted_on_the_day_is_read_on_the_next(shop: Path) -> None:
    bench = Workbench(shop)
    noted = Said(Noted("the stove smokes"), SATURDAY)
    assert bench.record([noted], by="ada", now=SATURDAY).kept
    lines = [f"{line.word} {line.text}" for line in day_head(bench.board(datetime(2026, 6, 6, 9)))]
    assert "noted, Sat 2 May 2026, Ada Marsh: the stove smokes" in lines


async def test_a_note_is_not_lost_by_escape_nor_by_a_file_that_cannot_take_it(shop: Path) -> None:
    (shop / "pictures").mkdir()
    for name in ("left sill.jpg", "b.jpg"):
        (shop / "pictures" / name).write_bytes(jpeg("2026:05:02 09:00:00"))
    broken = shop / "days/2026/2026-05-02.toml"
    broken.parent.mkdir(parents=True)
    broken.write_text("entries = [")
    app = open_app(shop, Watch(SATURDAY), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await reads(pilot, "pictures, with commas between")
        await pilot.press(*"rot", "shift+tab", *SILL, "comma", *"pictures/b.jpg", "escape")
        await reads(pilot, "Throw it away?")
        await pilot.press("escape", "enter")
        await reads(pilot, "2026-05-02.toml")
        broken.write_text("date = 2026-05-02\n\n[entries]\n")
        await pilot.press("escape")
        await reads(pilot, "about: the day", "rot", f"{SILL}, pictures/b.jpg")
        await pilot.press("enter")
        await reads(pilot, "noted")
    assert 'text = "rot"' in day_file(shop)
    assert 'pictures = ["pictures/left sill.jpg", "pictures/b.jpg"]' in day_file(shop)
