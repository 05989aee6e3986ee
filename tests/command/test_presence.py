"""Who was in the shop and how long: by sign-ins and work days, told the same everywhere."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.calling import Shell
from tests.terminal.shop import make_shop

SATURDAYS = ("2026-01-03", "2026-02-07", "2026-03-07", "2026-04-04")
AT_HOME = tuple(f"2026-04-{day:02}" for day in range(10, 22))  # no work days


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    return make_shop(tmp_path / "van")


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Shell:
    return Shell(capsys)


def work_days(run: Shell, shop: Path) -> None:
    """Four Saturdays with Ada and Ben."""
    for day in SATURDAYS:
        assert run("sign-in", shop, "ada", "ben", "--at", f"{day}T09:00").code == 0
        assert run("hours", shop, "ada", "4", "frame/scrape", "--at", f"{day}T13:00").code == 0
        assert run("sign-out", shop, "ada", "ben", "--at", f"{day}T13:00").code == 0


def letters(run: Shell, shop: Path) -> None:
    """Cleo writes letters at home, on twelve days without a work day."""
    for day in AT_HOME:
        assert (
            run("hours", shop, "cleo", "1", "--note", "letters", "--at", f"{day}T20:00").code == 0
        )


def people_of_the_plan(run: Shell, shop: Path) -> list[str]:
    planned = run("plan-day", shop, "--at", "2026-05-02", "--seconds", "0", "--json").form
    people: list[str] = planned["people"]
    return people


def test_letters_written_at_home_do_not_change_for_whom_the_next_day_is_planned(
    run: Shell, shop: Path
) -> None:
    work_days(run, shop)
    assert people_of_the_plan(run, shop) == ["ada", "ben"]
    letters(run, shop)
    assert people_of_the_plan(run, shop) == ["ada", "ben"]


def test_letters_written_at_home_do_not_change_the_forecast(run: Shell, shop: Path) -> None:
    def forecast() -> object:
        return run("forecast", shop, "--at", "2026-05-02", "--runs", "60", "--short", "--json").form

    work_days(run, shop)
    before = forecast()
    letters(run, shop)
    assert forecast() == before


def test_who_forgot_to_sign_in_but_has_hours_on_a_work_day_was_there(
    run: Shell, shop: Path
) -> None:
    for day in SATURDAYS:
        run("hours", shop, "ben", "3", "frame/scrape", "--at", f"{day}T15:00")
    assert people_of_the_plan(run, shop) == ["ben"]


def test_hours_are_questioned_by_the_time_in_the_shop_to_the_quarter_of_an_hour(
    run: Shell, shop: Path
) -> None:
    """Three hours and ten minutes here: 3.25 h are rounded, 3.5 h are questioned. Came twice."""
    for person, hours in (("ada", "3.25"), ("ben", "3.5")):
        run("sign-in", shop, person, "--at", "2026-04-04T09:00")
        run("sign-out", shop, person, "--at", "2026-04-04T11:00")
        run("sign-in", shop, person, "--at", "2026-04-04T12:00")
        run("sign-out", shop, person, "--at", "2026-04-04T13:10")
        run("hours", shop, person, hours, "frame/scrape", "--at", "2026-04-04T13:10")
    said = run("check", shop).out
    assert "Ben Holt has 3.5 hours" in said
    assert "Ada Marsh has" not in said


def test_who_comes_later_or_leaves_earlier_says_when(run: Shell, shop: Path) -> None:
    at = ("--at", "2026-05-02T08:00")
    assert run("expect", shop, "ada", "--from", "10.30", "--until", "14", *at).code == 0
    assert run("expect", shop, "ben", "--from", "10:30", *at).out.split("  ")[1] == (
        "Ben Holt expected from 10:30"
    )
    (ada, ben) = run("day", shop, *at, "--json").form["expected"]
    assert (ada["arrives"], ada["leaves"]) == ("10:30:00", "14:00:00")
    assert (ben["arrives"], ben["leaves"]) == ("10:30:00", None)
    assert "Ada Marsh 10:30 to 14:00 and Ben Holt from 10:30" in run("day", shop, *at).out
    assert "expected: Sat 2 May 2026, 10:30 to 14:00" in run("crew", shop, "ada", *at).out
    planned = run("plan-day", shop, "--at", "2026-05-02T09:00", "--seconds", "0").out
    assert "Ada  here 10:30 to 14:00" in planned
    wrong = run("expect", shop, "ben", "--from", "late", *at)
    assert wrong.code == 2
    assert '"late" is not a time of day; write 9:00 or 16:30' in wrong.err


def test_nobody_is_expected_to_leave_before_they_come(run: Shell, shop: Path) -> None:
    refused = run("expect", shop, "ada", "--from", "10:05", "--until", "9", "--at", "2026-05-16")
    assert refused.code == 1
    assert "sign out at 09:00 and sign in only at 10:05" in refused.err
