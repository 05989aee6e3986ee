"""Moments at the ends of the calendar are refused in a sentence, wherever they are written."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from crewboard.command.catalogue import all_commands
from tests.command.calling import SAMPLE, Shell

FAR = ("0001-01-01T00:00", "1799-12-31", "2201-01-01T00:00", "9999-12-31T23:59", "31 Dec 9999")
LOOKS = ("day", "check", "review", "holds", "crew", "plan-day", "briefing", "supplies", "vehicle")
QUICK = {"plan-day": ("--seconds", "0")}  # by the plain rule: the calendar is the same


@pytest.fixture
def call(capsys: pytest.CaptureFixture[str]) -> Shell:
    return Shell(capsys)


@pytest.fixture
def bus(tmp_path: Path) -> Path:
    return Path(shutil.copytree(SAMPLE, tmp_path / "bus"))


@pytest.mark.parametrize("moment", FAR)
def test_a_moment_of_a_far_year_is_refused_by_each_command(call: Shell, moment: str) -> None:
    for name in (*LOOKS, "forecast"):
        assert name in all_commands()
        ended = call(name, SAMPLE, *QUICK.get(name, ()), "--at", moment)
        assert ended.code == 2
        assert f'"{moment}" is in the year' in ended.err
        assert "write a year from 1800 to 2200" in ended.err


@pytest.mark.parametrize("zone", ["", "Pacific/Kiritimati", "Pacific/Pago_Pago"])
@pytest.mark.parametrize("moment", ["1800-01-01T00:00", "2200-12-31T23:59"])
def test_at_the_first_and_last_moment_all_is_told(
    bus: Path, call: Shell, moment: str, zone: str
) -> None:
    vehicle = bus / "vehicle.toml"
    lines = [line for line in vehicle.read_text().splitlines() if not line.startswith("timezone")]
    lines[0:0] = [f'timezone = "{zone}"'] if zone else []
    vehicle.write_text("\n".join(lines) + "\n")
    for name in LOOKS:
        assert call(name, bus, *QUICK.get(name, ()), "--at", moment).code == 0, name


@pytest.mark.parametrize(
    "typed",
    [
        ("expect", "mirela", "--at", "9999-12-31"),
        ("finish", "lay-boards", "--clock", "0001-01-01T00:00"),
        ("call-off", "9999-12-31", "--why", "far"),
        ("note", "far", "--at", "9999-12-31T23:59"),
    ],
)
def test_a_far_day_is_refused_wherever_it_is_typed(
    bus: Path, call: Shell, typed: tuple[str, ...]
) -> None:
    ended = call(typed[0], bus, *typed[1:])
    assert ended.code in (1, 2)
    assert "in the year" in ended.err
    assert not list((bus / "days").glob("9999"))


@pytest.mark.parametrize("day", ["0001-01-01", "9999-12-31"])
def test_a_day_file_named_for_a_far_year_is_a_mistake(bus: Path, call: Shell, day: str) -> None:
    file = bus / f"days/{day[:4]}/{day}.toml"
    file.parent.mkdir(parents=True)
    file.write_text(
        f"date = {day}\n\n[entries]\n"
        'zzzzzz22 = { at = 2026-05-01T10:00:00, kind = "sign-in", who = "mirela" }\n'
    )
    for name in LOOKS:
        ended = call(name, bus, *QUICK.get(name, ()), "--at", "2026-05-02T09:00")
        assert ended.code == (1 if name == "check" else 0), name
    said = call("check", bus).out
    assert f"the file is named for a day in the year {int(day[:4])}; write a year from" in said


def test_the_longest_spans_end_within_the_calendar(bus: Path, call: Shell) -> None:
    """A hold of a hundred years made longer by a hundred years, at the last moment there is."""
    vehicle = bus / "vehicle.toml"
    vehicle.write_text(
        vehicle.read_text().replace("[shop]", '[shop]\nreadings_good_for = "100 years"', 1)
    )
    at, by = ("--at", "2200-12-31T23:58"), ("--by", "mirela", "--despite", "far")
    begun = call(
        "hold", bus, "glue", "--task", "lay-boards", "--lasts", "100 years", "--why", "x", *at, *by
    )
    assert begun.code == 0
    for name in LOOKS:
        assert call(name, bus, *at).code == 0, name
    refused = call(
        "hold", bus, "glue", "--task", "lay-boards", "--lasts", "9000 years", "--why", "x", *at
    )
    assert "is more than a hundred years" in refused.err
