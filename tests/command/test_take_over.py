"""`crewboard plan-day --take`: the day runs by a plan; what is now and next; given up again."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.command.calling import Shell
from tests.terminal.shop import day_file, make_shop

TEN = ("--at", "2026-05-02T10:00", "--by", "ada")
PLAIN = ("--seconds", "0")


@pytest.fixture
def call(capsys: pytest.CaptureFixture[str]) -> Shell:
    return Shell(capsys)


@pytest.fixture
def van(tmp_path: Path, call: Shell, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("COLUMNS", "100")
    van = make_shop(tmp_path / "van")
    assert call("sign-in", van, "ada", "ben", *TEN).code == 0
    return van


def test_taken_over_it_stands_on_the_work_day(call: Shell, van: Path) -> None:
    assert "By the plan now:" not in call("day", van, *TEN[:2]).out
    taken = call("plan-day", van, "--take", *PLAIN, *TEN)
    assert (taken.code, taken.err) == (0, "")
    assert 'planned on "Scrape the frame", 10:00 to ' in taken.out
    day = " ".join(call("day", van, *TEN[:2]).out.split())
    assert re.search(r"By the plan now: Scrape the frame \((Ada Marsh|Ben Holt)", day)
    assert re.search(r"by the plan 10:00 to \d\d:00: (Ada|Ben)", day)
    again = call("plan-day", van, *PLAIN, *TEN[:2]).out
    assert "The day runs by the plan taken over at 10:00 by Ada Marsh" in again
    assert "Otherwise than" not in again


def test_begin_offers_its_people_and_puts_nobody_on_anything(call: Shell, van: Path) -> None:
    call("sign-in", van, "cleo", "--at", "2026-05-02T10:00")
    call("plan-day", van, "--take", "--leave-out", "scrape", *PLAIN, *TEN)
    refused = call("begin", van, "weld", *TEN)
    assert refused.code == 1
    assert re.search(r"by the plan 10:00 to \d\d:\d\d: .*: --who (ada ben|ben ada)", refused.err)
    assert "begun" not in day_file(van)
    named = call("begin", van, "weld", "--who", "ada", *TEN)
    assert "--who" not in named.err


def test_what_is_otherwise_is_named_and_taken_over_in_its_place(call: Shell, van: Path) -> None:
    call("plan-day", van, "--take", *PLAIN, *TEN)
    call("sign-in", van, "dov", "--at", "2026-05-02T11:00")
    late = ("--at", "2026-05-02T11:00", "--by", "ada")
    told = call("plan-day", van, *PLAIN, *late[:2]).out
    assert "Otherwise than in the plan of 10:00" in told
    assert "Dov" in told
    assert "This is another one: a proposal." in " ".join(told.split())
    call("plan-day", van, "--take", *PLAIN, *late)
    assert "Otherwise than" not in call("plan-day", van, *PLAIN, *late[:2]).out
    assert "2 11:00 ada" in day_file(van)


def test_it_is_given_up_or_undone(call: Shell, van: Path) -> None:
    none = call("plan-day", van, "--give-up", *TEN)
    assert none.code == 1
    assert "no plan was taken over for that day" in none.err
    call("plan-day", van, "--take", *PLAIN, *TEN)
    assert call("plan-day", van, "--give-up", *TEN).code == 0
    assert "By the plan now:" not in call("day", van, *TEN[:2]).out
    later = ("--at", "2026-05-02T10:05", "--by", "ada")
    call("plan-day", van, "--take", *PLAIN, *later)
    assert "By the plan now:" in call("day", van, *later[:2]).out
    assert call("undo", van, "--by", "ada").code == 0
    assert "By the plan now:" not in call("day", van, *TEN[:2]).out


def test_a_plan_for_the_next_work_day_is_written_into_that_days_file(
    call: Shell, van: Path
) -> None:
    eve = ("--at", "2026-06-05T20:00", "--by", "ada")
    assert call("plan-day", van, "--take", "--people", "ada", "ben", *PLAIN, *eve).code == 0
    text = (van / "days/2026/2026-06-06.toml").read_text(encoding="utf-8")
    assert text.count('kind = "planned"') >= 1
    day = call("day", van, "--at", "2026-06-06T09:00").out
    assert "By the plan now:" in day


def test_a_plan_with_nothing_in_it_is_not_taken_over(call: Shell, van: Path) -> None:
    refused = call("plan-day", van, "--take", "--leave-out", "scrape", "weld", *PLAIN, *TEN)
    assert refused.code == 1
    assert "nothing could be placed: there is no plan to take over" in refused.err
    assert "planned" not in day_file(van)


def test_a_line_of_it_is_corrected_and_wrong_ones_are_refused(call: Shell, van: Path) -> None:
    call("plan-day", van, "--take", *PLAIN, *TEN)
    entries = call("log", van, "--kind", "planned", "--json").form["entries"]
    one = entries[0]["id"]
    assert call("correct", van, one, "--set", "ends=11:30", *TEN[2:]).code == 0
    wrong = call("correct", van, one, "--set", "ends=9:30", *TEN[2:])
    assert wrong.code == 1
    assert "it would end at 09:30 and begin only at 10:00" in wrong.err


def test_a_broken_line_of_a_plan_holds_no_work_back(call: Shell, van: Path) -> None:
    path = van / "days/2026/2026-05-02.toml"
    with path.open("a", encoding="utf-8") as day:
        day.write(
            'zzzzzzzz = { at = 2026-05-02T10:00:00, kind = "planned", task = "frame/scrape" }\n'
        )
    day_out = call("day", van, *TEN[:2])
    assert "ON HOLD" not in day_out.out
    assert "Scrape the frame" in day_out.out
    assert call("check", van).code == 1
