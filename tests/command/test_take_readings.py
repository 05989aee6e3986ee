"""A data logger's file taken into the folder: its hours count, its mistakes are said."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

import pytest

from crewboard.workbench import Workbench
from tests.command.calling import DONE, Shell
from tests.terminal.shop import make_shop

RAILS = """\
name = "Rails"

[tasks.glue]
title = "Glue the rails"
hours = [1, 2, 3]
hold = { kind = "dry", lasts = "24 hours", conditions = { at_least_c = 10 } }
"""
BY = ("--by", "ada")
COLUMNS = ("--moment", "Time", "--temperature", "Temp", "--humidity", "RH")


def at(day: int, clock: str = "10:00") -> tuple[str, str]:
    return ("--at", f"2026-05-{day:02}T{clock}")


@pytest.fixture
def van(tmp_path: Path, call: Shell) -> Path:
    """The rails were glued on Saturday at 16:00."""
    van = make_shop(tmp_path / "van", components={"rails": RAILS})
    assert call("finish", van, "glue", *DONE, *at(2, "16:00"), *BY).code == 0
    return van


def written(van: Path, rows: str, head: str = "Time,Temp,RH") -> Path:
    path = van.parent / "logger.csv"
    path.write_text(f"{head}\n{rows}", encoding="utf-8")
    return path


def cold_night() -> str:
    """Every hour from Saturday 15:00 to Sunday 20:00; six hours from 22:00 on at 8 °C."""
    start = datetime(2026, 5, 2, 15)
    hours = (start + timedelta(hours=n) for n in range(30))
    return "".join(
        f"{t:%Y-%m-%d %H:%M},{8 if t.hour in (22, 23, 0, 1, 2, 3) else 14},60\n" for t in hours
    )


def the_end(van: Path, when: tuple[str, str]) -> datetime | None:
    board = Workbench(van).board(datetime.fromisoformat(when[1]))
    return next(hold.until for hold in board.holds.values())


def test_logged_hours_count_and_cold_ones_do_not(van: Path, call: Shell) -> None:
    ended = call("take-readings", van, written(van, cold_night()), *COLUMNS, *at(3, "21:00"))
    assert ended.code == 0, ended.err
    said = "30 hours of the shop's air, Sat 2 May 2026 15:00 to Sun 3 May 2026 20:00"
    assert f"{said}: 8 °C to 14 °C, 60 to 60 % humidity" in ended.out
    assert "1 clock runs again" in ended.err or "1 clock ends later" in ended.err
    assert the_end(van, at(3, "21:00")) == datetime(2026, 5, 3, 22)


def test_the_columns_are_said_once(van: Path, call: Shell) -> None:
    path = written(van, cold_night())
    ended = call("take-readings", van, path, *at(3, "21:00"))
    assert ended.code == 1
    assert 'the file has "Time", "Temp", "RH"' in ended.err
    assert call("take-readings", van, path, *COLUMNS, *at(3, "21:00")).code == 0
    again = call("take-readings", van, path, *at(3, "21:00"))
    assert again.code == 0
    assert "all there already" in again.err
    assert call("check", van).code == 0


def test_rows_of_every_minute_are_kept_as_the_lowest_and_highest_of_the_hour(
    van: Path, call: Shell
) -> None:
    start = datetime(2026, 5, 2, 15)
    rows = "".join(
        f"{start + timedelta(minutes=n):%Y-%m-%d %H:%M:%S},{12 + n % 3},60\n" for n in range(600)
    )
    assert call("take-readings", van, written(van, rows), *COLUMNS, *at(3)).code == 0
    lines = (van / "readings" / "2026-05.csv").read_text("utf-8").splitlines()
    assert len([line for line in lines if not line.startswith("#")]) == 10
    assert "2026-05-02T15:00,12,14,60,60" in lines


def test_a_crew_that_measures_in_fahrenheit_has_a_logger_that_does(van: Path, call: Shell) -> None:
    path = van / "vehicle.toml"
    path.write_text(
        path.read_text(encoding="utf-8").replace("format = 1", 'format = 1\nunits = "imperial"')
    )
    rows = "2026-05-02 15:00,50,60\n2026-05-02 16:00,68,60\n"
    ended = call("take-readings", van, written(van, rows), *COLUMNS, *at(3))
    assert "50 °F to 68 °F" in ended.out
    assert ",10,10,60,60" in (van / "readings" / "2026-05.csv").read_text("utf-8")


def test_the_head_of_the_column_may_name_the_unit(van: Path, call: Shell) -> None:
    path = written(van, "02.05.2026 15:00;50,0;60\n", 'Time;"Temp (°F)";RH')
    columns = ("--moment", "Time", "--temperature", "Temp (°F)", "--humidity", "RH")
    assert "10 °C to 10 °C" in call("take-readings", van, path, *columns, *at(3)).out


@pytest.mark.parametrize(
    ("rows", "says"),
    [
        ("", "there is no reading in the file"),
        ("2026-05-02 15:00,warm,60\n", 'line 2: "warm" is no number'),
        ("2026-05-02 15:00,300,60\n", 'line 2: "300" cannot be the air of a shop'),
        ("2026-05-02 15:00,12,160\n", 'line 2: "160" cannot be the air of a shop'),
        ("2026-05-32 15:00,12,60\n", 'line 2: "2026-05-32 15:00" is no moment'),
        ("2026-05-09 15:00,12,60\n", "line 2: 2026-05-09 15:00 is still to come"),
        ("02/05/2026 15:00,12,60\n", "nothing in the file tells the day from the month"),
    ],
)
def test_a_file_that_cannot_be_taken_says_why(van: Path, call: Shell, rows: str, says: str) -> None:
    ended = call("take-readings", van, written(van, rows), *COLUMNS, *at(3))
    assert ended.code == 1
    assert says in ended.err
    assert "nothing was taken" in ended.err
    assert not (van / "readings").exists()


@pytest.mark.parametrize("data", [b"\x00\x01\x02", b"", b"no table at all", b"\xff\xfe\x00"])
def test_what_is_no_table_says_so(van: Path, call: Shell, data: bytes) -> None:
    path = van.parent / "logger.csv"
    path.write_bytes(data)
    ended = call("take-readings", van, path, *COLUMNS, *at(3))
    assert ended.code == 1
    assert "nothing was taken" in ended.err


def test_a_column_that_the_file_does_not_have_is_named(van: Path, call: Shell) -> None:
    typed = ("--moment", "When", "--temperature", "Temp")
    ended = call("take-readings", van, written(van, cold_night()), *typed, *at(3))
    assert 'no line of the file heads the columns "When", "Temp"' in ended.err


def test_a_day_that_can_be_told_from_the_month_is(van: Path, call: Shell) -> None:
    rows = "5/2/2026 3:00 PM,12,60\n5/13/2026 3:00 PM,12,60\n"
    assert call("take-readings", van, written(van, rows), *COLUMNS, *at(20)).code == 0
    assert "2026-05-02T15:00,12,12,60,60" in (van / "readings" / "2026-05.csv").read_text(
        encoding="utf-8"
    )


def test_a_missing_value_is_passed_over(van: Path, call: Shell) -> None:
    rows = "2026-05-02 15:00,12,60\n2026-05-02 16:00,,\n2026-05-02 17:00,--,61\n"
    assert call("take-readings", van, written(van, rows), *COLUMNS, *at(3)).code == 0
    assert "2026-05-02T17:00,,,61,61" in (van / "readings" / "2026-05.csv").read_text(
        encoding="utf-8"
    )


def test_a_line_spoilt_by_hand_is_named_by_check_and_passed_over(van: Path, call: Shell) -> None:
    assert (
        call("take-readings", van, written(van, cold_night()), *COLUMNS, *at(3, "21:00")).code == 0
    )
    path = van / "readings" / "2026-05.csv"
    path.write_text(path.read_text(encoding="utf-8") + "rubbish\n", encoding="utf-8")
    assert the_end(van, at(3, "21:00")) == datetime(2026, 5, 3, 22)
    ended = call("check", van)
    assert ended.code == 1
    assert 'readings/2026-05.csv:32:1: "rubbish" is no row of the shop\'s air' in ended.out


def test_the_rows_are_taken_back_by_undo_in_the_same_sitting(van: Path) -> None:
    from crewboard.logbook.logged import LoggedRow

    bench = Workbench(van)
    now = datetime(2026, 5, 3, 9)
    row = LoggedRow(datetime(2026, 5, 2, 16), 5.0, 5.0, None, None)
    assert bench.take_rows([row], now.date()).kept
    assert bench.board(now).holds
    assert bench.logbook.logged
    assert bench.undo(by="ada", now=now).kept
    assert not bench.logbook.logged
