"""Looking after the folder: copies that a sync left, daily copies, folders of other formats."""

from __future__ import annotations

import os
from datetime import datetime
from pathlib import Path

import pytest

from crewboard.folder.read.folder import Folder
from crewboard.workbench import Workbench
from tests.command.calling import Shell
from tests.folder.a_vehicle import FILES
from tests.terminal.shop import Watch, open_app, reads

DAY = "days/2026/2026-05-02.toml"
AT = ("--at", "2026-05-02T16:00")
LINE = 'zzzzzzz2 = { at = 2026-05-02T14:00:00, by = "tom", kind = "sign-in", who = "tom" }\n'
# Shapes that copies come in, not any one tool's names. Those in the first group are read at once
# by every face, those in the second are found by `check` and `fold`.
SEEN = [
    "2026-05-02 (1).toml",
    "2026-05-02 (conflicted copy 2026-05-03 101112).toml",
    "2026-05-02.sync-conflict-20260503-101112-ABCDEFG.toml",
    "2026-05-02~LAPTOP.toml",
    "2026-05-02-LAPTOP-2.toml",
    "Copy of 2026-05-02.toml",
    "2026-05-02 - Kopie.toml",
    "2026-05-02_conflict.TOML",
    "2026-05-02.toml.orig",
    "2026-05-02.toml (old)",
    "[b]2026-05-02 [x] \x1b[31m\u202e.toml",
]
FOUND = ["2026-05-02.toml~", ".2026-05-02.toml.tmp", "CONFLICT of the laptop"]


def with_copy(van: Path, name: str, text: str = FILES[DAY] + LINE) -> Path:
    odd = (van / DAY).with_name(name)
    odd.write_text(text)
    return odd


@pytest.mark.parametrize("name", SEEN)
def test_a_copy_that_a_sync_left_is_seen_by_every_face_and_folded_in(
    call: Shell, van: Path, name: str
) -> None:
    odd = with_copy(van, name)
    codes = [each["code"] for each in call("check", van, *AT, "--json").form["mistakes"]]
    assert codes == ["stray-file"]
    assert "crewboard fold" in call("check", van, *AT).out
    assert "1 mistake" in call("day", van, *AT).out
    assert "1 entry that days/2026/2026-05-02.toml has not" in call("fold", van).out
    assert odd.exists()
    assert call("fold", van, "--do-it").code == 0
    assert not odd.exists()
    assert (van / DAY).read_text() == FILES[DAY] + LINE
    assert call("check", van, *AT).code == 0


@pytest.mark.parametrize("name", FOUND)
def test_a_copy_aside_is_a_question_and_folded_in(call: Shell, van: Path, name: str) -> None:
    odd = with_copy(van, name)
    codes = [each["code"] for each in call("check", van, *AT, "--json").form["questions"]]
    assert "copy-aside" in codes
    assert call("fold", van, "--do-it").code == 0
    assert not odd.exists()
    assert (van / DAY).read_text() == FILES[DAY] + LINE


async def test_the_screens_show_a_copy_that_a_sync_left(van: Path) -> None:
    app = open_app(van, Watch(datetime(2026, 5, 2, 16)))
    async with app.run_test(size=(100, 30)) as pilot:
        await reads(pilot, "Sat 2 May 2026")
        with_copy(van, SEEN[2])
        await reads(pilot, "1 mistake: m")
        await pilot.press("m")
        await reads(pilot, "not named for a day", "crewboard fold")


def test_several_copies_of_one_day_are_folded_in_one_after_the_other(
    call: Shell, van: Path
) -> None:
    for number in range(4):
        with_copy(van, SEEN[number], FILES[DAY] + LINE.replace("zzzzzzz2", f"zzzzzzz{number}"))
    with_copy(van, SEEN[5], FILES[DAY].replace("\n", "\r\n") + LINE.replace("zz2", "zz9"))
    assert call("fold", van, "--do-it").code == 0
    ids = [entry.id for day in Folder(van).logbook.days.values() for entry in day.entries]
    assert sorted(each for each in ids if each.startswith("zz")) == [
        f"zzzzzzz{number}" for number in (0, 1, 2, 3, 9)
    ]
    assert len(ids) == len(set(ids))
    assert (van / DAY).read_text().startswith(FILES[DAY])


