"""Daily copies: made whole, kept for some days, shown before they are restored."""

from __future__ import annotations

import datetime as dt
import errno
import os
import zipfile
from pathlib import Path

import pytest

from crewboard.folder.cannot import NotKept
from crewboard.folder.disk.archive import COPIES, copies_of, daily_copy, make_copy
from crewboard.folder.disk.restore import Difference, compare, restore
from crewboard.folder.disk.unpack import LIST, files_in
from crewboard.folder.toml.text import MOST_BYTES
from tests.folder.disk.failing_disk import Disk, dies, failing, in_a_child, raises

TODAY = dt.date(2026, 5, 2)
EVENING = dt.datetime(2026, 5, 2, 18, 30, 5)


@pytest.fixture
def root(tmp_path: Path) -> Path:
    folder = tmp_path / "vehicle"
    (folder / "days" / "2026").mkdir(parents=True)
    (folder / "vehicle.toml").write_bytes(b"name = 'cab'\n")
    (folder / "days" / "2026" / "2026-05-02.toml").write_bytes(b"[entries]\n")
    (folder / ".gitattributes").write_bytes(b"days/**/*.toml merge=union\n")
    return folder


def texts(root: Path) -> dict[str, bytes]:
    return {
        str(path.relative_to(root)): path.read_bytes()
        for path in root.rglob("*")
        if path.is_file() and ".crewboard" not in path.parts
    }


def test_one_copy_is_made_a_day_and_old_ones_go_after_the_days_set(root: Path) -> None:
    for number in range(10):
        assert daily_copy(root, TODAY + dt.timedelta(number), keep_days=3) is not None
        assert daily_copy(root, TODAY + dt.timedelta(number), keep_days=3) is None
    kept = [copy.at.date() - TODAY for copy in copies_of(root)]
    assert kept == [dt.timedelta(days) for days in (6, 7, 8, 9)]


def test_a_copy_holds_the_folder_and_neither_copies_nor_gits_own_files_nor_links(
    root: Path, tmp_path: Path
) -> None:
    (tmp_path / "secret").write_bytes(b"x")
    (root / "link.toml").symlink_to(tmp_path / "secret")
    (root / "outside").symlink_to(tmp_path)
    (root / ".git").mkdir()
    (root / ".git" / "HEAD").write_bytes(b"x")
    (root / ".crewboard.lock").write_bytes(b"")
    make_copy(root, TODAY)
    made = make_copy(root, TODAY)
    assert set(made.skipped) == {"link.toml", "outside"}
    with zipfile.ZipFile(made.copy.path) as archive:
        assert sorted(archive.namelist()) == [
            LIST,
            ".gitattributes",
            "days/2026/2026-05-02.toml",
            "vehicle.toml",
        ]


def test_a_restore_shows_what_it_would_change_and_then_changes_just_that(root: Path) -> None:
    before = texts(root)
    made = make_copy(root, TODAY)
    (root / "vehicle.toml").write_bytes(b"name = 'spoilt'\n")
    (root / "days" / "2026" / "2026-05-02.toml").unlink()
    (root / "later.toml").write_bytes(b"x = 1\n")
    assert compare(made.copy.path, root) == Difference(
        ("vehicle.toml",), ("days/2026/2026-05-02.toml",), ("later.toml",)
    )
    restore(made.copy.path, root, EVENING)
    assert texts(root) == {**before, "later.toml": b"x = 1\n"}
    restore(made.copy.path, root, EVENING, exact=True)
    assert texts(root) == before


def test_a_restore_can_itself_be_taken_back(root: Path) -> None:
    made = make_copy(root, TODAY)
    (root / "vehicle.toml").write_bytes(b"name = 'better'\n")
    (root / "later.toml").write_bytes(b"x = 1\n")
    better = texts(root)
    of_now = restore(made.copy.path, root, EVENING, exact=True)
    assert texts(root) != better
    restore(of_now.copy.path, root, EVENING)
    assert texts(root) == better
    assert len(copies_of(root)) == 3  # the second copy of the same second has a second of its own


