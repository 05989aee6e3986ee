"""Stopping work for the day by commands: what is refused, what the board and the sheet say then."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.calling import Shell, open_shop
from tests.terminal.shop import day_file, make_shop

BY = ("--by", "ada")


def at(time: str) -> tuple[str, str]:
    return "--at", f"2026-05-02T{time}"


@pytest.fixture
def van(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("COLUMNS", "100")
    return make_shop(tmp_path / "van")


@pytest.fixture
def call(capsys: pytest.CaptureFixture[str]) -> Shell:
    return Shell(capsys)


def under_way(call: Shell, van: Path) -> None:
    assert call("sign-in", van, "ada", "ben", *at("09:00")).code == 0
    open_shop(call, van, *at("09:01"))
    begun = call("begin", van, "scrape", "--who", "ada", "--who", "ben", *at("09:10"), *BY)
    assert begun.code == 0, begun.err


def test_what_goes_on_another_day_is_stopped_and_begun_again(call: Shell, van: Path) -> None:
    under_way(call, van)
    ended = call("stop", van, "scrape", "--note", "the left sill is to do", *at("15:00"), *BY)
    assert ended.code == 0, ended.err
    assert 'kind = "stopped"' in day_file(van)
    form = call("day", van, *at("15:01"), "--json").form
    (scrape,) = [task for task in form["tasks"] if task["id"] == "frame/scrape"]
    assert (scrape["state"], scrape["stopped"]) == ("under way", "2026-05-02T15:00:00")
    assert form["logged"]["stopped"] == ["frame/scrape"]
    sheet = " ".join(call("report", "day", van, *at("15:30")).out.split())
    assert "Stopped, to go on another day" in sheet
    assert "(the left sill is to do)" in sheet
    again = call("begin", van, "scrape", "--who", "ada", *at("15:10"), *BY)
    assert again.code == 0, again.err
    form = call("day", van, *at("15:11"), "--json").form
    (scrape,) = [task for task in form["tasks"] if task["id"] == "frame/scrape"]
    assert scrape["stopped"] is None


def test_only_what_is_under_way_can_be_stopped(call: Shell, van: Path) -> None:
    under_way(call, van)
    assert "is not under way" in call("stop", van, "weld", *at("10:00"), *BY).err
    assert call("stop", van, "scrape", *at("10:00"), *BY).code == 0
    twice = call("stop", van, "scrape", *at("10:05"), *BY)
    assert twice.code == 1
    assert "was stopped" in twice.err
    assert call("finish", van, "scrape", *at("11:00"), *BY).code == 0
    assert "was finished" in call("stop", van, "scrape", *at("11:05"), *BY).err


def test_a_stop_is_taken_back(call: Shell, van: Path) -> None:
    under_way(call, van)
    assert call("stop", van, "scrape", *at("10:00"), *BY).code == 0
    (stopped,) = call("log", van, "--kind", "stopped", "--json").form["entries"]
    assert call("take-back", van, stopped["id"], *BY).code == 0
    form = call("day", van, *at("10:05"), "--json").form
    assert form["logged"]["stopped"] == []
