"""The pages of the record: what is jotted down from a task or piece, and where it is read again."""

from __future__ import annotations

from pathlib import Path

from textual.pilot import Pilot

from crewboard.logbook.acts import DoneTo, Found, SignIn, Stored
from crewboard.workbench import Said, Workbench
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
        count += 2 + await keys(pilot, "put")
        await pilot.press("enter")
        await until(pilot, lambda: "Where does it lie now? Rib 2" in asked(app))
        await pilot.press("enter")
        count += 2
        await reads(pilot, "put away: Rib 2, shelf 3")
    assert count < 12, count
    stored = [e.act for e in Workbench(tmp_path / "van").logbook.record()]
    assert Stored("frame/ribs/2", "shelf 3", old=True) in stored


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
        await pilot.press("enter")
        await until(pilot, lambda: "Found: Rib 1" in asked(app))
        count = 2 + await keys(pilot, "soft foot")
        await pilot.press("ctrl+s")
        await reads(pilot, "saved in the logbook")
        assert count + 1 < 25
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