@pytest.mark.parametrize(
    "name",
    ["../out.toml", "/etc/x", "a/../../out.toml", "a\\..\\out.toml", "C:/x", ".crewboard.lock"],
)
def test_an_archive_that_reaches_out_of_the_folder_is_refused_whole(root: Path, name: str) -> None:
    archive = root.parent / "bad.zip"
    with zipfile.ZipFile(archive, "w") as file:
        file.writestr("vehicle.toml", b"changed")
        file.writestr(name, b"x")
    before = texts(root)
    with pytest.raises(NotKept, match="no daily copy holds"):
        restore(archive, root, EVENING)
    assert texts(root) == before
    assert not (root.parent / "out.toml").exists()


def test_a_restore_goes_through_no_link_out_of_the_folder(root: Path) -> None:
    made = make_copy(root, TODAY)
    outside = root.parent / "outside"
    outside.mkdir()
    (root / "days" / "2026" / "2026-05-02.toml").unlink()
    (root / "days" / "2026").rmdir()
    (root / "days" / "2026").symlink_to(outside)
    with pytest.raises(NotKept, match="leads out"):
        restore(made.copy.path, root, EVENING)
    assert list(outside.iterdir()) == []


def test_a_damaged_archive_or_one_that_swells_is_refused(root: Path) -> None:
    made = make_copy(root, TODAY)
    data = bytearray(Path(made.copy.path).read_bytes())
    for at in range(0, len(data), 7):
        broken = root.parent / "broken.zip"
        broken.write_bytes(data[:at] + bytes([data[at] ^ 0xFF]) + data[at + 1 :])
        before = texts(root)
        try:
            compare(broken, root)
        except NotKept as told:
            assert told.hint  # noqa: PT017
        assert texts(root) == before
    bomb = root.parent / "bomb.zip"
    with zipfile.ZipFile(bomb, "w", zipfile.ZIP_DEFLATED) as file:
        file.writestr("x.toml", b"\0" * (MOST_BYTES + 1))
    with pytest.raises(NotKept, match="more than any daily copy holds"):
        compare(bomb, root)
    with pytest.raises(NotKept):
        compare(root.parent / "nothing.zip", root)


def test_names_that_not_every_system_can_hold_are_left_out_and_named(root: Path) -> None:
    odd = os.fsdecode(b"odd-\xff.toml")
    (root / odd).write_bytes(b"x")
    (root / "back\\slash.toml").write_bytes(b"x")
    made = make_copy(root, TODAY)
    assert set(made.skipped) == {odd, "back\\slash.toml"}
    assert compare(made.copy.path, root).missing == ()


def test_killed_or_failing_at_any_call_no_half_archive_bears_a_days_name(root: Path) -> None:
    whole = make_copy(root, TODAY).copy.path
    size = len(Path(whole).read_bytes())
    os.unlink(whole)
    at, lived = 0, False
    while not lived:
        at += 1

        def child(at: int = at) -> None:
            with failing(Disk(at, dies)):
                make_copy(root, TODAY)

        lived = in_a_child(child)
        for copy in copies_of(root):
            assert len(Path(copy.path).read_bytes()) == size
            os.unlink(copy.path)
    everything = set(texts(root))
    for failed in range(1, at):
        named = set[str]()
        with failing(Disk(failed, raises(errno.ENOSPC))):
            try:
                named |= make_copy(root, TODAY).skipped.keys()
            except NotKept as told:
                assert told.sentence  # noqa: PT017
        for copy in copies_of(root):  # whole, or without a file that could not be read and is named
            inside = files_in(copy.path)
            assert {f for f in everything - inside if not f.startswith(tuple(named))} == set()
            os.unlink(copy.path)


def test_copies_are_put_through_no_link_out_of_the_folder(root: Path) -> None:
    outside = root.parent / "outside"
    outside.mkdir()
    (root / ".crewboard").symlink_to(outside)
    with pytest.raises(NotKept, match="leads out"):
        make_copy(root, TODAY)
    assert list(outside.iterdir()) == []
    assert COPIES.startswith(".crewboard")
