"""Hours on tasks, components, pieces and other work, and those of guests, by commands."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from crewboard.folder.check.check import check
from crewboard.folder.read.folder import Folder
from tests.command.calling import Shell
from tests.terminal.shop import day_file, make_shop

NOON = "2026-05-02T12:00"
AT = ("--at", NOON, "--by", "ada")
PIECES = """\
name = "Windows"
[pieces.panes]
name = "Pane"
count = 3
[tasks.glaze]
title = "Glaze"
each = ["panes"]
[tasks.clean]
title = "Clean all panes"
pieces = ["panes/1", "panes/2", "panes/3"]
"""


@pytest.fixture
def van(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("COLUMNS", "100")
    monkeypatch.delenv("CREWBOARD_BY", raising=False)
    root = make_shop(tmp_path / "van", components={"windows": PIECES})
    vehicle = root / "vehicle.toml"
    kinds = 'other_work = ["driving", "raising money"]\n'
    vehicle.write_text(vehicle.read_text().replace("\n[work_days]", f"{kinds}\n[work_days]", 1))
    return root


def written(call: Shell, *typed: object) -> str:
    """What the call said; it was kept."""
    ended = call(*typed, *AT)
    assert ended.code == 0, ended.err
    return ended.out + ended.err


def sums(call: Shell, van: Path) -> dict[tuple[str, str], float]:
    """The hours of the last year by what is summed and the name."""
    text = call("report", "hours-by-year", van, "--at", "2027-01-01T00:00", "--as", "csv").out
    head, *rows = csv.reader(io.StringIO(text))
    assert head[:3] == ["by", "id", "name"]
    assert head[-1] == "in all"
    return {(row[0], row[2]): float(row[-1]) for row in rows}


def test_hours_are_on_a_task_a_component_a_piece_or_a_kind_of_other_work(
    call: Shell, van: Path
) -> None:
    written(call, "hours", van, "ada", 1, "scrape")
    written(call, "hours", van, "ada", 2, "--component", "roof")
    written(call, "hours", van, "ada", 3, "--piece", "panes/2")
    written(call, "hours", van, "ada", "1:30", "--other", "driving")
    written(call, "hours", van, "ada", 0.5, "--note", "swept the shop")
    log = call("log", van).out
    assert "Ada Marsh worked 2 h on Roof" in log
    assert "Ada Marsh worked 3 h on Pane 2" in log
    assert "Ada Marsh worked 1.5 h on other work: driving" in log
    assert [fault.sentence for fault in check(Folder(van)).mistakes] == []
    logged = call("day", van, "--at", NOON, "--json").form["logged"]["hours"]
    assert [(h["task"], h["component"], h["piece"], h["other"]) for h in logged] == [
        ("frame/scrape", "", "", ""),
        ("", "roof", "", ""),
        ("", "", "windows/panes/2", ""),
        ("", "", "", "driving"),
        ("", "", "", ""),
    ]


def test_a_kind_of_other_work_that_the_crew_does_not_name_is_refused_with_the_nearest(
    call: Shell, van: Path
) -> None:
    ended = call("hours", van, "ada", 1, "--other", "drivign", *AT)
    assert ended.code == 1
    assert 'no kind of other work "drivign"' in ended.err
    assert "driving" in ended.err.partition("drivign")[2]


def test_where_the_crew_names_no_other_work_it_is_said_how_to(call: Shell, tmp_path: Path) -> None:
    ended = call("hours", make_shop(tmp_path / "van"), "ada", 1, "--other", "driving", *AT)
    assert ended.code == 1
    assert 'add other_work = ["driving"] to vehicle.toml' in ended.err


def test_check_names_a_kind_of_other_work_that_is_no_more(call: Shell, van: Path) -> None:
    written(call, "hours", van, "ada", 1, "--other", "driving")
    vehicle = van / "vehicle.toml"
    vehicle.write_text(vehicle.read_text().replace('"driving"', '"drives"'))
    ended = call("check", van)
    assert 'there is no kind of other work "driving"' in ended.out + ended.err


def test_hours_are_on_one_thing(call: Shell, van: Path) -> None:
    ended = call("hours", van, "ada", 1, "scrape", "--component", "roof", *AT)
    assert ended.code == 1
    assert "name one of them" in ended.err
    assert day_file(van) == ""


def test_a_guest_has_hours_by_name(call: Shell, van: Path) -> None:
    written(call, "guest", van, "Ines Bratt")
    written(call, "guest-hours", van, "ines bratt", 2, "scrape")
    assert "Ines Bratt, a guest, worked 2 h on" in call("log", van).out
    assert sums(call, van)["guest", "Ines Bratt"] == 2
    assert sums(call, van)["component", "Frame"] == 2
    form = call("day", van, "--at", NOON, "--json").form
    assert [h["guest"] for h in form["logged"]["hours"]] == ["Ines Bratt"]
    assert {t["id"]: t["hours"] for t in form["tasks"]}["frame/scrape"] == 2


def test_a_guests_name_among_the_crews_is_told_where_it_belongs(call: Shell, van: Path) -> None:
    written(call, "guest", van, "Ines Bratt")
    ended = call("hours", van, "ines bratt", 2, "scrape", *AT)
    assert ended.code == 1
    assert "Ines Bratt is not in the crew, but came as a guest" in ended.err
    assert "crewboard guest-hours" in ended.err


def test_hours_of_a_guest_who_was_not_signed_in_are_asked_about(call: Shell, van: Path) -> None:
    written(call, "guest", van, "Ines Bratt")
    ended = call("guest-hours", van, "Ines Brat", 2, "scrape", *AT)
    assert ended.code == 1
    assert "the guests were Ines Bratt" in ended.err
    written(call, "guest-hours", van, "Ono Tak", 2, "scrape", "--despite", "came through the yard")


def test_dangerous_work_of_a_guest_is_asked_about(call: Shell, van: Path) -> None:
    written(call, "guest", van, "Ines Bratt")
    ended = call("guest-hours", van, "Ines Bratt", 1, "weld", *AT)
    assert ended.code == 1
    assert "guests do nothing dangerous" in ended.err


def test_hours_of_the_crew_are_not_written_as_a_guests(call: Shell, van: Path) -> None:
    ended = call("guest-hours", van, "Ada Marsh", 1, *AT)
    assert ended.code == 1
    assert "Ada Marsh is in the crew" in ended.err


def test_a_pieces_hours_are_those_on_it_and_on_the_tasks_done_to_it_alone(
    call: Shell, van: Path
) -> None:
    written(call, "hours", van, "ada", 1, "windows/glaze/panes/2")
    written(call, "hours", van, "ben", 2, "--piece", "panes/2")
    written(call, "hours", van, "jo", 4, "windows/clean")
    found = sums(call, van)
    assert found["piece", "Pane 2"] == 3
    assert found["component", "Windows"] == 7
    assert found["everything", "everything"] == 7
