"""A disk that fails, or a power button pressed, at every call of an operation of the workbench.

The errors and the kill come at each file-system call in turn, the daily copy and the reading
before and after included.
"""

from __future__ import annotations

import errno
import os
import shutil
from collections.abc import Callable, Sequence
from datetime import datetime
from pathlib import Path

import pytest

from crewboard.folder.disk.archive import copies_of
from crewboard.folder.disk.notkept import not_kept
from crewboard.folder.disk.part import is_part
from crewboard.folder.disk.undo import FileChange
from crewboard.folder.edit.plan_edits import Change
from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import Noted
from crewboard.workbench import Outcome, Said, Workbench, writing
from tests.folder.a_vehicle import FILES, make
from tests.folder.disk.failing_disk import Disk, dies, failing, in_a_child, raises

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork")

NOW = datetime(2026, 5, 2, 16)
NEW_DAY = datetime(2026, 5, 3, 9)
WORDS = "found a bolt"
# The long form fails at each call in turn, the short form at every eleventh.
STEP = 1 if os.environ.get("CREWBOARD_LONG") else 11


def note(bench: Workbench, now: datetime = NOW) -> Outcome:
    return bench.record([Said(Noted(WORDS), now)], by="ada", now=now)


def note_on_a_new_day(bench: Workbench) -> Outcome:
    return note(bench, NEW_DAY)


def rename_a_task(bench: Workbench) -> Outcome:
    return bench.change(Change("task", "frame/scrape", {"title": WORDS}), today=NOW.date())


OPERATIONS: dict[str, Callable[[Workbench], Outcome]] = {
    "an entry": note,
    "an entry of a new day": note_on_a_new_day,
    "an edit of the plan": rename_a_task,
}


def times_there(root: Path) -> int:
    """How often the words stand in what is read of the folder; nothing of it may be broken."""
    folder = Folder(root)
    assert folder.faults == []
    acts = [e.act for day in folder.logbook.days.values() for e in day.entries]
    titles = [task.title for task in folder.plan.tasks.values()]
    return acts.count(Noted(WORDS)) + titles.count(WORDS)


OLD_LINES = FILES["days/2026/2026-05-02.toml"].splitlines()
OLD_IDS = [line.split()[0] for line in OLD_LINES if line.startswith("k7f3q2m")]


def old_is_there(root: Path) -> None:
    folder = Folder(root)
    assert len(folder.plan.tasks) == 4
    ids = [e.id for day in folder.logbook.days.values() for e in day.entries]
    assert [each for each in ids if each.startswith("k7f3q2m")] == OLD_IDS


def warm(tmp_path: Path) -> None:
    """Import what the first write imports, so that no call counted goes into importing."""
    bench = Workbench(make(tmp_path / "warm"))
    for operation in OPERATIONS.values():
        assert operation(bench).kept


@pytest.mark.parametrize("what", OPERATIONS)
def test_killed_at_any_call_the_folder_opens_and_what_was_acknowledged_is_there_once(
    tmp_path: Path, what: str
) -> None:
    warm(tmp_path)
    at = lived = there_unsaid = 0
    while not lived:
        at += STEP
        root = make(tmp_path / "van")
        said = tmp_path / "said"
        bench = Workbench(root)

        def child(at: int = at, bench: Workbench = bench, said: Path = said) -> None:
            with failing(Disk(at, dies)) as disk:
                kept = OPERATIONS[what](bench).kept
                disk.at = 0
            if kept:
                said.touch()

        lived = in_a_child(child)
        acknowledged = said.exists()
        assert times_there(root) in ((1,) if acknowledged else (0, 1)), at
        there_unsaid += not acknowledged and times_there(root)
        old_is_there(root)
        # Whoever comes next can write, and sweeps what the dead one left where it writes.
        after = Workbench(root)
        assert note(after, NEW_DAY).kept
        assert rename_a_task(after).kept
        assert not [path for path in root.rglob("*.part") if is_part(path.name)], at
        shutil.rmtree(root)
        said.unlink(missing_ok=True)
    print(f"{what}: killed at {(at - 1) // STEP} of {at} calls")
    assert at > 30
    assert there_unsaid or STEP > 1  # between the new name and the answer there is a moment


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EIO, errno.EROFS, errno.EACCES])
@pytest.mark.parametrize("what", OPERATIONS)
def test_a_disk_that_fails_at_any_call_is_one_sentence_and_says_the_truth(
    tmp_path: Path, what: str, number: int
) -> None:
    warm(tmp_path)
    at, refused = number % STEP, 0
    while True:
        at += STEP
        root = make(tmp_path / "van")
        bench = Workbench(root)
        with failing(Disk(at, raises(number))) as disk:
            outcome = OPERATIONS[what](bench)
        assert times_there(root) == outcome.kept, (disk.calls, outcome)
        old_is_there(root)
        if not outcome.kept:
            refused += 1
            (told,) = outcome.refused
            assert told.says.startswith("nothing was saved: "), told
            assert told.mend
            assert "\n" not in told.says + told.mend
        # The disk is well again: the board tells what is there, and trying again works.
        bench.refresh()
        assert bench.faults == [], disk.calls
        again = OPERATIONS[what](bench)
        assert again.kept, again.refused
        assert times_there(root) == (2 if outcome.kept and what != "an edit of the plan" else 1)
        shutil.rmtree(root)
        if len(disk.calls) < at:
            break
    print(f"{what}: {errno.errorcode[number]} at {len(disk.calls)} calls, {refused} refused")
    assert refused >= (6 if STEP == 1 else 1)


def test_a_disk_that_dies_for_good_says_what_may_have_been_kept(tmp_path: Path) -> None:
    """From one call on nothing works any more: not the writing, and not the taking back."""
    warm(tmp_path)
    unsure = 0
    for at in range(1, 400, 1 if STEP == 1 else 3):
        root = make(tmp_path / "van")
        bench = Workbench(root)
        disk = Disk(at, raises(errno.EIO))
        disk.for_good = True
        with failing(disk):
            outcome = note(bench)
        there = times_there(root)
        if outcome.kept:
            assert there == 1
        elif there:
            unsure += 1
            (told,) = outcome.refused
            assert told.says.startswith("it is not sure whether it was saved: "), told
            assert "look at the folder" in told.mend
        else:
            assert outcome.refused[0].code == "disk"
        shutil.rmtree(root)
        if len(disk.calls) < at:
            break
    else:
        pytest.fail("an entry takes less than 400 calls")
    assert unsure


def test_an_entry_takes_the_room_of_the_days_copy_where_the_disk_has_no_other(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    root = make(tmp_path / "van")
    bench, real, calls = Workbench(root), writing.make, list[int]()

    def full_at_first(folder: Folder, changes: Sequence[FileChange]) -> None:
        calls.append(len(copies_of(root)))
        if len(calls) == 1:
            raise not_kept(root, OSError(errno.ENOSPC, "no room"))
        real(folder, changes)

    monkeypatch.setattr(writing, "make", full_at_first)
    outcome = note(bench)
    assert outcome.kept
    assert calls == [1, 0]  # the copy was there, and was given up
    assert any("copy of the folder was not made" in remark for remark in outcome.remarks)
    assert times_there(root) == 1
