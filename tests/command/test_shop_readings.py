"""Shop readings by command: what they do to the clocks of holds is said at once."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.calling import DONE, Shell
from tests.terminal.shop import make_shop

RAILS = """\
name = "Rails"

[tasks.glue]
title = "Glue the rails"
hours = [1, 2, 3]
hold = { kind = "glue", lasts = "24 hours", conditions = { at_least_c = 10 } }

[tasks.coat]
title = "Coat the rails"
hours = [1, 2, 3]
hold = { kind = "dry", lasts = "12 hours", conditions = { at_least_c = 8, at_most_humidity = 85 } }

[tasks.fit]
title = "Fit the rails"
hours = [1, 2, 3]
after = ["glue"]

[tasks.seal]
title = "Seal the ends"
hours = [1, 2, 3]
hold = { kind = "dry", lasts = "2 hours", release = "time", conditions = { at_least_c = 10 } }
"""
BY = ("--by", "ada")


@pytest.fixture
def van(tmp_path: Path, call: Shell) -> Path:
    """Both finished on Saturday at 10:00, in a shop of 15 °C and 60 %."""
    van = make_shop(tmp_path / "van", components={"rails": RAILS})
    assert call("reading", van, "--celsius", "15", "--humidity", "60", *at(2, "09:00")).code == 0
    for task in ("glue", "coat"):
        assert call("finish", van, task, *DONE, *at(2)).code == 0
    return van


def at(day: int, clock: str = "10:00") -> tuple[str, ...]:
    return ("--at", f"2026-05-{day:02}T{clock}", *BY)


def test_a_reading_that_stops_clocks_says_so_at_once(van: Path, call: Shell) -> None:
    ended = call("reading", van, "--celsius", "9", *at(2, "14:00"))
    assert "1 clock stopped: too cold (9 °C, it wants 10 °C)" in ended.err
    ended = call("reading", van, "--celsius", "4", *at(2, "15:00"))
    assert "1 clock stopped: too cold (4 °C, it wants 8 °C)" in ended.err


def test_a_reading_that_lets_clocks_go_on_says_so_at_once(van: Path, call: Shell) -> None:
    assert call("reading", van, "--celsius", "4", *at(2, "14:00")).code == 0
    assert "2 clocks go on again" in call("reading", van, "--celsius", "12", *at(2, "15:00")).err


def test_hours_in_the_cold_count_neither_as_passed_nor_as_still_to_go(
    van: Path, call: Shell
) -> None:
    """Of 24 hours of glue four are set at two o'clock; the cold until eight adds nothing."""
    assert call("reading", van, "--celsius", "4", *at(2, "14:00")).code == 0
    for clock in ("14:00", "20:00"):
        holds = call("holds", van, *at(2, clock)[:2]).out
        assert "16 % passed, 20 h to go" in holds, holds


def test_a_lowest_that_takes_hours_from_a_clock_says_so_at_once(van: Path, call: Shell) -> None:
    typed = ("reading", van, "--celsius", "12", "--lowest", "9")
    said = call(*typed, *at(2, "20:00")).err
    assert "1 clock ends later: the time since the last reading does not count" in said
    assert "2026-05-03T20:00" in call("holds", van, "--json", *at(2, "20:01")[:2]).out


def test_a_hold_that_seemed_over_runs_again_and_it_is_said(van: Path, call: Shell) -> None:
    typed = ("reading", van, "--celsius", "12", "--humidity", "60", "--lowest", "2")
    said = call(*typed, *at(3, "08:00")).err
    assert "1 clock runs again: the time since the last reading does not count" in said


def test_wherever_an_end_stands_it_is_the_same_and_says_that_it_is_stopped(
    van: Path, call: Shell
) -> None:
    """Four of 24 hours were warm; from 14:00 on the shop is at 4 °C. At 15:00 twenty are to go."""
    assert call("reading", van, "--celsius", "4", *at(2, "14:00")).code == 0
    when = at(2, "15:00")[:2]
    for typed in (("day", van), ("holds", van), ("why", van, "fit")):
        said = " ".join(call(*typed, *when).out.split())
        assert "11:00; stopped: too cold (4 °C, it wants 10 °C)" in said, typed
    told = call("holds", van, "--json", *when).form["holds"]
    glue = next(each for each in told if each["task"] == "rails/glue")
    assert glue["until"] == "2026-05-03T11:00:00"
    assert glue["stopped"] == {"what": "too cold", "value": 4.0, "limit": 10}
    calendar = call("report", "calendar", van, *when).out.replace("\r\n ", "")
    assert "DTSTART:20260503T110000" in calendar
    assert "at the earliest (stopped: too cold)" in calendar


