"""`added`: when a task came into the plan."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.a_shop import AShop
from tests.command.calling import Shell

FRAME = """\
name = "Frame"
[tasks.rub]
title = "Rub down"
added = {}
"""


@pytest.fixture
def shop(call: Shell, tmp_path: Path) -> AShop:
    return AShop(call, tmp_path / "wagon")


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ("1798-05-02", '"added" is in the year 1798; write a year from 1800 to 2200'),
        ("2199-05-02", '"Rub down" came into the plan on Thu 2 May 2199, which is still to come'),
        ('"May"', '"added" is a text; write a date'),
    ],
)
def test_a_date_on_which_it_cannot_have_come_is_one_sentence(
    shop: AShop, written: str, told: str
) -> None:
    shop.write(FRAME.format(written))
    ended = shop.call("check", shop.folder)
    assert told in ended.out
    assert "components/frame.toml:4" in ended.out
    assert ended.out.count("added") + ended.out.count("came into the plan") == 1
