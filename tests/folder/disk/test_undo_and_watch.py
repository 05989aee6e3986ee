"""Taking back, and seeing what others did meanwhile."""

from __future__ import annotations

import errno
import os
import time
from pathlib import Path

import pytest

from crewboard.folder.cannot import ChangedMeanwhile, NotKept
from crewboard.folder.disk.read import read_at_most, read_file
from crewboard.folder.disk.undo import FileChange, apply, changed_since, take_back
from crewboard.folder.disk.watch import Changes, changes, fingerprint
from tests.folder.disk.failing_disk import Disk, failing, raises


def step_in(root: Path) -> list[FileChange]:
    """One act that changed a file, made one, and took one away."""
    step = [
        FileChange(str(root / "a.toml"), b"a = 1\n", b"a = 2\n"),
        FileChange(str(root / "days/2026/new.toml"), None, b"n = 1\n"),
        FileChange(str(root / "old.toml"), b"o = 1\n", None),
    ]
    for change in step:
        if change.before is not None:
            Path(change.path).write_bytes(change.before)
    for change in step:
        apply(change, root=root)
    return step


def files(root: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in root.rglob("*") if path.is_file()}


def test_a_step_is_taken_back_whole(tmp_path: Path) -> None:
    step = step_in(tmp_path)
    assert files(tmp_path) == {"a.toml": b"a = 2\n", "new.toml": b"n = 1\n"}
    assert changed_since(step, root=tmp_path) == ()
    assert take_back(step, root=tmp_path) == ()
    assert files(tmp_path) == {"a.toml": b"a = 1\n", "old.toml": b"o = 1\n"}


@pytest.mark.parametrize("name", ["a.toml", "days/2026/new.toml", "old.toml"])
def test_where_somebody_wrote_since_nothing_is_taken_back(tmp_path: Path, name: str) -> None:
    step = step_in(tmp_path)
    (tmp_path / name).write_bytes(b"somebody else's\n")
    before = files(tmp_path)
    assert take_back(step, root=tmp_path) == (str(tmp_path / name),)
    assert files(tmp_path) == before


def test_all_files_are_looked_at_before_the_first_is_touched(tmp_path: Path) -> None:
    step = step_in(tmp_path)
    (tmp_path / "a.toml").write_bytes(b"somebody else's\n")
    with failing(Disk()) as disk:
        assert take_back(step, root=tmp_path) == (str(tmp_path / "a.toml"),)
    assert not {"write", "replace", "link", "unlink"} & set(disk.calls)


def test_one_file_changed_twice_in_a_step_goes_back_to_its_first_state(tmp_path: Path) -> None:
    path = str(tmp_path / "a.toml")
    step = [FileChange(path, None, b"1"), FileChange(path, b"1", b"2")]
    for change in step:
        apply(change, root=tmp_path)
    assert take_back(step, root=tmp_path) == ()
    assert files(tmp_path) == {}


def test_a_disk_that_fails_half_way_leaves_the_step_done_or_taken_back(tmp_path: Path) -> None:
    at = 0
    while True:
        at += 1 if os.environ.get("CREWBOARD_LONG") else 3
        root = tmp_path / str(at)
        root.mkdir()
        with failing(Disk()):  # without waiting for a real disk
            step = step_in(root)
        done = files(root)
        disk = Disk(at, raises(errno.EIO))
        with failing(disk):
            told = took_back(step, root)
        now = {name: data for name, data in files(root).items() if not name.endswith(".part")}
        if told is None:
            assert now == {"a.toml": b"a = 1\n", "old.toml": b"o = 1\n"}
        else:
            assert now == done, (at, disk.calls[:at])
        if len(disk.calls) < at:
            return


def took_back(step: list[FileChange], root: Path) -> NotKept | None:
    try:
        assert take_back(step, root=root) == ()
    except NotKept as told:
        return told
    return None


