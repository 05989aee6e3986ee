"""A task's sheet, its checks for several people, and the picture of a screen."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.logbook.acts import Finished, HoursWorked, Noted, SignIn
from crewboard.order.safety.checks import checks_of, checks_of_the_day
from crewboard.telling.hazard_sheet import hazard_lines
from crewboard.telling.task import full_sheet, short_sheet
from crewboard.telling.why import then_lines
from crewboard.terminal.dialogs.checks import ChecksDialog
from crewboard.terminal.screens.task_sheet import TaskSheetPage
from crewboard.terminal.screenshot import main as screenshot_command
from crewboard.terminal.screenshot import set_in
from crewboard.workbench import Said, Workbench
from tests.terminal.shop import (
    SATURDAY,
    asked,
    day_file,
    make_shop,
    open_app,
    reads,
    sign_each,
    types,
    until,
)

DANGEROUS = """\
name = "Kettle"

[tasks.strip]
title = "Mend the kettle"
method = "Slowly."
hazards = ["hot-work", "noise", "manual-handling", "heat-and-cold"]
people = [2, 3]
pictures = ["drawings/kettle.svg"]
"""


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    root = make_shop(tmp_path / "van", components={"kettle": DANGEROUS})
    said = [Said(SignIn(who), SATURDAY) for who in ("ada", "ben", "dov")]
    said += [
        Said(HoursWorked("ada", 2.0, "frame/scrape", "one side"), SATURDAY),
        Said(Noted("rust under the plate", "frame/scrape"), SATURDAY),
    ]
    assert Workbench(root).record(said, by="ada", now=SATURDAY).kept
    return root


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_enter_opens_the_whole_sheet_and_escape_goes_back(
    shop: Path, size: tuple[int, int]
) -> None:
    app = open_app(shop)
    async with app.run_test(size=size) as pilot:
        await reads(pilot, "Scrape the frame")
        await pilot.press("slash", *"scrape", "enter", "enter")
        await until(pilot, lambda: isinstance(app.screen, TaskSheetPage))
        await reads(pilot, "ready", "2 to 8 person-hours, most likely 4", "2 h so far")
        await pilot.press("end")
        await reads(pilot, "In the logbook", "rust under the plate")
        await pilot.press("escape")
        await until(pilot, lambda: not isinstance(app.screen, TaskSheetPage))


def test_the_sheet_holds_every_check_with_source_mark_and_caution(shop: Path) -> None:
    board = Workbench(shop).board(SATURDAY)
    lines = full_sheet(board, "kettle/strip")
    text = "\n".join(f"{line.word} {line.text}" for line in lines)
    assert "A check passed here authorises nothing" in text
    for hazard_id in ("hot-work", "noise", "manual-handling", "heat-and-cold"):
        hazard = board.plan.hazards[hazard_id]
        assert hazard.name in text
        for check in hazard.checks:
            assert hazard.told(check.text) in text
        whole = "\n".join(line.text for line in hazard_lines(hazard, board.plan.sheets))
        for number in hazard.numbers:
            assert number.source in whole
            mark = "unverified" if number.mark == "from memory" else number.mark
            assert mark in whole
        for gear in hazard.gear:
            assert hazard.told(gear) in text
    assert "drawings/kettle.svg" in text


def test_the_short_sheet_says_what_is_to_sign_and_when_hot_work_must_end(shop: Path) -> None:
    board = Workbench(shop).board(SATURDAY)
    text = "\n".join(f"{each.word} {each.text}" for each in short_sheet(board, "kettle/strip"))
    assert "to sign before it begins" in text
    assert "must end by 15:00: hot work, for its fire watch (60 min)" in text
    assert "authorises nothing" in text


async def test_four_dangers_are_read_one_by_one_signed_and_begun_for_three_people_in_few_keys(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A key for each check that is read, and some to say who works and who signs."""
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "3 here")
        await pilot.press("slash", *"kettle", "enter")
        keys = ["b"]
        await pilot.press("b")
        await reads(pilot, 'Who works on "Mend the kettle')
        who = [*"ada", "space", *"ben", "space", *"dov", "space", "enter"]
        await pilot.press(*who)
        await reads(pilot, "Who is the fire watcher")
        keys.append("enter")
        await pilot.press("enter")
        await reads(pilot, 'Checks: "Mend the kettle', "These checks come before the work")
        signing = await sign_each(pilot)
        await reads(pilot, 'begun: "Mend the kettle')
    opening = checks_of_the_day(Workbench(shop).board(SATURDAY), "before")
    checks = [*opening, *checks_of(Workbench(shop).board(SATURDAY), "kettle/strip", when="before")]
    words = sum(len(check.text.split()) for check in checks)
    with capsys.disabled():
        print(
            f"\n{len(checks)} checks of {words} words: {len(keys) + len(who)} keys to name the "
            f"people, {signing} to sign; about {words / 3.3 + 0.3 * (signing + len(who)):.0f} s"
        )
    assert signing <= len(checks) + 30  # the rest says why there is no first-aider
    board = Workbench(shop).board(SATURDAY)
    assert board["kettle/strip"].state == "under way"
    assert board["kettle/strip"].crew == ("ada", "ben", "dov")
    before = checks_of(board, "kettle/strip", when="before")
    assert len({each.hazard.id for each in before}) == 4
    assert {each.answer for each in before} == {"signed"}
    assert {each.signed_by for each in before if not each.who} == {"ada"}


