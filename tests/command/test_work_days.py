"""When the shop is open: a day opened twice, a day left out, a day called off."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.calling import Shell
from tests.folder.a_vehicle import FILES

EVENING = "{ date = 2026-05-02, opens = 18:00:00, closes = 21:00:00 }"


@pytest.fixture
def twice(van: Path) -> Path:
    """The second of May is a regular Saturday, with an evening added."""
    with_days(van, f"also = [{EVENING}]")
    return van


def with_days(van: Path, lines: str) -> None:
    old = FILES["vehicle.toml"]
    start, end = old.index("also = "), old.index("[shop]")
    (van / "vehicle.toml").write_text(f"{old[:start]}{lines}\n\n{old[end:]}")


def test_an_evening_added_to_a_work_day_opens_the_shop_twice(call: Shell, twice: Path) -> None:
    out = call("day", twice, "--at", "2026-05-02T09:30").out
    assert "Work day, open 09:00 to 16:00 and 18:00 to 21:00." in out
    form = call("day", twice, "--at", "2026-05-02T17:00", "--json").form
    assert form["openings"] == [
        {"opens": "09:00:00", "closes": "16:00:00"},
        {"opens": "18:00:00", "closes": "21:00:00"},
    ]
    assert form["open"] == {"opens": "18:00:00", "closes": "21:00:00"}, "the one that comes next"
    calendar = call("report", "calendar", twice, "--at", "2026-05-01T09:00").out
    assert "DTSTART:20260502T160000Z" in calendar  # 18:00 by the shop's clock
    assert len({line for line in calendar.splitlines() if line.startswith("UID:2026-05-02")}) == 2


def test_between_the_two_openings_a_day_is_planned_for_the_evening(
    call: Shell, twice: Path
) -> None:
    plan = call("plan-day", twice, "--at", "2026-05-02T16:30", "--people", "ada", "--json").form
    assert plan["opens"] == "2026-05-02T18:00:00"
    assert plan["closes"] == "2026-05-02T21:00:00"


def test_check_asks_about_an_evening_on_a_regular_day(call: Shell, twice: Path) -> None:
    ended = call("check", twice)
    assert ended.code == 0, "a question, no mistake"
    assert (
        "vehicle.toml:9:9: Sat 2 May 2026 is a work day anyway: with what is added it is open "
        "09:00 to 16:00 and 18:00 to 21:00" in ended.out
    )


def test_a_day_that_is_added_and_left_out_is_closed_and_asked_about(call: Shell, van: Path) -> None:
    with_days(van, "also = [2026-05-09]\nclosed = [2026-05-09]")
    day = call("day", van, "--at", "2026-05-09T10:00", "--json").form
    assert day["open"] is None
    assert day["next_work_day"] == "2026-05-16T09:00:00"
    assert "Sat 9 May 2026 is added and left out: it is closed" in call("check", van).out


def test_a_work_day_is_called_off_with_the_reason_and_held_after_all(
    call: Shell, van: Path
) -> None:
    before = (van / "vehicle.toml").read_text()
    ended = call("call-off", van, "2026-05-16", "--why", "the hall is let")
    assert ended.code == 0, ended.err
    assert ended.out == "Sat 16 May 2026 is called off (the hall is let)\n"
    assert '{ date = 2026-05-16, why = "the hall is let" }]' in (van / "vehicle.toml").read_text()
    out = call("day", van, "--at", "2026-05-16T10:00").out
    assert "No work day: it is called off (the hall is let)." in out
    form = call("day", van, "--at", "2026-05-10T18:00", "--json").form
    assert form["next_work_day"] == "2026-06-06T09:00:00"
    assert "20260516" not in call("report", "calendar", van, "--at", "2026-05-10").out
    assert call("call-off", van, "2026-05-16", "--back").code == 0
    assert (van / "vehicle.toml").read_text() == before


@pytest.mark.parametrize(
    ("typed", "code", "sentence"),
    [
        (("2026-05-17", "--why", "x"), 1, "Sun 17 May 2026 is no work day"),
        (("2026-08-01", "--why", "x"), 1, "Sat 1 Aug 2026 is called off already"),
        (("2026-05-02", "--why", "x"), 1, "on Sat 2 May 2026 people were in the shop"),
        (("2026-05-16", "--back"), 1, "Sat 16 May 2026 is not called off"),
        (("2026-05-16",), 2, "say why Sat 16 May 2026 is called off"),
    ],
)
def test_only_a_work_day_that_was_not_held_can_be_called_off_and_with_a_reason(
    call: Shell, van: Path, typed: tuple[str, ...], code: int, sentence: str
) -> None:
    before = (van / "vehicle.toml").read_text()
    ended = call("call-off", van, *typed)
    assert ended.code == code
    assert sentence in ended.err
    assert (van / "vehicle.toml").read_text() == before


def test_an_added_day_that_is_called_off_is_closed_and_check_says_no_more_than_that(
    call: Shell, van: Path
) -> None:
    assert call("call-off", van, "2026-05-09", "--why", "no heating").code == 0
    assert call("day", van, "--at", "2026-05-09T10:00", "--json").form["open"] is None
    assert call("check", van).code == 0
