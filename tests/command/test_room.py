"""A place has room for so many jobs at a time, as facts of the work, by commands."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.a_shop import VEHICLE, AShop
from tests.command.calling import Shell

ROOM = '[shop.room]\n"paint tent" = {}\n'
DOORS = """\
name = "Doors"
[tasks.doors]
title = "Paint the doors"
place = "paint tent"
hours = [2, 3, 4]
[tasks.rails]
title = "Paint the rails"
place = "paint tent"
hours = [1, 2, 3]
[tasks.steps]
title = "Paint the steps"
place = "paint tent"
hours = [1, 2, 3]
[tasks.badge]
title = "Rivet the badge"
hours = [1, 1, 1]
"""


@pytest.fixture
def shop(call: Shell, tmp_path: Path) -> AShop:
    shop = AShop(call, tmp_path / "wagon")
    shop.write(DOORS, vehicle=VEHICLE + ROOM.format(1))
    for who in ("ada", "tom", "ines"):
        shop.kept("sign-in", who, at="09:00")
    return shop


def test_a_paint_tent_with_room_for_one_job_takes_no_second_one(shop: AShop) -> None:
    shop.kept("begin", "doors", "--who", "ada", at="09:10")
    refused = shop.say("begin", "rails", "--who", "tom", at="09:20")
    assert refused.code != 0
    full = 'the paint tent has room for 1 job at a time, and "Paint the doors" is under way there'
    assert full in refused.err
    short = 'the paint tent is full: "Paint the doors" is under way there'
    assert shop.not_today("rails", "09:20") == f"not now: {short}"
    assert f"not now: {short}" in shop.told("why", "rails", at="09:20")
    assert shop.not_today("badge", "09:20") == ""


def test_anybody_may_say_why_there_is_room(shop: AShop) -> None:
    shop.kept("begin", "doors", "--who", "ada", at="09:10")
    reason = ("--despite", "the rails hang in the corner")
    begun = shop.say("begin", "rails", "--who", "tom", *reason, at="09:20", by="tom")
    assert begun.code == 0, begun.err
    joined = shop.say("begin", "rails", "--who", "ines", at="09:30")
    assert joined.code == 0, joined.err


def test_a_place_is_free_once_its_work_is_finished_or_everybody_has_left_it(shop: AShop) -> None:
    shop.do("doors", "09:10", "10:00")
    shop.kept("begin", "rails", "--who", "tom", at="10:10")
    assert shop.not_today("steps", "10:20")
    shop.kept("begin", "badge", "--who", "tom", at="10:30")
    assert shop.not_today("steps", "10:31") == ""
    shop.kept("begin", "steps", "--who", "ada", at="10:40")


def test_whoever_leaves_the_job_in_a_place_makes_room_for_their_next_one(shop: AShop) -> None:
    shop.kept("begin", "doors", "--who", "ada", at="09:10")
    shop.kept("begin", "rails", "--who", "ada", at="09:20")


def test_people_come_to_a_job_that_is_in_the_place_already(shop: AShop) -> None:
    shop.kept("begin", "doors", "--who", "ada", at="09:10")
    shop.kept("begin", "doors", "--who", "tom", at="09:20")


def test_room_for_two_takes_a_second_job_and_no_third(shop: AShop) -> None:
    shop.write(DOORS, vehicle=VEHICLE + ROOM.format(2))
    shop.kept("begin", "doors", "--who", "ada", at="09:10")
    shop.kept("begin", "rails", "--who", "tom", at="09:20")
    refused = shop.say("begin", "steps", "--who", "ines", at="09:30")
    assert 'room for 2 jobs at a time, and "Paint the doors" and "Paint the rails" are' in (
        refused.err
    )


def test_where_nobody_said_how_much_room_there_is_nothing_is_asked(shop: AShop) -> None:
    shop.write(DOORS)
    shop.kept("begin", "doors", "--who", "ada", at="09:10")
    shop.kept("begin", "rails", "--who", "tom", at="09:20")


def test_room_for_a_place_that_nobody_works_in_is_asked_about(shop: AShop) -> None:
    shop.write(DOORS, vehicle=VEHICLE + '[shop.room]\n"paint tnet" = 1\n')
    checked = shop.told("check", at="09:00")
    assert 'vehicle.toml:8:1: no task is done in the place "paint tnet"' in checked
    assert 'did you mean "paint tent"?' in checked