async def test_each_check_is_signed_by_itself_by_who_writes_where_they_may(shop: Path) -> None:
    app = open_app(shop, by="ben")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "3 here")
        await pilot.press("slash", *"kettle", "enter", "c")
        await reads(
            pilot, 'Checks: "Mend the kettle', "Ways out are clear", "s, Enter sign as Ben Holt"
        )
        await pilot.press("s")
        await reads(pilot, "10:00, Ben", "The first-aid kit is full")
        assert day_file(shop).count('kind = "check"') == 1
        await pilot.press("down", "down")  # past the heater, to the area of hot work
        text = await reads(pilot, "Nothing that burns lies within")
        assert "sign as Ben" not in text  # it wants a certificate that he has not
        await pilot.press("a", "space")  # neither ticks anything
        await pilot.press("s")
        await reads(pilot, "Who signs?", "may not sign this")
        await pilot.press("enter")
        await reads(pilot, "An extinguisher", "sign as Ben Holt")
        await pilot.press("up")
        await reads(pilot, "Signed 10:00, Ada Marsh, written by Ben Holt")
        await pilot.press("escape")
    lines = [line for line in day_file(shop).splitlines() if 'kind = "check"' in line]
    assert len(lines) == 2
    assert 'by = "ben"' in lines[1]
    assert 'who = "ada"' in lines[1]


async def test_a_key_held_down_signs_one_check_and_no_more(
    shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(ChecksDialog, "READ_S", 0.3)
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "3 here")
        await pilot.press("slash", *"kettle", "enter", "c")
        await reads(pilot, "Ways out are clear")
        await pilot.pause(0.4)
        types(app, *"ssssssss")
        await reads(pilot, "10:00, Ada", "The first-aid kit is full")
        assert day_file(shop).count('kind = "check"') == 1


async def test_a_check_that_always_applies_is_never_found_not_to(shop: Path) -> None:
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "3 here")
        await pilot.press("slash", *"kettle", "enter", "c")
        text = await reads(pilot, "Ways out are clear")
        assert "Del does not apply" not in text
        await pilot.press("delete")
        await reads(pilot, "this check always applies")


async def test_signing_in_an_empty_shop_begins_with_the_sign_in(tmp_path: Path) -> None:
    root = make_shop(tmp_path / "van", components={"kettle": DANGEROUS})
    app = open_app(root)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "0 here")
        await pilot.press("slash", *"kettle", "enter", "c")
        await reads(pilot, 'Checks: "Mend the kettle')
        await pilot.press("s")
        await reads(pilot, "Sign in and out")
        await pilot.press("space", "enter")
        await reads(pilot, "Who signs?", "Ada Marsh")
        await pilot.press("enter")
        await reads(pilot, "10:00, Ada")


