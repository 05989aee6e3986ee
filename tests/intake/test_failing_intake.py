"""A disk that fails, or a power button pressed, at every call of an intake.

The originals stay, no half file is ever there under a name, and whoever takes the same files in
again has each of them once.
"""

from __future__ import annotations

import errno
import os
import shutil
from collections.abc import Iterator
from datetime import datetime
from functools import partial
from hashlib import sha256
from pathlib import Path
from types import SimpleNamespace

import pytest

from crewboard.folder.disk.part import is_part
from crewboard.folder.disk.shared import take_from_folder
from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import TookIn
from crewboard.workbench import Workbench
from crewboard.workbench.taking_in import TakenIn, take_in
from tests.folder.a_vehicle import make
from tests.folder.disk.failing_disk import Disk, dies, failing, in_a_child, raises
from tests.folder.disk.somebody import EVE, needs_root, shared_place
from tests.intake.a_camera import MP4, jpeg, plain, png, put
from tests.long_form import LONG

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork")

NOW = datetime(2026, 5, 2, 16)
STEP = 1 if LONG else 37


@pytest.fixture
def phone(tmp_path: Path) -> Path:
    folder = tmp_path / "phone"
    put(folder, "IMG_1.jpg", jpeg("2026:05:01 09:00:00") + b"." * 9000)
    put(folder, "IMG_2.png", png("2026:05:01 09:01:00"))
    put(folder, "walk.mp4", MP4 * 100, NOW)
    return folder


def take(root: Path, phone: Path) -> TakenIn:
    return take_by(Workbench(root), phone)


def take_by(bench: Workbench, phone: Path) -> TakenIn:
    return take_in(bench, [str(phone)], by="ada", at=NOW, now=NOW)


def files_of(root: Path) -> Iterator[Path]:
    for top in ("pictures", "recordings"):
        yield from (path for path in (root / top).rglob("*") if path.is_file())


def hashes(paths: Iterator[Path]) -> list[str]:
    return sorted(sha256(p.read_bytes()).hexdigest() for p in paths if not is_part(p.name))


def looked_over(root: Path, originals: list[str]) -> list[TookIn]:
    """The entries that are read; every file in its place is one of the originals, whole and once,
    and every entry has its file."""
    folder = Folder(root)
    assert folder.faults == []
    acts = [e.act for e in folder.logbook.record() if isinstance(e.act, TookIn)]
    there = hashes(files_of(root))
    assert set(there) <= set(originals)
    assert len(set(there)) == len(there)
    for act in acts:
        assert sha256((root / act.file).read_bytes()).hexdigest() == act.hash
    return acts


def test_killed_at_any_call_nothing_is_half_there_and_the_next_intake_ends_it(
    tmp_path: Path, phone: Path
) -> None:
    originals = hashes(phone.iterdir())
    take(make(tmp_path / "warm"), phone)  # imports what it imports
    at, lived = 0, False
    while not lived:
        at += STEP
        root = make(tmp_path / "van")

        def child(at: int = at, root: Path = root) -> None:
            with failing(Disk(at, dies)) as disk:
                take(root, phone)
                disk.at = 0

        lived = in_a_child(child)
        assert len(looked_over(root, originals)) in (0, 3), at
        assert hashes(phone.iterdir()) == originals
        take(root, phone)
        assert len(looked_over(root, originals)) == 3
        assert hashes(files_of(root)) == originals, at
        assert not [path for path in files_of(root) if is_part(path.name)], at
        shutil.rmtree(root)
    assert at > 100


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EIO, errno.EACCES])
def test_a_disk_that_fails_at_any_call_costs_a_sentence_and_the_others_go_on(
    tmp_path: Path, phone: Path, number: int
) -> None:
    originals = hashes(phone.iterdir())
    take(make(tmp_path / "warm"), phone)
    at, hindered = number % STEP, 0
    while True:
        at += STEP
        root = make(tmp_path / "van")
        bench = Workbench(root)
        with failing(Disk(at, raises(number))) as disk:
            taken = take_by(bench, phone)
        kept = looked_over(root, originals)
        assert len(kept) == len(taken.outcome.entries)
        sentences = [one.why for one in taken.passed_over] + list(map(str, taken.outcome.refused))
        assert len(kept) == 3 or sentences, disk.calls[at - 5 : at]
        assert not any("\n" in sentence for sentence in sentences)
        hindered += len(kept) < 3
        take(root, phone)
        assert len(looked_over(root, originals)) == 3
        assert hashes(files_of(root)) == originals
        shutil.rmtree(root)
        if len(disk.calls) < at:
            break
    assert hindered


