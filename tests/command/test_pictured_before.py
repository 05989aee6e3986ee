"""Work that closes, strips, blasts or cuts asks for a picture of how it was."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.a_shop import AShop
from tests.command.calling import Shell

FRAME = """\
name = "Frame"
[pieces.ribs]
name = "Rib"
count = 2
[tasks.strip]
title = "Take the coat off the ribs"
changes = "strips"
each = ["ribs"]
[tasks.close]
title = "Close the wall"
changes = "closes"
[tasks.rub]
title = "Rub down"
"""


@pytest.fixture
def shop(call: Shell, tmp_path: Path) -> AShop:
    shop = AShop(call, tmp_path / "wagon")
    shop.write(FRAME)
    (shop.folder / "pictures").mkdir()
    for name in ("rib.jpg", "wall.jpg"):
        (shop.folder / "pictures" / name).write_bytes(b"\xff\xd8\xff\xe0picture")
    for who in ("ada", "tom"):
        shop.kept("sign-in", who, at="09:00")
    return shop


def test_it_is_asked_of_each_piece_and_only_of_such_work(shop: AShop) -> None:
    refused = shop.say("begin", "strip/ribs/1", "--who", "tom", at="10:00")
    assert "strips what was there, and there is no picture of Rib 1" in refused.err
    shop.kept("caption", "pictures/rib.jpg", "--shows", "before", "--piece", "ribs/1", at="10:01")
    shop.kept("begin", "strip/ribs/1", "--who", "tom", at="10:02")
    assert "Rib 2" in shop.say("begin", "strip/ribs/2", "--who", "ada", at="10:03").err
    shop.kept("begin", "rub", "--who", "ada", at="10:04")


def test_a_finding_with_a_picture_on_the_component_will_do_where_no_piece_is_named(
    shop: AShop,
) -> None:
    assert "no picture of Frame" in shop.say("begin", "close", "--who", "tom", at="10:00").err
    found = ("found", "old wire behind it", "--component", "frame")
    shop.kept(*found, "--pictures", "pictures/wall.jpg", at="10:01")
    shop.kept("begin", "close", "--who", "tom", at="10:02")


def test_a_picture_of_afterwards_will_not_do(shop: AShop) -> None:
    of_rib = ("pictures/rib.jpg", "--piece", "ribs/1")
    shop.kept("caption", *of_rib, "--shows", "after", at="10:00")
    assert shop.say("begin", "strip/ribs/1", "--who", "tom", at="10:02").code != 0


def test_only_a_lead_may_say_why_there_is_none(shop: AShop) -> None:
    reason = ("begin", "close", "--who", "tom", "--despite", "the camera is broken")
    assert shop.say(*reason, at="10:00", by="tom").code != 0
    assert shop.say(*reason, at="10:00", by="ada").code == 0


def test_a_size_decided_on_and_what_was_found_stand_on_the_sheet_of_its_task(shop: AShop) -> None:
    size = ("decide-size", "gap between the boards", "3 mm", "--task", "close")
    shop.kept(*size, "--why", "most old gaps measured 3 mm", at="10:00")
    shop.kept("found", "an old wire behind it", "--component", "frame", at="10:01")
    sheet = shop.call("task", shop.folder, "close", *shop.at("10:05")).out
    assert "gap between the boards: 3 mm (most old gaps measured 3 mm)" in " ".join(sheet.split())
    assert "an old wire behind it" in sheet
    assert "gap" not in shop.call("task", shop.folder, "rub", *shop.at("10:05")).out
