"""Forms, jigs and stands that work and its hold occupy, as facts of the work, by commands."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.a_shop import VEHICLE, AShop
from tests.command.calling import Shell

FORM = '[jigs.form]\nname = "Bending form"\ncount = {}\n'
ARCHES = """\
name = "Arches"
[pieces.arches]
name = "Arch"
count = 4
[tasks.bend]
title = "Bend"
each = ["arches"]
hours = [1, 2, 3]
uses = ["form"]
hold = { kind = "bend set", lasts = "2 days" }
"""


@pytest.fixture
def shop(call: Shell, tmp_path: Path) -> AShop:
    shop = AShop(call, tmp_path / "wagon")
    shop.write(ARCHES, vehicle=VEHICLE + FORM.format(1))
    return shop


def test_a_form_that_is_free_only_on_monday_keeps_the_next_bend_until_then(shop: AShop) -> None:
    shop.do("bend/arches/1", "09:10", "11:00")
    in_use = 'in use by "Bend: Arch 1", until Mon 4 May 2026 11:00'
    assert shop.state("bend/arches/2", "11:01") == "waiting"
    assert f"Bending form: {in_use}" in shop.told("why", "bend/arches/2", at="11:01")
    assert f"Waiting for Bending form, {in_use}" in shop.told("day", at="11:01")
    refused = shop.say("begin", "bend/arches/2", "--who", "ada", at="11:01")
    assert f'"Bend: Arch 2" cannot begin yet. First: Bending form ({in_use})' in refused.err
    task = shop.call("task", shop.folder, "bend/arches/2", *shop.at("11:01"), "--json").form["task"]
    assert task["jigs"] == ["form"]
    assert task["until"] == "2026-05-04T11:00:00"
    shop.day = "2026-05-04"
    shop.kept("release", "bend/arches/1", at="11:05")
    assert shop.state("bend/arches/2", "11:06") == "ready"


def test_while_the_bend_is_made_the_form_is_in_use_too(shop: AShop) -> None:
    shop.kept("begin", "bend/arches/1", "--who", "ada", at="09:10")
    assert 'in use by "Bend: Arch 1", under way' in shop.told("why", "bend/arches/2", at="09:20")


def test_of_two_forms_the_one_that_is_free_first_counts(shop: AShop) -> None:
    shop.write(ARCHES, vehicle=VEHICLE + FORM.format(2))
    shop.do("bend/arches/1", "09:10", "11:00")
    assert shop.state("bend/arches/2", "11:01") == "ready"
    shop.do("bend/arches/2", "11:10", "13:00")
    why = shop.told("why", "bend/arches/3", at="13:01")
    assert '"Bend: Arch 1", until Mon 4 May 2026 11:00 and "Bend: Arch 2", until Mon' in why
    task = shop.call("task", shop.folder, "bend/arches/3", *shop.at("13:01"), "--json").form["task"]
    assert task["until"] == "2026-05-04T11:00:00"


def test_a_bend_that_is_set_aside_half_done_frees_the_form(shop: AShop) -> None:
    shop.kept("begin", "bend/arches/1", "--who", "ada", at="09:10")
    assert shop.state("bend/arches/2", "09:20") == "waiting"
    shop.kept("set-aside", "bend/arches/1", "--why", "no steam today", at="09:30")
    assert shop.state("bend/arches/2", "09:31") == "ready"


@pytest.mark.parametrize("again", [(), ("--again",)])
@pytest.mark.parametrize("finished", [True, False])
def test_an_arch_that_failed_frees_the_form(
    shop: AShop, finished: bool, again: tuple[str, ...]
) -> None:
    shop.kept("begin", "bend/arches/1", "--who", "ada", at="09:10")
    if finished:
        shop.kept("finish", "bend/arches/1", at="10:00")
    assert shop.state("bend/arches/2", "10:01") == "waiting"
    shop.kept("fail", "arches/1", "--why", "split at a knot", *again, at="10:30")
    assert shop.state("bend/arches/2", "10:31") == "ready"