async def test_a_finish_says_which_checks_before_the_work_nobody_signed(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "3 here")
        await pilot.press("slash", *"kettle", "enter", "f")
        await reads(pilot, "Who did it?")
        await pilot.press("enter")
        await reads(pilot, 'Finish: "Mend the kettle', "Not signed: area")
        assert "they came before the work" in asked(app)
        await pilot.press("escape")


def test_what_then_of_finished_work_tells_the_hold_that_runs(shop: Path) -> None:
    bench = Workbench(shop)
    done = ("frame/scrape", "frame/prime")
    acts = [Finished(task, crew=("ada",), began=SATURDAY) for task in done]
    finished = [Said(act, SATURDAY) for act in acts]
    before = [line.text for line in then_lines(bench.board(SATURDAY), "frame/prime")]
    drying = "drying, 36 hours, until Sun 3 May 2026 22:00"
    assert f"a hold starts with the finish; if that is now: {drying}" in before
    assert bench.record(finished, by="ada", now=SATURDAY).kept
    after = " ".join(line.text for line in then_lines(bench.board(SATURDAY), "frame/prime"))
    assert "starts with the finish" not in after
    assert "drying since Sat 2 May 2026 10:00, until Sun 3 May 2026 22:00" in after


async def test_a_check_that_does_not_apply_is_signed_so_with_the_reason(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "3 here")
        await pilot.press("slash", *"kettle", "enter", "c")
        await reads(pilot, 'Checks: "Mend the kettle')
        await pilot.press("down", "down", "delete")
        await reads(pilot, "Does not apply")
        await pilot.press(*"no gaps here", "enter")
        await reads(pilot, "Who signs?", "A lead who does not do this work")
        await pilot.press(*"ada", "enter")
        await reads(pilot, "does not apply", "10:00, ")
        await pilot.press("escape")
    line = day_file(shop).splitlines()[-1]
    assert "applies = false" in line
    assert 'why = "no gaps here"' in line


async def test_who_may_not_sign_is_said_before_and_refused_after(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "3 here")
        await pilot.press("slash", *"kettle", "enter", "c")
        await reads(pilot, 'Checks: "Mend the kettle')
        await pilot.press("down", "down", "down", "s")
        await reads(pilot, "may not sign this")
        await pilot.press(*"ben", "enter")
        await reads(pilot, 'Ben Holt has no certificate "hot work"')
    assert 'kind = "check"' not in day_file(shop)


def test_a_screenshot_is_drawn_without_a_terminal(shop: Path, tmp_path: Path) -> None:
    out = tmp_path / "day.svg"
    asked = [str(shop), "--at", "2026-05-02T10:40", "--size", "100x30", "--out", str(out)]
    assert screenshot_command(asked) == 0
    svg = out.read_text(encoding="utf-8")
    assert svg.startswith("<svg")
    assert "What&#160;goes&#160;first&#160;today" in svg
    assert ">&#160;" not in svg
    assert "url(http" not in svg.replace('"', "")  # nothing is fetched to look at it
    assert "<circle" not in svg


@pytest.mark.parametrize("wrong", [["--size", "huge"], ["--at", "noon"]])
def test_a_screenshot_asked_for_wrongly_is_said_in_a_sentence(
    shop: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], wrong: list[str]
) -> None:
    asked = [str(shop), "--at", "2026-05-02", "--out", str(tmp_path / "x.svg"), *wrong]
    assert screenshot_command(asked) == 2
    assert "cannot be read" in capsys.readouterr().err


def test_blanks_at_the_start_of_a_text_become_its_place() -> None:
    one = '<text class="r" x="10" y="2" textLength="60" clip-path="u">&#160;&#160;ab&#160;c</text>'
    assert set_in(one) == (
        '<text class="r" x="30.0" y="2" textLength="40.0" clip-path="u">ab&#160;c</text>'
    )


async def test_every_key_in_a_burst_reaches_a_list_in_its_order(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "3 here")
        await pilot.press("i")
        await reads(pilot, "Sign in and out")
        types(app, "e", "v", "a", "space", "j", "o", "space", "enter")
        await reads(pilot, "5 here")
    assert 'who = "eva"' in day_file(shop)
    assert 'who = "jo"' in day_file(shop)