def test_before_the_finish_it_is_said_what_would_start(van: Path, call: Shell) -> None:
    said = " ".join(call("then", van, "seal", *at(2, "11:00")[:2]).out.split())
    assert "drying, 2 hours, until Sat 2 May 2026 13:00" in said
    assert call("reading", van, "--celsius", "4", *at(2, "14:00")).code == 0
    said = " ".join(call("then", van, "seal", *at(2, "15:00")[:2]).out.split())
    assert "not before Sat 2 May 2026 17:00; stopped: too cold (4 °C, it wants 10 °C)" in said


def test_a_hold_that_nobody_read_the_shop_for_says_why_it_asks(van: Path, call: Shell) -> None:
    """The glue's day of 24 hours ends on Sunday at 10:00; the shop was last read at 09:00."""
    assert call("release", van, "glue", "--why", "rings hard", *at(3, "11:00")).code == 0
    said = " ".join(call("holds", van, *at(4, "09:00")[:2]).out.split())
    assert "No hold" in said
    assert call("finish", van, "seal", *DONE, *at(9)).code == 0
    said = " ".join(call("holds", van, *at(9, "13:00")[:2]).out.split())
    assert "Seal the ends" in said
    assert "due for a look: the shop was not read after Sat 2 May 2026 09:00" in said


def test_a_reading_that_changes_nothing_says_nothing(van: Path, call: Shell) -> None:
    assert call("reading", van, "--celsius", "14", *at(2, "14:00")).err == ""


def test_a_crew_that_measures_in_fahrenheit_reads_so(van: Path, call: Shell) -> None:
    path = van / "vehicle.toml"
    path.write_text(path.read_text().replace("format = 1", 'format = 1\nunits = "imperial"'))
    ended = call("reading", van, "--temperature", "48", *at(2, "14:00"))
    assert "too cold (48 °F, it wants 50 °F)" in ended.err


def test_a_lowest_above_what_is_read_now_is_refused(van: Path, call: Shell) -> None:
    ended = call("reading", van, "--celsius", "12", "--lowest", "13", *at(2, "20:00"))
    assert ended.code == 1
    assert "look at the thermometer again" in ended.err


@pytest.mark.parametrize(
    ("own", "typed", "lowest"),
    [
        ("metric", ("--fahrenheit", "50", "--lowest", "41"), "5 °C"),
        ("imperial", ("--celsius", "10", "--lowest", "5"), "41 °F"),
        ("imperial", ("--celsius", "10", "--lowest", "41 F"), "41 °F"),
        ("imperial", ("--temperature", "50", "--lowest", "41"), "41 °F"),
    ],
)
def test_the_lowest_is_in_the_unit_that_was_said_of_the_temperature(
    van: Path, call: Shell, own: str, typed: tuple[str, ...], lowest: str
) -> None:
    path = van / "vehicle.toml"
    path.write_text(path.read_text().replace("format = 1", f'format = 1\nunits = "{own}"'))
    ended = call("reading", van, *typed, *at(2, "14:00"))
    assert f"lowest since the last one {lowest}" in ended.out


def test_a_hold_asks_for_no_look_while_a_reading_can_still_speak_for_it(
    van: Path, call: Shell
) -> None:
    """A fresh reading speaks for a day; the seal of two hours and the glue of 24 hours differ."""
    assert call("reading", van, "--celsius", "15", "--humidity", "60", *at(9, "09:30")).code == 0
    assert call("finish", van, "seal", *DONE, *at(9)).code == 0
    holds = " ".join(call("holds", van, *at(9, "10:30")[:2]).out.split())
    assert "due for a look" not in holds.partition("Seal the ends")[2]


def test_a_hold_that_outlasts_its_reading_asks_for_the_next_one_first(
    van: Path, call: Shell
) -> None:
    holds = " ".join(call("holds", van, *at(2, "11:00")[:2]).out.split())
    assert "read the shop again meanwhile: last read 09:00" in holds
    assert "or it is due for a look" not in holds


def test_nobody_is_urged_to_start_a_hold_whose_clock_would_stand_still(
    call: Shell, tmp_path: Path
) -> None:
    shop = make_shop(tmp_path / "cold", components={"rails": RAILS})
    for celsius, urged in (("15", True), ("4", False)):
        assert call("reading", shop, "--celsius", celsius, *at(2, "09:00")).code == 0
        ranked = call("day", shop, *at(2, "09:30")[:2], "--json").form["first"]
        glue = next(first for first in ranked if first["task"] == "rails/glue")
        assert glue["finish_today"] is urged
    day = " ".join(call("day", shop, *at(2, "09:30")[:2]).out.split())
    assert "whose clock stands still: too cold (4 °C, it wants 10 °C)" in day
