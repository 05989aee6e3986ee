"""Work that must not be left half done, as facts of the work, by commands."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.a_shop import AShop
from tests.command.calling import Shell

DOORS = """\
name = "Doors"
[tasks.glue]
title = "Glue up the door"
hours = [5, 6, 8]
people = [1, 2]
in_one_go = true
[tasks.badge]
title = "Rivet the badge"
hours = [1, 1, 1]
[tasks.dry-run]
title = "Clamp it up dry"
in_one_go = true
"""


@pytest.fixture
def shop(call: Shell, tmp_path: Path) -> AShop:
    shop = AShop(call, tmp_path / "wagon")
    shop.write(DOORS)
    for who in ("ada", "tom", "ines"):
        shop.kept("sign-in", who, at="09:00")
    return shop


def test_a_glue_up_that_would_be_left_half_done_is_begun_with_more_people_or_a_reason(
    shop: AShop,
) -> None:
    alone = shop.say("begin", "glue", "--who", "tom", at="11:00")
    assert alone.code != 0
    assert '"Glue up the door" must not be left half done: by its hours to go' in alone.err
    assert "(6 h, 1 person) it ends at 17:00, and the shop closes at 16:30" in alone.err
    shop.kept("begin", "glue", "--who", "tom", "ines", at="11:00")


def test_anybody_may_say_how_it_ends_in_time(shop: AShop) -> None:
    reason = ("--despite", "my brother brings four more hands at noon")
    begun = shop.say("begin", "glue", "--who", "tom", *reason, at="11:00", by="tom")
    assert begun.code == 0, begun.err


def test_three_pairs_of_hands_are_no_quicker_where_two_find_room(shop: AShop) -> None:
    refused = shop.say("begin", "glue", "--who", "ada", "tom", "ines", at="14:00")
    assert "(6 h, 2 people) it ends at 17:00" in refused.err


def test_the_ranking_says_not_today_once_no_crew_could_finish_it(shop: AShop) -> None:
    assert shop.not_today("glue", "11:00") == ""
    says = shop.not_today("glue", "14:00")
    assert says.startswith("not today: it must not be left half done: with 2 people it takes")
    assert "until 17:00, and the shop closes at 16:30" in says
    assert "not today: it must not be left half done" in shop.told("why", "glue", at="14:00")
    assert shop.board("14:00")["first"][-1]["task"] == "frame/glue"


def test_a_shop_that_stays_open_longer_leaves_time_enough(shop: AShop) -> None:
    shop.kept("open-until", "18:00", at="13:30")
    assert shop.not_today("glue", "14:00") == ""
    shop.kept("begin", "glue", "--who", "tom", "ines", at="14:00")


def test_where_nobody_said_how_long_it_takes_nothing_is_asked(shop: AShop) -> None:
    assert shop.not_today("dry-run", "16:00") == ""
    shop.kept("begin", "dry-run", "--who", "tom", at="16:00")


def test_the_last_one_on_it_does_not_go_home_without_a_word(shop: AShop) -> None:
    shop.kept("begin", "glue", "--who", "tom", "ines", at="10:00")
    shop.kept("sign-out", "ines", at="11:00")
    asked = shop.say("sign-out", "tom", at="11:10")
    assert asked.code != 0
    assert '"Glue up the door" must not be left half done, and would stay so' in asked.err
    reason = ("--despite", "the clamps are off, nothing is glued yet")
    assert shop.say("sign-out", "tom", *reason, at="11:10").code == 0


def test_nor_goes_on_to_other_work(shop: AShop) -> None:
    shop.kept("begin", "glue", "--who", "tom", at="09:10")
    asked = shop.say("begin", "badge", "--who", "tom", at="10:00")
    assert asked.code != 0
    assert "must not be left half done, and nobody is on it without Tom" in asked.err
    shop.kept("begin", "glue", "--who", "ines", at="10:00")
    shop.kept("begin", "badge", "--who", "tom", at="10:01")


def test_the_day_is_not_closed_over_a_glue_up_half_done_without_a_word(shop: AShop) -> None:
    shop.kept("begin", "glue", "--who", "tom", "ines", at="10:00")
    asked = shop.say("close-day", at="16:30")
    assert '"Glue up the door" must not be left half done, and would stay so' in asked.err
    shop.kept("finish", "glue", at="16:30")
    closed = shop.say("close-day", at="16:31")
    assert "half done" not in closed.err


def test_nor_is_it_stopped_for_the_day_without_a_word(shop: AShop) -> None:
    shop.kept("begin", "glue", "--who", "tom", "ines", at="10:00")
    asked = shop.say("stop", "glue", at="12:00")
    assert '"Glue up the door" must not be left half done, and would stay so' in asked.err
    shop.kept("stop", "glue", "--despite", "only the dry run is done", at="12:00")
    closed = shop.say("close-day", at="16:31")
    assert "half done" not in closed.err
