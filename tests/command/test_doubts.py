"""What hardly can be is asked about, and written with the reason and who answers for it."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from crewboard.command import mending, opened, write
from crewboard.folder.check.check import check
from crewboard.folder.read.folder import Folder
from tests.command.calling import Shell
from tests.terminal.shop import Watch, asked, day_file, make_shop, open_app, reads, until

NOW = datetime(2026, 5, 16, 12, 0)
DAY = "2026-05-16"
BY = ("--by", "ada")


@pytest.fixture
def van(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("COLUMNS", "100")
    monkeypatch.delenv("CREWBOARD_BY", raising=False)
    for module in (opened, write, mending):
        monkeypatch.setattr(module, "shop_now", lambda _plan: NOW)
    root = make_shop(tmp_path / "van")
    crew = root / "crew.toml"
    crew.write_text(
        crew.read_text()
        .replace('name = "Ben Holt"', 'name = "Ben Holt"\njoined = 2026-05-09', 1)
        .replace('name = "Dov Quill"', 'name = "Dov Quill"\nleft = 2026-05-09', 1)
    )
    vehicle = root / "vehicle.toml"
    vehicle.write_text(vehicle.read_text().replace("opens =", "since = 2026-04-01\nopens =", 1))
    return root


@pytest.fixture
def call(capsys: pytest.CaptureFixture[str]) -> Shell:
    return Shell(capsys)


def entries(van: Path) -> list[Any]:
    return [entry for day in Folder(van).logbook.days.values() for entry in day.counting]


DOUBTED: list[tuple[list[str], str]] = [
    (["sign-in", "ada", "--at", "2026-05-17T09:00"], "is still to come"),
    (["hours", "ada", "3", "scrape", "--at", "16:00"], "is still to come"),
    (["note", "early", "--at", "2026-03-28T10:00"], "is before the work began, Wed 1 Apr 2026"),
    (["hours", "ben", "3", "scrape", "--at", "2026-05-02T15:00"], "joined on Sat 9 May 2026"),
    (["hours", "dov", "3", "scrape"], "left on Sat 9 May 2026"),
    (["hours", "ada", "25", "scrape"], "25 hours cannot be one person's day"),
    (
        ["reading", "--celsius", "300"],
        "temperature 300 °C: it is between -40 °C and 60 °C",
    ),
    (["reading", "--temperature", "300"], "temperature 300 °C"),
]


@pytest.mark.parametrize(("typed", "says"), DOUBTED, ids=lambda value: str(value)[:40])
def test_what_hardly_can_be_is_refused_and_kept_with_a_name_and_the_reason(
    call: Shell, van: Path, typed: list[str], says: str
) -> None:
    name, *rest = typed
    ended = call(name, van, *rest, *BY)
    assert (ended.code, entries(van)) == (1, [])
    assert says in ended.err
    assert '--despite "the reason" --by WHO' in ended.err
    assert call(name, van, *rest, "--despite", "it was so").code == 1  # nobody answers for it
    ended = call(name, van, *rest, "--despite", "it was so", *BY)
    assert (ended.code, ended.err) == (0, "")
    assert "all the same: it was so" in ended.out
    (entry,) = entries(van)
    assert (entry.despite, entry.by) == ("it was so", "ada")
    assert Folder(van).faults == []
    assert check(Folder(van)).mistakes == ()
    (told,) = call("log", van, "--json").form["entries"]
    assert told["despite"] == "it was so"


def test_what_can_be_keeps_no_reason(call: Shell, van: Path) -> None:
    assert call("hours", van, "ada", "3", "scrape", "--despite", "it was so", *BY).code == 0
    assert [entry.despite for entry in entries(van)] == [""]


def test_what_hardly_could_be_is_taken_back_without_a_reason(call: Shell, van: Path) -> None:
    for at in ("2026-03-28T10:00", "2026-05-17T10:00"):
        assert call("note", van, "odd", "--at", at, "--despite", "so it was", *BY).code == 0
    for each in entries(van):
        assert call("take-back", van, each.id, *BY).err == ""
    assert entries(van) == []


def test_who_will_come_is_said_of_a_day_to_come(call: Shell, van: Path) -> None:
    assert call("expect", van, "ada", "--at", "2026-05-30", *BY).err == ""
    first = entries(van)[0].id
    assert call("take-back", van, first, *BY).err == ""


def test_more_than_a_days_hours_in_all_are_asked_about(call: Shell, van: Path) -> None:
    assert call("hours", van, "ada", "20", "scrape", *BY).err == ""
    ended = call("hours", van, "ada", "5", *BY)
    assert "Ada Marsh would have 25 hours on Sat 16 May 2026" in ended.err
    ended = call("correct", van, entries(van)[0].id, "--set", "hours=22", *BY)
    assert ended.err == ""  # what is corrected does not count as well
    ended = call("correct", van, entries(van)[0].id, "--set", "hours=26", *BY)
    assert "26 hours cannot be one person's day" in ended.err
    ended = call("correct", van, entries(van)[0].id, "--set", "hours=26", "--despite", "two", *BY)
    assert (ended.err, entries(van)[0].despite) == ("", "two")


def test_hours_that_do_not_fit_the_day_are_questioned_not_refused(call: Shell, van: Path) -> None:
    call("sign-in", van, "ada", "--at", "10:00")
    call("sign-out", van, "ada", "--at", "11:00")
    assert call("hours", van, "ada", "9", "scrape").err == ""
    questions = [fault.sentence for fault in check(Folder(van)).questions]
    assert any("Ada Marsh has 9 hours" in each for each in questions)


def test_a_finish_before_its_begin_and_a_clock_before_the_work_are_asked_about(
    call: Shell, van: Path
) -> None:
    assert call("begin", van, "scrape", "--who", "ada", "--at", "10:00", *BY).err == ""
    ended = call("finish", van, "scrape", "--at", "09:30", *BY)
    assert '"Scrape the frame" was begun only at Sat 16 May 2026 10:00' in ended.err
    ended = call("finish", van, "scrape", "--at", "11:00", "--clock", "09:00", *BY)
    assert "the clock would start Sat 16 May 2026 09:00, before" in ended.err
    ended = call("finish", van, "scrape", "--at", "11:00", "--clock", "10:30", *BY)
    assert ended.err == ""


def test_hours_left_on_finished_work_are_asked_about(call: Shell, van: Path) -> None:
    call("begin", van, "scrape", "--who", "ada", "--at", "10:00", *BY)
    call("finish", van, "scrape", "--at", "11:00", *BY)
    ended = call("hours-left", van, "scrape", "4", *BY)
    assert 'the work of "Scrape the frame" is finished; reopen it first' in ended.err
    assert call("hours-left", van, "scrape", "4", "--despite", "polish", *BY).err == ""


async def test_the_screen_asks_and_keeps_it_with_the_reason(van: Path) -> None:
    app = open_app(van, Watch(NOW), by="ada")
    async with app.run_test(size=(90, 30)) as pilot:
        await reads(pilot, "Scrape the frame")
        await pilot.press("r")
        await reads(pilot, "Shop reading")
        await pilot.press(*"300", "enter")
        await reads(pilot, "temperature 300 °C", "the reason, for the logbook")
        await pilot.press(*"fire", "enter")
        await until(pilot, lambda: "reading" in day_file(van, DAY))
    assert 'celsius = 300, despite = "fire"' in day_file(van, DAY)


async def test_a_form_that_is_doubted_asks_and_keeps_what_was_typed(call: Shell, van: Path) -> None:
    call("hours", van, "ada", "3", "scrape", *BY)
    app = open_app(van, Watch(NOW), by="ada")
    async with app.run_test(size=(90, 30)) as pilot:
        app.action_open("logbook")
        await reads(pilot, "Ada Marsh worked 3 h")
        await pilot.press("enter", "e")
        await reads(pilot, "Correct the entry")
        await pilot.press("tab", "tab", *"30", "ctrl+s")
        await reads(pilot, "30 hours cannot be one person's day")
        await pilot.press(*"twins", "enter")
        await until(pilot, lambda: not asked(app))
    assert [(e.act.hours, e.despite) for e in entries(van)] == [(30.0, "twins")]


def test_who_left_and_came_back_is_of_the_crew_but_for_the_time_between(
    call: Shell, van: Path
) -> None:
    crew = van / "crew.toml"
    text = crew.read_text()
    crew.write_text(text.replace("left = 2026-05-09", "left = 2026-05-09\njoined = 2026-05-14"))
    for day, code in (("2026-05-09", 0), ("2026-05-12", 1), ("2026-05-14", 0)):
        hours = call("hours", van, "dov", "1", "--at", f"{day}T12:00", *BY)
        assert hours.code == code, (day, hours.err)
        assert ("joined on Thu 14 May 2026" in hours.err) is (code == 1)


def test_an_example_can_be_lived_on_from_the_moment_it_is_shown_at(call: Shell, van: Path) -> None:
    """Its clock stands still; only what lies ahead of the real calendar is still to come."""
    vehicle = van / "vehicle.toml"
    vehicle.write_text("shown_at = 2026-05-02T09:00:00\n" + vehicle.read_text())
    assert call("sign-in", van, "ada", "--at", "2026-05-02T10:30").code == 0
    assert call("sign-in", van, "ben", "--at", "2026-05-16T09:00").code == 0
    ended = call("sign-in", van, "ada", "--at", "2190-05-16T09:00")
    assert (ended.code, "is still to come" in ended.err) == (1, True)


def odd_entry(van: Path, day: str, says: str) -> None:
    file = van / f"days/{day[:4]}/{day}.toml"
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(f"date = {day}\n\n[entries]\nzzzzzzz2 = {{ at = {day}T10:00:00, {says} }}\n")


@pytest.mark.parametrize(
    ("day", "who", "asked_about"),
    [
        ("2006-05-02", "ada", "Tue 2 May 2006 is before the work began, Wed 1 Apr 2026"),
        ("2062-05-02", "ada", "Tue 2 May 2062 10:00 is still to come: it is"),
        ("2026-04-11", "ben", "Ben Holt joined on Sat 9 May 2026, after Sat 11 Apr 2026"),
        ("2026-05-10", "dov", "Dov Quill left on Sat 9 May 2026, before that day"),
    ],
)
def test_check_asks_about_entries_of_a_time_when_they_can_hardly_have_been(
    van: Path, call: Shell, day: str, who: str, asked_about: str
) -> None:
    odd_entry(van, day, f'kind = "note", text = "seen", by = "{who}"')
    assert who == "ada" or asked_about not in call("check", van).out, "who wrote it was not there"
    odd_entry(van, day, f'kind = "hours", who = "{who}", hours = 2')
    ended = call("check", van)
    assert ended.code == 0
    assert f"days/{day[:4]}/{day}.toml:4:1: {asked_about}" in ended.out
    odd_entry(van, day, f'kind = "hours", who = "{who}", hours = 2, despite = "so it was"')
    assert asked_about not in call("check", van).out


def test_a_day_years_before_the_logbook_is_asked_about_where_no_date_says_when_work_began(
    van: Path, call: Shell
) -> None:
    vehicle = van / "vehicle.toml"
    vehicle.write_text(vehicle.read_text().replace("since = 2026-04-01\n", ""))
    assert call("note", van, "first", *BY, "--at", "2026-05-09T10:00").code == 0
    refused = call("note", van, "early", *BY, "--at", "2006-05-02T10:00")
    assert refused.code == 1
    assert "more than a year before the first work day in the logbook" in refused.err
    odd_entry(van, "2006-05-02", 'kind = "note", text = "early"')
    assert "2006 is more than a year before the first work day" in call("check", van).out


def test_of_many_days_before_the_beginning_its_date_is_asked_about(van: Path, call: Shell) -> None:
    for number in range(1, 13):
        odd_entry(van, f"2025-{number:02}-04", 'kind = "note", text = "seen"')
    asked_about = [
        line for line in call("check", van).out.splitlines() if "before the work" in line
    ]
    assert len(asked_about) == 1
    assert asked_about[0].startswith("vehicle.toml:")
    assert "12 days of the logbook are before the work began, Wed 1 Apr 2026" in asked_about[0]
