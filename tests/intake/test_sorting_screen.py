"""Pictures and recordings are sorted on their page: few keys each, one caption for many."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

import pytest
from textual.pilot import Pilot

from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import Found, Pictured
from crewboard.logbook.entry import Said
from crewboard.terminal.app import CrewboardApp
from crewboard.workbench import Workbench
from crewboard.workbench.taking_in import take_in
from tests.intake.a_camera import MP4, jpeg, plain, put
from tests.terminal.shop import SATURDAY, Watch, make_shop, open_app, reads, seen

RIBS = """\
name = "Cab"

[pieces.ribs]
name = "Rib"
count = 9

[tasks.scrape]
title = "Scrape the ribs"
each = ["ribs"]
"""
NINE = datetime(2026, 5, 1, 9, 0)


def shop_with(root: Path, pictures: int, *films: str) -> Path:
    """A shop into which so many pictures were taken in, a minute between them."""
    shop = make_shop(root / "van", components={"cab": RIBS})
    phone = root / "phone"
    for number in range(pictures):
        taken = NINE + timedelta(minutes=number)
        put(phone, f"IMG_{number + 1:02}.jpg", jpeg(f"{taken:%Y:%m:%d %H:%M:%S}", colour=number))
    for film in films:
        put(phone, film, MP4 + film.encode(), NINE)
    bench = Workbench(shop)
    taken_in = take_in(bench, [str(phone)], by="ada", at=SATURDAY, now=SATURDAY)
    assert taken_in.outcome.kept
    return shop


def said_in(shop: Path) -> list[Pictured]:
    return [e.act for e in Folder(shop).logbook.record() if isinstance(e.act, Pictured)]


class Counted:
    """Presses keys and counts them."""

    def __init__(self, pilot: Pilot[int]) -> None:
        self.pilot, self.keys = pilot, 0

    async def __call__(self, *keys: str) -> None:
        self.keys += len(keys)
        await self.pilot.press(*keys)


async def test_twenty_pictures_are_sorted_in_sixty_keys(tmp_path: Path) -> None:
    shop = shop_with(tmp_path, 20)
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        assert "20 pictures wait to be sorted" in seen(app)
        press = Counted(pilot)
        await press("z")
        text = await reads(pilot, "IMG_01.jpg", "IMG_12.jpg")
        assert "Fri 1 May 09:00" in text
        await press("enter", "1", *"rib3", "enter", *"foot", "enter")  # the first
        await press(*["equals_sign"] * 4)  # four more of the same, without leaving the question
        await press("escape", *["space"] * 5)
        await press("enter", "3", "enter", *"nails", "enter")  # five, of the same rib
        await press("enter", "2", *"rib7", "enter", "enter", *["equals_sign"] * 4)
        await press("8", "4", "enter", "enter", *["equals_sign"] * 3)
        await reads(pilot, "nothing waits to be sorted")
    said = said_in(shop)
    assert len({one.file for one in said}) == 20
    rib3, rib7 = ("cab/ribs/3",), ("cab/ribs/7",)
    told = [(one.shows, one.pieces, one.words) for one in said]
    assert told == [
        *[("before", rib3, "foot")] * 5,
        *[("hidden now", rib3, "nails")] * 5,
        *[("during", rib7, "")] * 5,
        ("of no use", (), ""),
        *[("after", rib7, "")] * 4,
    ]
    assert [plain(one.file) for one in said] == [
        f"pictures/2026/IMG_{n:02}.jpg" for n in range(1, 21)
    ]
    assert press.keys <= 60, press.keys


async def test_the_kind_can_be_picked_from_a_list_and_a_component_be_named(tmp_path: Path) -> None:
    shop = shop_with(tmp_path, 2, "walk.mp4")
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("z")
        await reads(pilot, "walk.mp4")
        await pilot.press("enter")
        await reads(pilot, "IMG_01-", ".jpg: for what?", "as it was before work on it")
        await pilot.press(*"evid", "enter")
        await reads(pilot, "IMG_01-", ".jpg: evidence", "the vehicle as a whole")
        await pilot.press(*"roof", "enter", *"green under brown", "enter")
        await reads(
            pilot, "walk-", ".mp4: for what?", "=  again", "evidence, Roof, green under brown"
        )
        await pilot.press("2", "enter", "escape")  # left: nothing is written
        assert len(said_in(shop)) == 1
        await pilot.press("escape", "z")
        await reads(pilot, "= says again: evidence, Roof, green under brown")
        await pilot.press("u")
        await reads(pilot, "IMG_01.jpg")
    assert said_in(shop) == []


async def test_a_picture_shows_several_pieces_which_can_be_said_again(tmp_path: Path) -> None:
    shop = shop_with(tmp_path, 3)
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("z", "enter")
        await reads(pilot, "IMG_01-", ".jpg: for what?", "8  of no use")
        await pilot.press("1", *"rib2", "space", *"roof", "enter")
        await reads(pilot, "it is of some pieces, or of one component", "[x] Rib 2", "[x] Roof")
        await pilot.press(*"roof", "space", *"rib4", "enter", "enter")
        await reads(pilot, "IMG_02-", ".jpg: for what?", "=  again", "before, Ribs 2 and 4")
        await pilot.press("4")
        await reads(pilot, "IMG_02-", ".jpg: after", "Rib 2 and Rib 4")
        await pilot.press("enter", "enter")
        await reads(pilot, "IMG_03-", ".jpg: for what?")
        await pilot.press("2", *"rib9", "enter", "enter")  # others than the last
        await reads(pilot, "nothing waits to be sorted")
    two = ("cab/ribs/2", "cab/ribs/4")
    told = [(one.shows, one.pieces) for one in said_in(shop)]
    assert told == [("before", two), ("after", two), ("during", ("cab/ribs/9",))]


async def test_a_finding_cites_a_picture_or_the_minute_of_a_recording(tmp_path: Path) -> None:
    shop = shop_with(tmp_path, 1, "walk.mp4", "walk2.mp4")
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("z")
        await reads(pilot, "walk.mp4")
        await pilot.press("end", "space", "home", "space", "o", "enter")
        await reads(pilot, "walk2.mp4")
        await pilot.press("escape", "escape", "end", "o", "enter")
        await reads(pilot, "Found: ")
        await pilot.press(*"soft foot", "ctrl+s")
        await reads(pilot, "the next (1 finding so far)")  # a walk round the vehicle has many
        await pilot.press(*"loose cap", "ctrl+s")
        await reads(pilot, "the next (2 findings so far)")
        await pilot.press("escape")
        assert isinstance(app, CrewboardApp)
    found = [e.act for e in Folder(shop).logbook.record() if isinstance(e.act, Found)]
    assert [one.seen for one in found] == ["soft foot", "loose cap"]
    assert found[0].recording.startswith("recordings/2026/walk")
    assert found[0].recording == found[1].recording


async def test_a_piece_is_found_as_it_is_called_with_a_space_before_its_number(
    tmp_path: Path,
) -> None:
    shop = shop_with(tmp_path, 1)
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("z", "enter", "1")
        await reads(pilot, "the vehicle as a whole")
        await pilot.press(*"rib", "space", "3", "space")  # the second space marks
        await reads(pilot, "[x] Rib 3", "[ ] Rib 1")
        await pilot.press(*"rib", "space", "space", "enter", "enter")  # the first of them, marked
        await reads(pilot, "nothing waits to be sorted")
    assert [one.pieces for one in said_in(shop)] == [("cab/ribs/1", "cab/ribs/3")]


async def test_the_question_shows_the_picture_and_offers_nothing_of_another_day(
    tmp_path: Path,
) -> None:
    shop = shop_with(tmp_path, 2)
    said = Pictured(f"pictures/2026/{first_file(shop)}", "after", ("cab/ribs/1",))
    assert Workbench(shop).record([Said(said, SATURDAY)], by="ada", now=SATURDAY).kept
    app = open_app(shop, Watch(SATURDAY + timedelta(days=30)), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("z")
        text = await reads(pilot, "IMG_02.jpg")
        assert "says again" not in text
        await pilot.press("enter")
        text = await reads(pilot, "for what?", "z shows it")
        assert "=  again" not in text
        await pilot.press("z")
        await reads(pilot, "Pictures", "pictures/2026/IMG_02")
        await pilot.press("escape")
        await reads(pilot, "for what?")
        await pilot.press("escape", "slash", *"nobody", "enter")
        text = await reads(pilot, 'nothing matches "nobody"')
        assert "Nothing waits" not in text


def first_file(shop: Path) -> str:
    return min(path.name for path in (shop / "pictures/2026").iterdir())


async def test_pictures_are_taken_in_with_a_key_and_what_was_passed_over_is_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("crewboard.folder.intake.looked_through.MOST", 200)
    shop = make_shop(tmp_path / "van")
    phone = tmp_path / "phone"
    put(phone, "IMG_01.jpg", jpeg("2026:05:01 09:00:00"))
    put(phone, "notes.jpg", b"words")
    put(phone, "long.mp4", MP4 * 9)
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("o", *"take in", "enter")
        await reads(pilot, "from which folder")
        await pilot.press(*"/nowhere", "enter")
        await reads(pilot, "there is no such folder or file")
        await pilot.press(*["backspace"] * 8, *str(phone), "enter")
        await reads(pilot, "1 file of 500 MB or more")
        await pilot.press("enter")
        await reads(pilot, "2 files taken in", "notes.jpg: it is neither a picture")
        await pilot.press("enter", "z")
        await reads(pilot, "long.mp4", "IMG_01.jpg")


async def test_a_pasted_text_is_shown_as_findings_and_saved_all_or_none(tmp_path: Path) -> None:
    shop = make_shop(tmp_path / "van", components={"cab": RIBS, "bay": RIBS.replace("Cab", "Bay")})
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("z", "o", *"paste", "enter")
        await reads(pilot, "Findings, a line each")
        await pilot.press(*"rib 3: soft", "enter", *"Roof: green", "enter", *"a tin of screws")
        await reads(pilot, "the vehicle: a tin of screws", "Which?")
        await pilot.press("ctrl+s")
        await reads(pilot, "line 1 could be of several things")
        assert not list(Folder(shop).logbook.record())
        await pilot.press("up", "up", "home", *"bay ")
        await reads(pilot, "Rib 3 (Bay): soft")
        await pilot.press("ctrl+s")
        await reads(pilot, "saved: 3 findings")
    found = [e.act for e in Folder(shop).logbook.record() if isinstance(e.act, Found)]
    assert [(one.seen, one.piece, one.component) for one in found] == [
        ("soft", "bay/ribs/3", ""),
        ("green", "", "roof"),
        ("a tin of screws", "", ""),
    ]
