"""When work on a piece is finished it is asked where the old one lies: two keys answer it."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.fabric.unplaced import unplaced
from crewboard.logbook.acts import Begun, DoneTo, SignIn, Stored
from crewboard.workbench import Said, Workbench
from tests.terminal.shop import SATURDAY, asked, make_shop, open_app, reads, until

PIECES = """
[pieces.ribs]
name = "Rib"
count = 2
as_found = "original"

[tasks.new-rib]
title = "Make rib 1 anew"
pieces = ["ribs/1"]
"""


@pytest.mark.parametrize(
    ("done", "asks"),
    [("replaced in kind", "the old Rib 1"), ("spliced", "the part cut out of Rib 1")],
)
async def test_what_came_out_goes_to_a_shelf_named_before_in_two_keys(
    tmp_path: Path, done: str, asks: str
) -> None:
    shop = make_shop(tmp_path / "van")
    with (shop / "components/frame.toml").open("a") as file:
        file.write(PIECES)
    bench = Workbench(shop)
    acts = (
        SignIn("ada"),
        SignIn("ben"),
        DoneTo("frame/ribs/2", "replaced in kind"),
        Stored("frame/ribs/2", "shelf 3", old=True),
        Begun("frame/new-rib", ("ada",)),
        DoneTo("frame/ribs/1", done),
    )
    for act in acts:
        assert bench.record([Said(act, SATURDAY)], by="ada", now=SATURDAY).kept, act
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Make rib 1 anew")
        await pilot.press("f")
        await until(pilot, lambda: "finished at" in asked(app))
        await pilot.press("enter")
        await until(pilot, lambda: f"Where is {asks} now?" in asked(app))
        assert "shelf 3" in asked(app)
        assert "not known yet" in asked(app)
        await pilot.press("enter")
        await reads(pilot, "finished:")
    stored = [e.act for e in Workbench(shop).logbook.record() if isinstance(e.act, Stored)]
    assert stored[-1] == Stored("frame/ribs/1", "shelf 3", old=True)
    assert not list(unplaced(Workbench(shop).fabric(SATURDAY), ["frame/ribs/1"]))