def test_a_restore_shows_first_then_does_and_keeps_a_copy_of_now(call: Shell, van: Path) -> None:
    before = {path: (van / path).read_bytes() for path in FILES}
    assert call("note", van, "one", "--by", "ada", *AT).code == 0
    (copy,) = call("copies", van).out.splitlines()
    name = copy.split()[0]
    frame = van / "components/frame.toml"
    frame.write_text(frame.read_text().replace("Scrape", "Sand"))
    (van / "components/roof.toml").write_text('name = "Roof"\n')
    (van / "supplies.toml").unlink()
    now = {path: path.read_bytes() for path in van.rglob("*.toml")}
    shown = call("restore", van, name)
    assert set(shown.out.splitlines()) == {
        "components/frame.toml: gets its old text back",
        "days/2026/2026-05-02.toml: gets its old text back",
        "supplies.toml: comes back",
        "components/roof.toml: is newer and stays",
    }
    assert {path: path.read_bytes() for path in van.rglob("*.toml")} == now
    done = call("restore", van, name, "--do-it", "--exact")
    assert done.code == 0
    assert {str(p.relative_to(van)): p.read_bytes() for p in van.rglob("*.toml")} == before
    kept = next(line for line in call("copies", van).out.splitlines() if " at " in line)
    back = call("restore", van, " ".join(kept.split()[:3]), "--do-it", "--exact")
    assert back.code == 0, back.err
    assert {path: path.read_bytes() for path in van.rglob("*.toml")} == now


def test_a_folder_of_a_newer_format_is_not_written_in_any_way(call: Shell, van: Path) -> None:
    assert call("note", van, "one", "--by", "ada", *AT).code == 0
    name = call("copies", van).out.split()[0]
    with_copy(van, SEEN[0])
    vehicle = van / "vehicle.toml"
    vehicle.write_text(vehicle.read_text().replace("format = 1", "format = 2"))
    before = {path: path.read_bytes() for path in van.rglob("*") if path.is_file()}
    for typed in (
        ("note", van, "two", *AT),
        ("take-back", van, "k7f3q2mh"),
        ("fold", van, "--do-it"),
        ("restore", van, name, "--do-it"),
    ):
        ended = call(*typed)
        assert ended.code == 1
        assert "written by a newer program and is only shown" in ended.err
    assert {path: path.read_bytes() for path in van.rglob("*") if path.is_file()} == before
    assert "format 2, this program knows up to 1" in call("check", van, *AT).out
    assert call("day", van, *AT).code == 0
    assert call("fold", van).code == 0


@pytest.mark.parametrize("said", ["", "format = 1\n"])
def test_a_folder_that_does_not_say_its_format_is_of_the_first(
    call: Shell, van: Path, said: str
) -> None:
    vehicle = van / "vehicle.toml"
    vehicle.write_text(vehicle.read_text().replace("format = 1\n", said))
    assert Folder(van).plan.vehicle.format == 1
    assert call("check", van, *AT).code == 0
    assert call("note", van, "one", "--by", "ada", *AT).code == 0


def test_unfinished_files_are_swept_wherever_they_lie_with_the_first_entry_of_a_day(
    call: Shell, van: Path
) -> None:
    from crewboard.folder.disk.part import name_for_part

    ours = Path(name_for_part(str(van / "components")))
    ours.write_text("half")
    dead = ours.with_name(ours.name.replace(f"-{os.getpid()}-", "-4194305-"))
    dead.write_text("half")
    old = van / "days/1999"
    old.mkdir()
    (old / dead.name).write_text("half")
    assert Workbench(van).faults == []
    assert call("note", van, "one", "--by", "ada", *AT).code == 0
    assert not dead.exists()
    assert not (old / dead.name).exists()
    assert ours.exists(), "its writer lives"


def test_the_shops_hours_are_typed_for_a_new_folder_as_in_its_form(
    call: Shell, tmp_path: Path
) -> None:
    ended = call("new", tmp_path / "bus", "--opens", "9.30", "--closes", "16")
    assert ended.code == 0
    assert "opens = 09:30:00" in (tmp_path / "bus" / "vehicle.toml").read_text()
