"""The recipe "A hazard" of DEVELOPERS.md, followed with a toy: a sheet that comes with the
program, and the same sheet in a crew's own file. It is shown, asked for, and stops a begin."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from crewboard.folder.read import hazard_sheets
from tests.command.calling import Shell, open_shop
from tests.terminal.shop import make_shop, open_app, reads

FORM = """
name = "Bees under the roof"
harm = ["A swarm that is shaken stings; some people stop breathing."]
gear = ["a veil and gloves"]
if_wrong = ["Stung in the mouth or throat: call for help at once."]
under_18 = false
under_18_why = "a swarm gives no second chance"

[card]
kills = "A sting in the throat; a swarm on one person."
wear = ["veil and gloves"]
check = ["watch it for {watch}, from {away} off"]
wrong = ["Stung in the mouth or throat: call for help at once."]
look_up = ["who keeps bees near you"]

[checks.quiet]
title = "swarm quiet"
when = "before"
text = "The swarm was watched for {watch} and is quiet."
every = "task a day"

[numbers.watch]
value = 20
unit = "min"
says = "how long a swarm is watched before the work"
source = "the crew's beekeeper"
where = "the yard"
edition = "her word"
read = 2026-04-01
mark = "crew's rule"

[numbers.away]
value = 10
unit = "ft"
says = "a swarm is watched from {away} off"
source = "the crew's beekeeper"
where = "the yard"
edition = "her word"
mark = "crew's rule"
safe = "more"
"""
ROOF = 'name = "Eaves"\n\n[tasks.clear]\ntitle = "Clear the eaves"\nhazards = ["roof-bees"]\n'
AT = ("--at", "2026-05-02T10:00", "--by", "ada")


@pytest.fixture(params=["a sheet of the program", "a sheet of the crew"])
def shop(
    request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Iterator[Path]:
    """A shop with work beside bees; the sheet stands in either place."""
    shop = make_shop(tmp_path / "van", components={"eaves": ROOF})
    if request.param == "a sheet of the crew":
        own = FORM.replace("[checks.", "[roof-bees.checks.").replace("[numb", "[roof-bees.numb")
        own = own.replace("[card]", "[roof-bees.card]")
        (shop / "hazards.toml").write_text(f"[roof-bees]{own}", encoding="utf-8")
        yield shop
        return
    sheets = tmp_path / "hazards"
    shutil.copytree(hazard_sheets._SHEETS, sheets)
    (sheets / "roof-bees.toml").write_text(FORM, encoding="utf-8")
    monkeypatch.setattr(hazard_sheets, "_SHEETS", str(sheets))
    hazard_sheets.built_in_ids.cache_clear()
    yield shop
    hazard_sheets.built_in_ids.cache_clear()


@pytest.fixture
def call(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Shell:
    monkeypatch.setenv("COLUMNS", "100")
    return Shell(capsys)


def test_the_sheet_is_listed_printed_and_no_mistake(shop: Path, call: Shell) -> None:
    assert "roof-bees" in call("hazards", shop).out
    sheet = " ".join(call("hazards", shop, "roof-bees").out.split())
    assert "The swarm was watched for 20 min and is quiet." in sheet
    assert "crew's rule" in sheet
    card = " ".join(call("hazards", shop, "bees under the roof", "--card").out.split())
    assert "What kills or maims A sting in the throat; a swarm on one person." in card
    assert "watch it for 20 min, from 3.1 m (10 ft) off" in card
    assert "veil and gloves" in sheet
    assert call("check", shop).code == 0


def test_its_check_is_asked_for_wherever_the_task_is_told(shop: Path, call: Shell) -> None:
    assert "1 check to sign first" in call("day", shop, *AT[:2]).out
    task = " ".join(call("task", shop, "clear", *AT[:2]).out.split())
    assert "roof-bees" not in task
    assert "Bees under the roof" in task
    assert "A sting in the throat; a swarm on one person." in task
    assert "swarm quiet: The swarm was watched for 20 min and is quiet." in task
    assert "Clear the eaves" in call("briefing", shop, *AT[:2]).out


async def test_the_screen_shows_it(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(120, 40)) as pilot:
        await reads(pilot, "Clear the eaves")
        await pilot.press("slash", *"eaves", "enter")
        await reads(pilot, "1 check to sign first")


def test_the_work_begins_only_when_its_check_is_signed(shop: Path, call: Shell) -> None:
    assert call("sign-in", shop, "ada", "ben", *AT).code == 0
    refused = call("begin", shop, "clear", "--who", "ada", *AT)
    assert refused.code != 0
    assert "quiet" in refused.err
    open_shop(call, shop, *AT)
    assert call("sign", shop, "clear", "quiet", *AT).code == 0
    assert call("begin", shop, "clear", "--who", "ada", *AT).code == 0
