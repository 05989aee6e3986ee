"""A lost logbook is loud: what stood in the folder before and is gone is said, and holds."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crewboard.folder.disk.known import StoodHere, known_text, standing_in, written_names
from crewboard.folder.read.folder import Folder
from crewboard.workbench import Workbench
from tests.command.calling import Shell
from tests.folder.a_vehicle import FILES

pytestmark = pytest.mark.usefixtures("begun")

AT = ("--at", "2026-05-02T15:30")
DAY = "days/2026/2026-05-02.toml"
FRAME = "components/frame.toml"
KNOWN = ".crewboard/known"


@pytest.fixture
def known(van: Path, call: Shell) -> Path:
    """A folder into which somebody wrote with the tool."""
    assert call("note", van, "first", "--by", "ada", "--at", "2026-05-02T15:20").code == 0
    assert call("check", van, *AT).out == ""
    return van


def test_a_day_that_is_gone_is_said_first_and_holds(known: Path, call: Shell) -> None:
    (known / DAY).unlink()
    told = call("check", known, *AT)
    assert told.code == 1
    assert told.out.startswith(f"{DAY}:1:1: this file was here at the last look, with 10 entries")
    assert "crewboard meant" in told.out
    board = call("day", known, *AT).out.splitlines()
    assert board[1].startswith("ON HOLD: Sat 2 May 2026 cannot be read")
    assert "ready" not in "".join(board[2:8])


@pytest.mark.parametrize("how", ["gone", "empty", "comment", "cut off", "another"])
def test_however_a_day_is_lost_no_task_of_it_is_ready(known: Path, call: Shell, how: str) -> None:
    path = known / DAY
    text = path.read_text(encoding="utf-8")
    match how:
        case "gone":
            path.unlink()
        case "empty":
            path.write_bytes(b"")
        case "comment":
            path.write_text("# Saturday\n", encoding="utf-8")
        case "cut off":
            path.write_text("\n".join(text.splitlines()[:5]) + "\n", encoding="utf-8")
        case "another":
            path.write_text("date = 2026-05-02\n\n[entries]\n", encoding="utf-8")
    told = call("check", known, *AT).out
    assert told.startswith(f"{DAY}:1:1:"), told
    tasks = call("vehicle", known, "--tasks", "--json", *AT).form
    assert '"ready"' not in str(tasks).replace("'", '"')


def test_a_line_that_is_gone_from_a_day_is_missed(known: Path, call: Shell) -> None:
    path = known / DAY
    lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
    path.write_text("".join(line for line in lines if "k7f3q2mn = " not in line), encoding="utf-8")
    assert (
        f"{DAY}:1:1: 1 entry that stood here at the last look is gone"
        in call("check", known, *AT).out
    )


@pytest.mark.parametrize(
    "file", ["crew.toml", "supplies.toml", "hazards.toml", FRAME, "vehicle.toml"]
)
def test_a_file_of_the_plan_that_is_gone_is_one_sentence(
    known: Path, call: Shell, file: str
) -> None:
    (known / file).unlink()
    told = call("check", known, *AT).out.splitlines()
    assert len(told) == 1
    assert told[0].startswith(f"{file}:1:1:")


def test_a_whole_logbook_that_is_gone_is_one_sentence(known: Path, call: Shell) -> None:
    for number in range(3, 9):
        day = f"2026-05-{number:02}"
        entry = f'aaaaaaa{number} = {{ at = {day}T09:00:00, kind = "note", text = "x" }}'
        path = (known / DAY).with_name(f"{day}.toml")
        path.write_text(f"date = {day}\n\n[entries]\n{entry}\n", encoding="utf-8")
    call("day", known, *AT)
    shutil.rmtree(known / "days")
    told = call("check", known, *AT).out.splitlines()
    assert "7 days that were here at the last look, 2026-05-02 to 2026-05-08, are gone" in told[0]
    assert len(told) == 1


def test_what_was_meant_to_go_is_asked_about_once(known: Path, call: Shell) -> None:
    (known / DAY).unlink()
    assert call("meant", known).out == f"{DAY}\n"
    assert "say who" in call("meant", known, "--why", "typed twice").err
    only_a_lead = call("meant", known, "--why", "typed twice", "--by", "tom")
    assert only_a_lead.code == 1
    assert "only a lead" in only_a_lead.err
    done = call("meant", known, "--why", "typed twice", "--by", "ada", "--at", "2026-05-03T09:00")
    assert done.code == 0, done
    assert DAY not in call("check", known, *AT).out
    assert "ON HOLD" not in call("day", known, *AT).out
    assert call("meant", known).err == "Nothing is missed here.\n"
    assert "typed twice" in call("log", known).out


def test_who_said_so_and_why_goes_with_the_folder_to_another_computer(
    known: Path, call: Shell, tmp_path: Path
) -> None:
    other = tmp_path / "other"
    shutil.copytree(known, other)
    (known / DAY).unlink()
    call("meant", known, "--why", "typed twice", "--by", "ada", "--at", "2026-05-03T09:00")
    (other / DAY).unlink()
    assert DAY in call("check", other, *AT).out
    shutil.copytree(known / "days", other / "days", dirs_exist_ok=True)
    assert DAY not in call("check", other, *AT).out


def test_a_day_that_was_moved_or_folded_in_is_no_loss(known: Path, call: Shell) -> None:
    text = (
        (known / DAY).read_text(encoding="utf-8").replace("date = 2026-05-02", "date = 2026-05-03")
    )
    (known / DAY).unlink()
    (known / DAY).with_name("2026-05-03.toml").write_text(text, encoding="utf-8")
    assert "gone" not in call("check", known, *AT).out
    assert "gone" not in call("check", known, *AT).out


def test_a_component_under_another_name_is_no_loss(known: Path, call: Shell) -> None:
    (known / "components/deck.toml").rename(known / "components/floor.toml")
    assert "gone" not in call("check", known, *AT).out


def test_what_a_restore_or_a_fold_takes_away_is_no_loss(known: Path, call: Shell) -> None:
    copy = call("copies", known).out.split()[0]
    call("note", known, "later", "--by", "ada", "--at", "2026-05-03T09:00")
    assert call("restore", known, copy, "--exact", "--do-it").code == 0
    assert "gone" not in call("check", known, *AT).out
    (known / "components/deck-old.toml").write_text(FILES["components/deck.toml"], encoding="utf-8")
    call("day", known, *AT)
    assert call("fold", known, "--do-it").code == 0
    assert "gone" not in call("check", known, *AT).out


def test_a_plan_that_was_changed_on_the_screens_is_no_loss(known: Path, call: Shell) -> None:
    from crewboard.folder.edit.plan_edits import Add, Remove

    bench = Workbench(known)
    assert bench.change(Add("component", "hitch", {"name": "Hitch"})).kept
    assert bench.change(Remove("component", "hitch")).kept
    assert bench.faults == []
    assert call("check", known, *AT).out == ""


def test_without_the_memory_the_last_copy_knows(known: Path, call: Shell) -> None:
    (known / KNOWN).unlink()
    shutil.rmtree(known / "days")
    assert f"{DAY}:1:1: this file was here in the copy of" in call("check", known, *AT).out


def test_without_the_memory_and_the_copies_nothing_is_said(known: Path, call: Shell) -> None:
    shutil.rmtree(known / ".crewboard")
    (known / "components/deck.toml").unlink()
    assert call("check", known, *AT).out == ""


def test_a_clone_comes_without_the_memory_and_says_nothing_wrong(
    known: Path, call: Shell, tmp_path: Path
) -> None:
    (known / ".gitignore").write_text(".crewboard/\n.crewboard.lock\n", encoding="utf-8")
    git = ["git", "-c", "user.name=x", "-c", "user.email=x@y", "-C", str(known)]
    for words in (["init", "-q"], ["add", "-A"], ["commit", "-qm", "all"]):
        subprocess.run([*git, *words], check=True)
    clone = tmp_path / "clone"
    subprocess.run(["git", "clone", "-q", str(known), str(clone)], check=True)
    assert call("check", clone, *AT).out == ""
    assert not (clone / ".crewboard").exists()


def test_looking_at_a_folder_that_nobody_wrote_to_leaves_nothing_in_it(
    van: Path, call: Shell
) -> None:
    before = sorted(van.rglob("*"))
    for name in ("day", "check", "holds", "log"):
        call(name, van)
    assert sorted(van.rglob("*")) == before


def test_a_folder_that_is_only_read_is_looked_at_all_the_same(known: Path, call: Shell) -> None:
    (known / DAY).with_name("2026-05-03.toml").write_text(
        FILES[DAY].replace("2026-05-02", "2026-05-03").replace("k7f3", "k8f3"), encoding="utf-8"
    )
    (known / ".crewboard").chmod(0o500)
    try:
        assert call("day", known, *AT).code == 0
    finally:
        (known / ".crewboard").chmod(0o700)


@pytest.mark.parametrize(
    "text", ["", "\0\0", "<<<<<<< a\n=======\n>>>>>>> b\n", "x" * 9999, "\t\t\n%zz"]
)
def test_a_memory_that_says_nothing_is_no_trouble(known: Path, call: Shell, text: str) -> None:
    (known / KNOWN).write_text(text, encoding="utf-8")
    assert call("day", known, *AT).code == 0
    (known / DAY).unlink()
    assert call("check", known, *AT).code in (0, 1)


@settings(max_examples=200, deadline=None)
@given(st.dictionaries(st.text(min_size=1), st.frozensets(st.text(min_size=1)), max_size=5))
def test_the_memory_reads_back_what_was_written(standing: dict[str, frozenset[str]]) -> None:
    sound = {
        path: ids
        for path, ids in standing.items()
        if all(ord(c) < 0xD800 or ord(c) > 0xDFFF for name in (path, *ids) for c in name)
        and path[0] not in "#<=>|"
    }
    read = standing_in(known_text(StoodHere({p: written_names(ids) for p, ids in sound.items()})))
    assert {path: read[path] for path in read} == sound


def test_a_session_that_goes_on_lets_go_of_what_was_meant_to_go(known: Path) -> None:
    from datetime import datetime

    from crewboard.logbook.acts import LetGo
    from crewboard.workbench import Said

    bench, now = Workbench(known), datetime(2026, 5, 3, 9)
    (known / DAY).unlink()
    bench.refresh()
    assert list(bench.folder.missed) == [DAY]
    assert bench.logbook.days, "what it said is still shown"
    said = [Said(LetGo(bench.folder.missed, "typed twice"), now)]
    assert bench.record(said, by="ada", now=now).kept
    assert not bench.folder.missed
    assert DAY not in {fault.file for fault in bench.faults}
    assert len(bench.logbook.days) == 1
    assert Folder(known).missed == ()