def test_a_change_is_not_made_to_other_bytes(tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_bytes(b"other")
    with pytest.raises(ChangedMeanwhile):
        apply(FileChange(str(tmp_path / "a.toml"), b"a", None), root=tmp_path)


def test_what_came_changed_and_went_is_told_by_name(tmp_path: Path) -> None:
    days = tmp_path / "days" / "2026"
    days.mkdir(parents=True)
    for name in ("a", "b", "c"):
        (days / f"{name}.toml").write_bytes(b"x = 1\n")
    old = fingerprint(tmp_path)
    assert sorted(old) == ["days/2026/a.toml", "days/2026/b.toml", "days/2026/c.toml"]
    assert not changes(old, fingerprint(tmp_path))
    (days / "a.toml").write_bytes(b"x = 12\n")
    (days / "b.toml").unlink()
    (days / "d.toml").write_bytes(b"x = 1\n")
    (tmp_path / ".crewboard").mkdir()
    (tmp_path / ".crewboard" / "hidden.toml").write_bytes(b"x")
    (tmp_path / "notes.txt").write_bytes(b"x")
    found = changes(old, fingerprint(tmp_path))
    assert found == Changes(("days/2026/d.toml",), ("days/2026/a.toml",), ("days/2026/b.toml",))


def test_a_file_replaced_by_one_of_the_same_size_and_time_is_seen(tmp_path: Path) -> None:
    path, other = tmp_path / "a.toml", tmp_path / "a.new"
    path.write_bytes(b"x = 1\n")
    other.write_bytes(b"x = 2\n")
    old = fingerprint(tmp_path)
    seen = path.stat()
    os.utime(other, ns=(seen.st_atime_ns, seen.st_mtime_ns))
    os.replace(other, path)
    assert changes(old, fingerprint(tmp_path)).changed == ("a.toml",)


def test_a_drive_taken_away_is_seen_as_all_gone(tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_bytes(b"x")
    assert changes(fingerprint(tmp_path), fingerprint(tmp_path / "gone")).gone == ("a.toml",)


def test_two_hundred_files_are_looked_at_in_a_moment(tmp_path: Path) -> None:
    for number in range(200):
        (tmp_path / f"{number}.toml").write_bytes(b"x")
    seconds = list[float]()
    for _ in range(10):
        start = time.process_time()
        assert len(fingerprint(tmp_path)) == 200
        seconds.append(time.process_time() - start)
    assert min(seconds) < 0.01  # measured 0.5 ms; the bound leaves room for load


def test_a_pipe_a_folder_or_an_endless_device_is_not_read(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.toml")
    (tmp_path / "folder.toml").mkdir()
    (tmp_path / "endless.toml").symlink_to("/dev/zero")
    for name in ("pipe.toml", "folder.toml", "endless.toml"):
        with pytest.raises(OSError):
            read_file(tmp_path / name)
        with pytest.raises(OSError):
            read_at_most(tmp_path / name, tmp_path)
    assert read_file(tmp_path / "nothing.toml") is None


def test_a_huge_file_is_refused_before_any_of_it_is_read(tmp_path: Path) -> None:
    path = tmp_path / "huge.toml"
    with path.open("wb") as file:
        file.truncate(50_000_000_000)  # takes no room on the disk
    with pytest.raises(OSError, match="MB long, more than the 8 MB that are read"):
        read_at_most(path, tmp_path)


def test_a_link_is_read_inside_the_folder_and_refused_out_of_it(tmp_path: Path) -> None:
    root = tmp_path / "root"
    root.mkdir()
    (root / "a.toml").write_bytes(b"inside")
    (tmp_path / "secret").write_bytes(b"outside")
    (root / "in.toml").symlink_to("a.toml")
    (root / "out.toml").symlink_to(tmp_path / "secret")
    assert read_at_most(root / "in.toml", root) == b"inside"
    with pytest.raises(OSError, match="leads out of the folder"):
        read_at_most(root / "out.toml", root)