def test_a_full_disk_leaves_room_for_the_entries(
    tmp_path: Path, phone: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    root = make(tmp_path / "van")
    real = os.statvfs

    def nearly_full(path: str) -> object:
        here = real(path)
        left = 1_000_000 + 5000
        return SimpleNamespace(f_bavail=left, f_frsize=1, f_bsize=here.f_bsize)

    monkeypatch.setattr(os, "statvfs", nearly_full)
    taken = take(root, phone)
    acts = [e.act for e in taken.outcome.entries if isinstance(e.act, TookIn)]
    assert [Path(plain(act.file)).name for act in acts] == [
        "IMG_2.png",
    ]
    full = "the disk is full; make room on the drive, then try again"
    assert [(Path(one.path).name, one.why) for one in taken.passed_over] == [
        ("IMG_1.jpg", full),
        ("walk.mp4", full),
    ]


def test_a_file_that_changes_while_it_is_copied_is_not_taken_in(
    tmp_path: Path, phone: Path, monkeypatch: pytest.MonkeyPatch
) -> None:

    def and_somebody_saves(descriptor: int, folder: str) -> None:
        (phone / "IMG_2.png").write_bytes(png("2026:05:01 09:01:00", colour=(1, 2, 3)))
        take_from_folder(descriptor, folder)

    copying = "crewboard.folder.intake.copied.take_from_folder"
    monkeypatch.setattr(copying, and_somebody_saves)
    root = make(tmp_path / "van")
    taken = take(root, phone)
    (passed,) = taken.passed_over
    assert (Path(passed.path).name, passed.why) == (
        "IMG_2.png",
        "it is being changed by another program; try again",
    )
    assert len(looked_over(root, hashes(phone.iterdir()))) == 2


def test_where_pictures_is_a_link_that_leads_out_nothing_is_written_there(
    tmp_path: Path, phone: Path
) -> None:
    root = make(tmp_path / "van")
    outside = tmp_path / "outside"
    outside.mkdir()
    (root / "pictures").symlink_to(outside)
    taken = take(root, phone)
    assert [one.why.partition(";")[0] for one in taken.passed_over] == [
        "the path leads out of the folder"
    ] * 2
    assert not list(outside.iterdir())
    assert len(taken.outcome.entries) == 1, "the film has a folder of its own"


@needs_root
def test_a_folder_that_cannot_be_written_is_a_sentence_a_file_and_leaves_nothing() -> None:
    """A person who is not root, in a folder whose pictures they may not write, then in one whose
    logbook they may not."""
    with shared_place() as place:
        put(place / "phone", "IMG_1.jpg", jpeg("2026:05:01 09:00:00"))
        put(place / "phone", "walk.mp4", MP4, NOW)
        for locked, expected in (("pictures", 1), ("days", 0)):
            root = make(place / locked)
            take(make(place / f"warm-{locked}"), place / "phone")
            (root / "pictures").mkdir()
            for path in (root, *root.rglob("*")):
                os.chown(path, EVE.user, EVE.group)
            paths = [root / locked, *(root / locked).rglob("*")]
            for path in filter(Path.is_dir, paths):
                path.chmod(0o555)
            EVE.does(partial(one_sentence_each, root, expected))


def one_sentence_each(root: Path, expected: int) -> None:
    taken = take(root, root.parent / "phone")
    assert len(taken.outcome.entries) == expected
    assert len(list(files_of(root))) == expected
    told = [one.why for one in taken.passed_over] + list(map(str, taken.outcome.refused))
    assert len(told) == 1
    assert "may not write" in told[0] or "belongs to" in told[0], told
