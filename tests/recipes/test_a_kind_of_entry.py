"""A new kind of entry is its type with its description: everything else comes from that."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Annotated, NamedTuple

import pytest

from crewboard.folder.check.check import check
from crewboard.folder.read.folder import Folder
from crewboard.logbook.fields import EntryField, Note, Person, Picture, TaskId
from crewboard.logbook.kinds import BY_COMMAND, BY_WORD, KINDS_OF_ENTRY, ByCommand, entry
from tests.command.calling import Shell
from tests.intake.a_camera import jpeg, put
from tests.terminal.shop import day_file, make_shop, open_app, reads, seen, until

AT = ("--at", "2026-05-02T10:00", "--by", "ada")


class Borehole(NamedTuple):
    """The moisture of the wood, measured in a hole drilled for it: no such kind is shipped."""

    task: TaskId
    who: Person
    percent: Annotated[float, EntryField("number", "moisture", "of the wood, in %", 0, 100, "%")]
    picture: Picture = ""
    drilled: Annotated[datetime | None, EntryField("moment", "drilled at")] = None
    note: Note = ""


@pytest.fixture(autouse=True)
def one_more_kind() -> Iterator[None]:
    describe = entry(
        "borehole",
        "{who} measured {percent} of moisture in {task}[, drilled {drilled}][, see {picture}]",
        title="Borehole",
        menu="the moisture of the wood",
        command=ByCommand(
            "borehole",
            "the moisture of the wood was measured",
            "Writes down the moisture measured in a hole drilled for it.",
            ("task", "percent"),
            "",
            ("crewboard borehole . scrape 14 --who ada",),
        ),
    )
    describe(Borehole)
    yield
    del KINDS_OF_ENTRY[Borehole], BY_WORD["borehole"], BY_COMMAND["borehole"]


@pytest.fixture
def van(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("COLUMNS", "100")
    monkeypatch.delenv("CREWBOARD_BY", raising=False)
    van = make_shop(tmp_path / "van")
    put(van / "pictures", "hole.jpg", jpeg())
    return van


@pytest.fixture
def call(capsys: pytest.CaptureFixture[str]) -> Shell:
    return Shell(capsys)


def the_entry(van: Path) -> Borehole:
    days = Folder(van).logbook.days.values()
    acts: list[object] = [entry.act for day in days for entry in day.counting]
    (bore,) = [act for act in acts if isinstance(act, Borehole)]
    return bore


def bored(call: Shell, van: Path, *more: str) -> str:
    """The id of an entry written by the command."""
    ended = call("borehole", van, "scrape", "14,5", "--who", "Ben", *more, *AT)
    assert ended.err == ""
    entries = call("log", van, "--json").form["entries"]
    return str(entries[-1]["id"])


def test_it_is_written_by_a_command(call: Shell, van: Path) -> None:
    bored(call, van, "--picture", "pictures/hole.jpg", "--drilled", "9:40")
    assert the_entry(van) == Borehole(
        "frame/scrape", "ben", 14.5, "pictures/hole.jpg", datetime(2026, 5, 2, 9, 40)
    )
    assert "borehole" in call("--help").out
    assert "crewboard borehole DIR TASK MOISTURE [options]" in call("borehole", "--help").out


async def test_it_is_written_by_a_form(van: Path) -> None:
    app = open_app(van, by="ada")
    async with app.run_test(size=(90, 30)) as pilot:
        await reads(pilot, "Scrape the frame")
        await pilot.press("o")
        await reads(pilot, "the moisture of the wood")
        await pilot.press(*"bore", "enter")
        await reads(pilot, 'Borehole: "Scrape the frame"', "moisture, %", "drilled at")
        await pilot.press("enter")
        await reads(pilot, "Ben Holt")
        await pilot.press(*"ben", "enter")
        await reads(pilot, 'Borehole: "Scrape the frame"')
        await pilot.press("tab", *"14", "comma", *"5", "tab", "enter")
        await reads(pilot, "hole.jpg", "another, by its path")
        await pilot.press("enter", "tab")
        await pilot.press(*"9:40", "ctrl+s")
        await until(pilot, lambda: "borehole" in day_file(van))
    assert the_entry(van) == Borehole(
        "frame/scrape", "ben", 14.5, "pictures/hole.jpg", datetime(2026, 5, 2, 9, 40)
    )


async def test_it_is_listed_by_the_command_and_on_the_screen(call: Shell, van: Path) -> None:
    bored(call, van, "--drilled", "9:40", "--note", "damp")
    says = 'Ben Holt measured 14.5 % of moisture in "Scrape the frame"'
    listed = " ".join(call("log", van).out.split())
    assert f"{says}, drilled Sat 2 May 2026 09:40 (damp), written by Ada Marsh" in listed
    assert says in " ".join(call("log", van, "--task", "scrape").out.split())
    assert says in " ".join(call("log", van, "--person", "ben").out.split())
    assert call("log", van, "--person", "cleo").out.strip().startswith("There is no such entry")
    app = open_app(van)
    async with app.run_test(size=(110, 30)) as pilot:
        app.action_open("logbook")
        await reads(pilot, "Ben Holt measured 14.5 %")
        assert "2 May" in seen(app)


def test_it_stands_in_the_json(call: Shell, van: Path) -> None:
    first = bored(call, van, "--picture", "pictures/hole.jpg")
    (told,) = call("log", van, "--json").form["entries"]
    assert told["id"] == first
    assert (told["kind"], told["task"], told["who"]) == ("borehole", "frame/scrape", "ben")
    assert (told["percent"], told["picture"], told["counts"]) == (14.5, "pictures/hole.jpg", True)


def test_it_is_corrected_and_taken_back(call: Shell, van: Path) -> None:
    first = bored(call, van)
    ended = call("correct", van, first, "--set", "percent=12", "who=cleo", "drilled=9:30", *AT[2:])
    assert ended.err == ""
    assert the_entry(van) == Borehole("frame/scrape", "cleo", 12.0, "", datetime(2026, 5, 2, 9, 30))
    ended = call("take-back", van, first, "--by", "ada")
    assert ended.err == ""
    assert "borehole of 10:00 taken back" in " ".join(call("log", van).out.split())
    assert not any(
        e["counts"] for e in call("log", van, "--kind", "borehole", "--json").form["entries"]
    )


async def test_a_form_corrects_it(call: Shell, van: Path) -> None:
    bored(call, van, "--picture", "pictures/hole.jpg")
    app = open_app(van, by="ada")
    async with app.run_test(size=(110, 30)) as pilot:
        app.action_open("logbook")
        await reads(pilot, "Ben Holt measured 14.5 %")
        await pilot.press("enter", "e")
        await reads(pilot, "Correct the entry", "moisture, %", "hole.jpg")
        await pilot.press("tab", "tab", "tab", *"11", "ctrl+s")
        await until(pilot, lambda: "replaces" in day_file(van))
    assert the_entry(van) == Borehole("frame/scrape", "ben", 11.0, "pictures/hole.jpg")


def test_it_is_refused_for_an_unknown_person(call: Shell, van: Path) -> None:
    ended = call("borehole", van, "scrape", "14", "--who", "nobody", *AT)
    assert (ended.code, day_file(van)) == (1, "")
    assert 'there is no person "nobody"' in ended.err
    ended = call("borehole", van, "scrape", "14", *AT)
    assert (ended.code, day_file(van)) == (1, "")
    assert "say who" in ended.err


def test_a_file_with_names_of_nothing_and_a_missing_picture_is_named_by_check(van: Path) -> None:
    (van / "days/2026").mkdir(parents=True)
    (van / "days/2026/2026-05-02.toml").write_text(
        "date = 2026-05-02\n\n[entries]\n"
        'aaaaaaaa = { at = 2026-05-02T10:00:00, kind = "borehole", task = "frame/scrape", '
        'who = "nobody", percent = 14, picture = "pictures/gone.jpg" }\n'
        'bbbbbbbb = { at = 2026-05-02T10:00:00, kind = "borehole", task = "frame/none", '
        'who = "ada", percent = 140 }\n'
        'cccccccc = { at = 2026-05-02T10:00:00, kind = "borehole", task = "frame/scrape", '
        'who = "ada", percent = 14, moist = 3 }\n'
    )
    said = [fault.sentence for fault in check(Folder(van)).mistakes]
    assert 'there is no person "nobody"' in said
    assert 'there is no picture "pictures/gone.jpg"' in said
    assert any("percent" in each for each in said)
    assert any('"moist"' in each for each in said)


def test_what_it_names_keeps_its_name(call: Shell, van: Path) -> None:
    from crewboard.folder.edit.plan_edits import Remove
    from crewboard.workbench import Workbench

    bored(call, van)
    outcome = Workbench(van).change(Remove("task", "frame/scrape"))
    assert any(each.code == "in-logbook" for each in outcome.refused)
