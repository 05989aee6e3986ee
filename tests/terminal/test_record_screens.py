"""The pages of the record: what is jotted down from a task or piece, and where it is read again."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot
from textual.widgets import Static

from crewboard.logbook.acts import DoneTo, Found, Pictured, SignIn, Stored
from crewboard.logbook.kinds import KINDS_OF_ENTRY
from crewboard.terminal.app import CrewboardApp
from crewboard.terminal.doing.jot import jotted_by_hand
from crewboard.terminal.letters import AT_ONCE
from crewboard.terminal.screens.fabric import FabricPage
from crewboard.terminal.screens.findings import FindingsPage
from crewboard.workbench import Said, Workbench
from crewboard.workbench.taking_in import take_in
from tests.intake.a_camera import jpeg, plain, put
from tests.terminal.shop import SATURDAY, asked, make_shop, open_app, reads, until

PIECES = """
[pieces.ribs]
name = "Rib"
count = 3
as_found = "original"

[tasks.new-rib]
title = "Make rib 1 anew"
pieces = ["ribs/1"]
"""


def shop_with_pieces(folder: Path, *acts: object) -> Path:
    shop = make_shop(folder)
    with (shop / "components/frame.toml").open("a") as file:
        file.write(PIECES)
    bench = Workbench(shop)
    for act in (SignIn("ada"), *acts):
        assert bench.record([Said(act, SATURDAY)], by="ada", now=SATURDAY).kept  # type: ignore[arg-type]
    return shop


def said_in(shop: Path, kind: type) -> list[Any]:
    """What the record holds of a kind."""
    return [e.act for e in Workbench(shop).logbook.record() if isinstance(e.act, kind)]


def labels(app: CrewboardApp) -> set[str]:
    """What the form asks for now."""
    shown = (line for line in app.screen.query(".field") if line.display)
    return {str(line.query_one(".label", Static).content) for line in shown}


async def keys(pilot: Pilot[int], text: str) -> int:
    """Type it; how many keys that were."""
    for letter in text:
        await pilot.press("space" if letter == " " else letter)
    return len(text)


async def test_an_old_piece_goes_to_a_shelf_in_under_twelve_keys(tmp_path: Path) -> None:
    """From the page of the fabric: jot, put away, the shelf that was named before."""
    olds = (
        DoneTo("frame/ribs/1", "replaced in kind"),
        Stored("frame/ribs/1", "shelf 3", old=True),
        DoneTo("frame/ribs/2", "replaced in kind"),
    )
    app = open_app(shop_with_pieces(tmp_path / "van", *olds))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("0")
        await reads(pilot, "replaced in kind", "shelf 3", "33 % original by pieces")
        count = 1
        await pilot.press("down")
        await pilot.press("j")
        await until(pilot, lambda: "For the record: Rib 2" in asked(app))
        count += 2 + await keys(pilot, "5")
        await until(pilot, lambda: "Where does it lie now? Rib 2" in asked(app))
        await pilot.press("enter")
        count += 1
        await reads(pilot, "put away: Rib 2, shelf 3")
    assert count < 12, count
    stored = [e.act for e in Workbench(tmp_path / "van").logbook.record()]
    assert Stored("frame/ribs/2", "shelf 3", old=True) in stored


@pytest.mark.parametrize("shelf", ["shelf 9", "hel", "SHELF 3"])
async def test_an_old_piece_goes_to_a_shelf_never_named_before(tmp_path: Path, shelf: str) -> None:
    """Seven keys besides its name. What occurs in a shelf named before is that shelf."""
    olds = (
        DoneTo("frame/ribs/1", "replaced in kind"),
        Stored("frame/ribs/1", "shelf 3", old=True),
        DoneTo("frame/ribs/2", "replaced in kind"),
    )
    app = open_app(shop_with_pieces(tmp_path / "van", *olds))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("0", "down", "j")
        await until(pilot, lambda: "For the record: Rib 2" in asked(app))
        await pilot.press("5")
        await until(pilot, lambda: "Where does it lie now? Rib 2" in asked(app))
        await keys(pilot, shelf)
        await until(pilot, lambda: ("a new place" in asked(app)) == (shelf != "SHELF 3"))
        await pilot.press("enter")
        named = "shelf 9" if shelf == "shelf 9" else "shelf 3"
        await reads(pilot, f"put away: Rib 2, {named}")
    assert Stored("frame/ribs/2", named, old=True) in said_in(tmp_path / "van", Stored)


async def test_a_finding_is_jotted_down_from_its_task_and_a_task_comes_of_it(
    tmp_path: Path,
) -> None:
    shop = shop_with_pieces(tmp_path / "van")
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Make rib 1 anew")
        while "Make rib 1 anew" not in getattr(app.screen, "chosen_task", "") and (
            getattr(app.screen, "chosen_task", "") != "frame/new-rib"
        ):
            await pilot.press("down")
        await pilot.press("j")
        await until(pilot, lambda: "For the record: Rib 1" in asked(app))
        await pilot.press("1")
        await until(pilot, lambda: "Found: Rib 1" in asked(app))
        await keys(pilot, "soft foot")
        await pilot.press("ctrl+s")
        await reads(pilot, "saved in the logbook")
        await pilot.press("0", "tab")
        await reads(pilot, "Findings (1)", "soft foot", "Rib 1")
        await pilot.press("enter")
        await until(pilot, lambda: "What comes of it" in asked(app))
        await pilot.press("enter")
        await until(pilot, lambda: "A task from the finding" in asked(app))
        await keys(pilot, "Splice it")
        await pilot.press("enter")
        await until(pilot, lambda: "frame/splice-it" in Workbench(shop).plan.tasks)
    bench = Workbench(shop)
    (finding,) = [e for e in bench.logbook.record() if isinstance(e.act, Found)]
    assert finding.act == Found("soft foot", piece="frame/ribs/1")
    task = bench.plan.tasks["frame/splice-it"]
    assert (task.finding, task.pieces) == (finding.id, ("frame/ribs/1",))


async def test_a_finding_with_a_picture_takes_under_25_keys(tmp_path: Path) -> None:
    """The picture is picked from those that wait, the one that was taken last first."""
    for hour in (7, 8):
        taken = f"2026:05:02 0{hour}:00:00"
        put(tmp_path / "phone", f"IMG_{hour}.jpg", jpeg(taken, colour=hour))
    shop = shop_with_pieces(tmp_path / "van")
    take_in(Workbench(shop), [str(tmp_path / "phone")], by="ada", at=SATURDAY, now=SATURDAY)
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("0")
        await reads(pilot, "Rib 1")
        count = 2
        await pilot.press("j", "1")
        await until(pilot, lambda: "Found: Rib 1" in asked(app))
        count += await keys(pilot, "soft foot")
        assert "kept" not in labels(app), "where a sample is kept is asked once there is one"
        while getattr(app.screen.focused, "field", None) is None:
            await pilot.press("down")
            count += 1
        await pilot.press("enter")
        await until(pilot, lambda: "Space mark" in asked(app))
        assert "IMG_8.jpg" in asked(app)
        await pilot.press("enter", "ctrl+s")
        count += 3
        await reads(pilot, "saved in the logbook")
    assert count < 25, count
    (finding,) = said_in(shop, Found)
    assert [plain(picture) for picture in finding.pictures] == ["pictures/2026/IMG_8.jpg"]


@pytest.mark.parametrize(
    ("digit", "asks", "asks_not"),
    [
        ("1", {"materials"}, {"evidence", "mark", "of the old kept, %"}),
        ("3", {"of the old kept, %", "mark", "materials"}, {"evidence"}),
        ("6", {"evidence", "borne out by", "mark"}, {"of the old kept, %"}),
        ("8", {"how"}, {"materials", "evidence", "mark", "can be undone"}),
    ],
    ids=["cleaned", "spliced", "copied", "moved"],
)
async def test_the_form_asks_what_the_action_needs(
    tmp_path: Path, digit: str, asks: set[str], asks_not: set[str]
) -> None:
    app = open_app(shop_with_pieces(tmp_path / "van"))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("0")
        await reads(pilot, "Rib 1")
        await pilot.press("j", "2")
        await until(pilot, lambda: "what was done" in asked(app))
        await pilot.press(digit)
        await until(pilot, lambda: bool(app.screen.query("#fields")))
        await pilot.pause()
        assert asks <= labels(app)
        assert not asks_not & labels(app)


async def test_a_picture_is_captioned_from_its_piece(tmp_path: Path) -> None:
    shop = shop_with_pieces(tmp_path / "van")
    put(shop / "pictures/2026", "foot.jpg", jpeg())
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("0")
        await reads(pilot, "Rib 1")
        await pilot.press("j", "4")
        await until(pilot, lambda: "Which pictures? Rib 1" in asked(app))
        await pilot.press("enter")
        await until(pilot, lambda: "for what?" in asked(app))
        await pilot.press("1")
        await until(pilot, lambda: "in words" in asked(app))
        await pilot.press("enter")
        await reads(pilot, "foot.jpg: before, Rib 1")
        await pilot.press("j")
        await until(pilot, lambda: "For the record" in asked(app))
        await pilot.press("enter")
        await until(pilot, lambda: "Which pictures? Rib 1" in asked(app))
    (said,) = said_in(shop, Pictured)
    assert said == Pictured("pictures/2026/foot.jpg", "before", ("frame/ribs/1",))


async def test_one_key_asks_at_once_what_j_asks_by_a_list(tmp_path: Path) -> None:
    app = open_app(shop_with_pieces(tmp_path / "van"))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("0")
        await reads(pilot, "Rib 1")
        for key, asks in (
            ("shift+f5", "Found: Rib 1"),
            ("shift+f6", "what was done"),
            ("shift+f7", "Measured: Rib 1"),
            ("shift+f8", "Which pictures? Rib 1"),
        ):
            await pilot.press(key)
            await until(pilot, partial(shown, app, asks))
            await pilot.press("escape")
            await until(pilot, lambda: isinstance(app.screen, FabricPage))
        await pilot.press("j")
        await until(pilot, partial(shown, app, "For the record: Rib 1"))
        for key in AT_ONCE.values():
            assert key in asked(app)


@pytest.mark.parametrize(
    ("key", "asks"),
    [("ctrl+f5", "A task from the finding"), ("ctrl+f6", "Start a hold"), ("ctrl+f8", "Ordered")],
)
async def test_one_key_makes_of_a_finding_what_enter_asks_by_a_list(
    tmp_path: Path, key: str, asks: str
) -> None:
    app = open_app(shop_with_pieces(tmp_path / "van", Found("soft foot", piece="frame/ribs/1")))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("0", "tab")
        await reads(pilot, "soft foot")
        await pilot.press(key)
        await until(pilot, partial(shown, app, asks))
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, FindingsPage))
        await pilot.press("ctrl+f7")
        await until(pilot, lambda: app.board.plan.pieces["frame/ribs/1"].keep)


def shown(app: CrewboardApp, words: str) -> bool:
    return words in asked(app)


def test_only_what_a_person_writes_is_offered_to_be_jotted_down() -> None:
    """A form that does not ask for all that a kind needs could not be saved."""
    offered = [kind for kind in KINDS_OF_ENTRY.values() if jotted_by_hand(kind)]
    assert {"found", "done", "bent", "undone"} <= {kind.word for kind in offered}
    assert not {"reckoned", "taken in"} & {kind.word for kind in offered}
