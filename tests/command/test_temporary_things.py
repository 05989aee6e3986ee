"""Props, straps and over-long ends: in the way of the task before which they must be undone."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.a_shop import AShop
from tests.command.calling import Shell

FRAME = """\
name = "Frame"
[tasks.joints]
title = "Glue the joints"
[tasks.deck]
title = "Lay the deck"
after = ["joints"]
[tasks.paint]
title = "Paint the outside"
"""


@pytest.fixture
def shop(call: Shell, tmp_path: Path) -> AShop:
    shop = AShop(call, tmp_path / "wagon")
    shop.write(FRAME)
    for who in ("ada", "tom"):
        shop.kept("sign-in", who, at="09:00")
    shop.kept("temporary", "props under the sill", "--before", "deck", "paint", at="09:10")
    return shop


def why(shop: AShop, task: str) -> str:
    return shop.call("why", shop.folder, task, *shop.at("10:00")).out


def test_it_stands_in_the_why_of_the_task_whether_that_is_ready_or_waits(shop: AShop) -> None:
    assert "undo first: props under the sill" in why(shop, "paint")
    assert "undo first: props under the sill" in why(shop, "deck")
    assert "props" not in why(shop, "joints")


def test_the_task_begins_only_with_a_reason_until_it_is_undone(shop: AShop) -> None:
    refused = shop.say("begin", "paint", "--who", "ada", at="10:00")
    assert refused.code != 0
    assert 'before "Paint the outside" something temporary must be undone: props' in refused.err
    shop.kept("undone", "props under the sill", at="10:05")
    shop.kept("begin", "paint", "--who", "ada", at="10:10")


def test_a_named_reason_overrules_it(shop: AShop) -> None:
    reason = ("--despite", "they stand inside")
    assert shop.say("begin", "paint", "--who", "ada", *reason, at="10:00").code == 0


def test_it_cannot_be_undone_twice_and_taking_the_undoing_back_puts_it_back(shop: AShop) -> None:
    shop.kept("undone", "props under the sill", at="10:00")
    other = shop.say("undone", "props under the roof", at="10:01").err
    assert 'there is no temporary thing "props under the roof"' in other
    assert '"props under the sill"' in other
    again = shop.say("undone", "props under the sill", at="10:01")
    assert "undone already" in again.err
    assert shop.call("undo", shop.folder, "--by", "ada").code == 0
    assert "undo first" in why(shop, "paint")
