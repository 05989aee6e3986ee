"""Whatever moment is looked at, what is written carries the real moment at which it was."""

from __future__ import annotations

import shutil
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest

from crewboard import wall_clock
from crewboard.folder.disk.archive import copies_of, daily_copy
from crewboard.folder.read.folder import Folder
from crewboard.logbook.entry import Entry
from crewboard.terminal import open_screens
from crewboard.terminal.app import CrewboardApp
from tests.command.calling import SAMPLE, Shell

LOOKED_AT = "2026-05-02T10:00"
WALL = datetime(2026, 11, 26, 14, 3)
WRITTEN = "written Thu 26 Nov 2026 14:03"


@pytest.fixture(autouse=True)
def wall(monkeypatch: pytest.MonkeyPatch) -> None:
    class Clock(datetime):
        @classmethod
        def now(cls, _zone: object = None) -> datetime:  # type: ignore[override]
            return WALL

    monkeypatch.setattr(wall_clock, "datetime", Clock)


@pytest.fixture
def sample(tmp_path: Path) -> Path:
    """The example: its clock stands at one moment."""
    ignored = shutil.ignore_patterns(".crewboard*")
    return Path(shutil.copytree(SAMPLE, tmp_path / "sample", ignore=ignored))


def last(folder: Path) -> Entry:
    entries = [e for day in Folder(folder).logbook.days.values() for e in day.entries]
    return max(entries, key=lambda entry: entry.written or datetime.min)


@pytest.mark.parametrize("moment", [LOOKED_AT, "2026-05-02T09:00", ""])
@pytest.mark.parametrize("where", ["van", "sample"])
def test_an_entry_carries_the_real_moment_of_writing(
    call: Shell, where: str, moment: str, request: pytest.FixtureRequest
) -> None:
    folder = request.getfixturevalue(where)
    at = ("--at", moment) if moment else ()
    form = call("note", folder, "a draught", "--json", *at).form["entries"][0]
    if moment or where == "sample":
        assert form["written"] == "2026-11-26T14:03:00"
        assert last(folder).written == WALL
    else:
        assert "written" not in form  # in the minute that it tells of


def test_every_face_says_when_an_entry_was_put_down(call: Shell, van: Path) -> None:
    at = ("--at", LOOKED_AT)
    for typed in (["sign-in", van, "tom"], ["note", van, "a draught"], ["begin", van, "prime"]):
        ended = call(*typed, *at, "--by", "ada", "--despite", "a trial")
        assert f"] - {WRITTEN}\n" in ended.out, ended
    assert f"] - {WRITTEN}" in " ".join(call("log", van).out.split())
    later = ("--at", "2026-05-02T12:00")
    sheet = " ".join(call("report", "day", van, *later).out.split())
    page = call("report", "day", van, "--as", "html", *later).out
    for words in (f"10:00 ({WRITTEN})", f"a draught ({WRITTEN})"):
        assert words in sheet
        assert words in page
    task = call("task", van, "prime", *later).out
    assert WRITTEN in " ".join(task.split())


def test_an_entry_of_earlier_that_day_says_the_time_alone(call: Shell, van: Path) -> None:
    assert "] - written 14:03\n" in call("note", van, "x", "--at", "2026-11-26T09:00").out


def test_what_was_undone_or_corrected_carries_the_real_moment_too(
    call: Shell, sample: Path
) -> None:
    at = ("--at", LOOKED_AT, "--by", "mirela")
    entry = call("note", sample, "a draught", "--json", *at).form["entries"][0]["id"]
    assert call("correct", sample, entry, "--set", "text=no draught", "--by", "mirela").code == 0
    assert last(sample).written == WALL
    assert call("undo", sample, "--by", "mirela").code == 0
    assert last(sample).written == WALL


def test_the_days_copy_is_of_the_real_day_and_looking_ahead_takes_none_away(
    call: Shell, van: Path
) -> None:
    vehicle = van / "vehicle.toml"
    vehicle.write_text(vehicle.read_text().replace("format = 1", "format = 1\ncopies_days = 3"))
    for number in range(3, 0, -1):
        daily_copy(van, WALL.date() - timedelta(number), keep_days=3)
    before = [copy.at.date() for copy in copies_of(van)]
    for year in (2026, 2031, 2040):
        ahead = ("--at", f"{year}-12-24T10:00", "--despite", "a trial", "--by", "ada")
        assert call("note", van, "x", *ahead).code == 0
    assert [copy.at.date() for copy in copies_of(van)] == [*before, date(2026, 11, 26)]


def test_the_screens_write_by_the_clock_on_the_wall(
    van: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    apps = list[CrewboardApp]()
    monkeypatch.setattr(CrewboardApp, "run", lambda app: apps.append(app))
    open_screens(van, at=datetime(2026, 5, 2, 10))
    (app,) = apps
    assert app.now() == datetime(2026, 5, 2, 10)
    assert app.workbench.on_the_wall(app.now()) == WALL
