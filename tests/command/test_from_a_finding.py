"""What comes of a finding names it: a task, a hold, a piece kept for ever, an order."""

from __future__ import annotations

import re
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest

from crewboard.folder.read.folder import Folder
from crewboard.wall_clock import real_now
from tests.command.a_shop import AShop
from tests.command.calling import Shell

FRAME = """\
name = "Frame"
[parts.feet]
name = "Feet"
[pieces.ribs]
name = "Rib"
count = 2
part = "feet"
[tasks.rub]
title = "Rub down"
"""


@pytest.fixture
def shop(call: Shell, tmp_path: Path) -> AShop:
    shop = AShop(call, tmp_path / "wagon")
    shop.write(FRAME)
    (shop.folder / "supplies.toml").write_text('[supplies.glue]\nname = "Glue"\n')
    shop.kept("found", "a split at the foot", "--piece", "ribs/2", at="09:00")
    shop.kept("found", "the yard floods", at="09:01")
    return shop


def finding(shop: AShop) -> str:
    log: dict[str, Any] = shop.call("log", shop.folder, "--json").form
    return next(str(e["id"]) for e in log["entries"] if e.get("seen") == "a split at the foot")


def test_a_task_is_done_to_its_piece_in_its_part_and_shows_the_finding(shop: AShop) -> None:
    ended = shop.say("from-finding", "a split at the foot", "--task", "Splice the foot", at="09:05")
    assert ended.code == 0, ended.err
    sheet = shop.call("task", shop.folder, "splice-the-foot", *shop.at("09:10")).out
    assert "It came from the finding" in sheet
    assert "a split at the foot" in sheet
    written = (shop.folder / "components/frame.toml").read_text()
    assert f'finding = "{finding(shop)}"' in written
    assert 'pieces = ["ribs/2"]' in written
    assert 'part = "feet"' in written
    added = re.search(r"^added = (\S+)$", written, re.MULTILINE)
    assert added
    # The day is the shop's, which near midnight is not the day of the computer's own zone.
    day = real_now(Folder(shop.folder).plan).date()
    assert day - timedelta(days=1) <= date.fromisoformat(added[1]) <= day


def test_a_piece_may_be_of_a_kind_that_is_called_as_its_component(shop: AShop) -> None:
    (shop.folder / "components/panels.toml").write_text(
        'name = "Panels"\n[pieces.panels]\nname = "Panel"\ncount = 2\n'
    )
    shop.kept("found", "a thumb print", "--piece", "panels/2", at="09:02")
    ended = shop.say("from-finding", "a thumb print", "--task", "Draw the print", at="09:05")
    assert ended.code == 0, ended.err
    written = (shop.folder / "components/panels.toml").read_text()
    assert 'pieces = ["panels/2"]' in written
    assert shop.call("check", shop.folder).code == 0


def test_a_hold_and_an_order_name_it(shop: AShop) -> None:
    shop.kept("from-finding", "a split at the foot", "--hold", "decision", at="09:05")
    shop.kept("from-finding", finding(shop), "--order", "glue", at="09:06")
    entries = shop.call("log", shop.folder, "--json").form["entries"]
    assert [e["finding"] for e in entries if e["kind"] in ("hold", "ordered")] == [
        finding(shop),
        finding(shop),
    ]


def test_its_piece_is_kept_for_ever_because_of_it(shop: AShop) -> None:
    shop.kept("from-finding", "a split at the foot", "--keep", at="09:05")
    said = shop.call("pieces", shop.folder, "ribs/2").out
    assert "kept for ever" in said
    assert "a split at the foot" in said


def test_what_cannot_come_of_it_is_a_sentence(shop: AShop) -> None:
    nowhere = shop.say("from-finding", "the yard floods", "--task", "Drain it", at="09:05")
    assert "the finding is on no component" in nowhere.err
    assert (
        "the finding is on no piece"
        in shop.say("from-finding", "the yard floods", "--keep", at="09:05").err
    )
    both = shop.say("from-finding", "the yard floods", "--keep", "--order", "glue", at="09:05")
    assert "say one thing that comes of it" in both.err
    assert "there is no finding" in shop.say("from-finding", "gold", "--keep", at="09:05").err
