"""Files are written whole or not at all, whatever the disk and the process do meanwhile."""

from __future__ import annotations

import errno
import os
import stat
from collections.abc import Callable
from pathlib import Path
from tempfile import mkdtemp

import pytest

from crewboard.folder.cannot import ChangedMeanwhile, NotKept
from crewboard.folder.disk.lock import LOCK_NAME, folder_lock
from crewboard.folder.disk.notkept import not_kept
from crewboard.folder.disk.part import clean_leftovers, is_part
from crewboard.folder.disk.write import remove_file, replace_file
from tests.folder.disk.failing_disk import Disk, dies, failing, in_a_child, raises

OLD, NEW = b"old\n" * 300, b"new and longer\n" * 400

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork")


def everything_below(root: Path) -> dict[str, bytes]:
    """All files but the lock's."""
    files = (path for path in root.rglob("*") if path.is_file() and path.name != LOCK_NAME)
    return {str(path.relative_to(root)): path.read_bytes() for path in files}


class Case:
    """One way to write: an old file replaced, a new one, a new one on a stick without links."""

    def __init__(self, root: Path, name: str) -> None:
        self.root = root
        self.old = OLD if name == "replaced" else None
        self.no_links = name == "new on a stick"
        self.path = root / ("vehicle.toml" if self.old else "days/2026/2026-05-02.toml")
        if self.old:
            self.path.write_bytes(self.old)

    def write(self) -> None:
        with folder_lock(self.root):
            replace_file(self.path, NEW, expected=self.old, root=self.root)

    def disk(self, at: int, happen: Callable[[str], None]) -> Disk:
        disk = Disk(at, happen)
        disk.no_links = self.no_links
        return disk

    def now(self) -> bytes | None:
        return self.path.read_bytes() if self.path.exists() else None


CASES = ["replaced", "new", "new on a stick"]


@pytest.mark.parametrize("name", CASES)
def test_killed_before_any_call_the_file_is_the_old_one_or_the_new_one(
    tmp_path: Path, name: str
) -> None:
    # Before one call is after the one before it; of a write the first half is done.
    import filelock  # noqa: F401  # so that no child's calls go into importing it

    at = lived = 0
    while not lived:
        at += 1
        root = tmp_path / str(at)
        root.mkdir()
        case = Case(root, name)
        acknowledged = root.parent / f"{at} done"

        def child(case: Case = case, at: int = at, done: Path = acknowledged) -> None:
            with failing(case.disk(at, dies)) as disk:
                case.write()
                disk.at = 0
            done.touch()

        lived = in_a_child(child)
        assert case.now() in (case.old, NEW), at
        if acknowledged.exists():
            assert case.now() == NEW
        leftovers = [path for path in root.rglob("*") if is_part(path.name)]
        assert len(leftovers) <= 1
        assert len(clean_leftovers(root)) == len(leftovers)  # its writer is dead
        assert not [path for path in root.rglob("*") if is_part(path.name)]
        # and the lock died with its owner
        with failing(Disk()), folder_lock(root, patience=5):
            now = case.now()
            replace_file(case.path, b"again", expected=now, root=root)
        assert case.now() == b"again"
    assert at > 15


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EIO, errno.EROFS, errno.EACCES])
@pytest.mark.parametrize("name", CASES)
def test_a_disk_that_fails_at_any_call_ends_in_a_sentence_and_keeps_the_old_file(
    tmp_path: Path, name: str, number: int
) -> None:
    at = 0
    refused = doubtful = 0
    while True:
        at += 1
        root = tmp_path / str(at)
        root.mkdir()
        case = Case(root, name)
        open_files = len(os.listdir("/proc/self/fd")) if os.path.isdir("/proc/self/fd") else 0
        with failing(case.disk(at, raises(number))) as disk:
            told = what_is_told(case)
        if told is None:
            assert case.now() == NEW
        else:
            refused += 1
            doubtful += told.doubtful
            assert told.sentence
            assert told.hint
            assert "\n" not in told.sentence + told.hint
            assert case.now() == (NEW if told.doubtful else case.old), disk.calls
        if open_files:
            # a close that fails has closed all the same, but the shim failed before closing
            spared = disk.calls[at - 1 : at] == ["close"]
            assert len(os.listdir("/proc/self/fd")) <= open_files + spared
        parts = [path for path in everything_below(root) if is_part(Path(path).name)]
        assert not parts or disk.calls[at - 1 : at] == ["unlink"], disk.calls
        if len(disk.calls) < at:
            break
    assert refused >= 6
    assert doubtful <= 3


def what_is_told(case: Case) -> NotKept | None:
    try:
        replace_file(case.path, NEW, expected=case.old, root=case.root)
    except NotKept as told:
        return told
    return None


def test_the_bytes_are_on_the_disk_before_their_name_and_the_name_before_the_answer(
    tmp_path: Path,
) -> None:
    for name in CASES:
        root = tmp_path / name
        root.mkdir()
        case = Case(root, name)
        with failing(case.disk(0, dies)) as disk:
            replace_file(case.path, NEW, expected=case.old, root=root)
        calls = [call for call in disk.calls if call in ("write", "fsync", "link", "replace")]
        placed = "link" if name == "new" else "replace"
        written = calls[calls.index("write") :]
        assert written == ["write", "fsync", placed, "fsync"]


def test_mode_and_links_are_kept(tmp_path: Path) -> None:
    real, link = tmp_path / "real.toml", tmp_path / "vehicle.toml"
    real.write_bytes(OLD)
    real.chmod(0o640)
    link.symlink_to("real.toml")
    replace_file(link, NEW, expected=OLD, root=tmp_path)
    assert link.is_symlink()
    assert real.read_bytes() == NEW
    assert stat.S_IMODE(real.stat().st_mode) == 0o640


@pytest.mark.parametrize("way", ["../outside.toml", "link.toml", "folder/x.toml", "/etc/x", "a\0b"])
def test_nothing_is_written_outside_the_folder(tmp_path: Path, way: str) -> None:
    root, outside = tmp_path / "root", tmp_path / "outside.toml"
    root.mkdir()
    (root / "link.toml").symlink_to(outside)
    (root / "folder").symlink_to(tmp_path)
    with pytest.raises(NotKept, match="leads out of the folder"):
        replace_file(os.path.join(root, way), NEW, expected=None, root=root)
    assert not outside.exists()
    assert not (tmp_path / "x.toml").exists()


def test_links_that_lead_in_a_circle_end_in_a_sentence(tmp_path: Path) -> None:
    (tmp_path / "a").symlink_to("b")
    (tmp_path / "b").symlink_to("a")
    with pytest.raises(NotKept):
        replace_file(tmp_path / "a", NEW, expected=None, root=tmp_path)


def test_what_an_editor_saved_meanwhile_is_not_written_over(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    path.write_bytes(b"from the editor")
    with pytest.raises(ChangedMeanwhile) as caught:
        replace_file(path, NEW, expected=OLD, root=tmp_path)
    assert caught.value.found == b"from the editor"
    with pytest.raises(ChangedMeanwhile):
        replace_file(path, NEW, expected=None, root=tmp_path)
    with pytest.raises(ChangedMeanwhile):
        remove_file(path, expected=OLD, root=tmp_path)
    with pytest.raises(ChangedMeanwhile) as caught:
        replace_file(tmp_path / "gone.toml", NEW, expected=OLD, root=tmp_path)
    assert caught.value.found is None
    assert everything_below(tmp_path) == {"a.toml": b"from the editor"}


def test_of_two_who_make_the_same_new_file_the_second_is_told(tmp_path: Path) -> None:
    # The other one comes between the look and the placing, as one without our lock may.
    path = tmp_path / "a.toml"

    def other(_: str) -> None:
        path.write_bytes(b"the other's")

    for late in (False, True):
        path.unlink(missing_ok=True)
        disk = Disk(0, other)
        disk.late = late
        with failing(Disk()) as counted:
            replace_file(path, NEW, expected=None, root=tmp_path)
        disk.at = counted.calls.index("fsync") + 1
        path.unlink()
        with failing(disk), pytest.raises(ChangedMeanwhile):
            replace_file(path, NEW, expected=None, root=tmp_path)
        assert everything_below(tmp_path) == {"a.toml": b"the other's"}


def test_what_an_editor_saves_while_the_disk_takes_our_bytes_is_not_written_over(
    tmp_path: Path,
) -> None:
    path = tmp_path / "a.toml"
    for name in ("write", "fsync", "close"):
        path.write_bytes(OLD)
        with failing(Disk()) as counted:
            replace_file(path, OLD, expected=OLD, root=tmp_path)
        at = counted.calls.index(name, counted.calls.index("write")) + 1
        with failing(Disk(at, lambda _: editor_saves(path))), pytest.raises(ChangedMeanwhile):
            replace_file(path, NEW, expected=OLD, root=tmp_path)
        assert everything_below(tmp_path) == {"a.toml": b"from the editor"}


def editor_saves(path: Path) -> None:
    other = path.with_suffix(".swp")
    other.write_bytes(b"from the editor")
    other.rename(path)


def test_a_folder_that_vanished_is_told_and_not_made_again(tmp_path: Path) -> None:
    root = tmp_path / "stick"
    with pytest.raises(NotKept, match="the folder is gone"):
        replace_file(root / "a.toml", NEW, expected=None, root=root)
    with pytest.raises(NotKept, match="the folder is gone"), folder_lock(root):
        pass
    assert not root.exists()


def test_a_read_only_folder_and_a_read_only_file_end_in_a_sentence() -> None:
    root = Path(mkdtemp())
    path = root / "a.toml"
    path.write_bytes(OLD)

    def as_a_volunteer() -> None:
        if os.geteuid() == 0:  # whom no permission stops
            os.setuid(65534)
        with pytest.raises(NotKept, match="may not write"):
            replace_file(path, NEW, expected=OLD, root=root)
        lock = folder_lock(root)
        with pytest.raises(NotKept, match="may not write"), lock:
            pass

    import filelock  # noqa: F401  # the child may not read where it is installed

    path.chmod(0o444)
    root.chmod(0o555)
    try:
        assert in_a_child(as_a_volunteer)
        path.chmod(0o666)
        assert in_a_child(as_a_volunteer)
        assert path.read_bytes() == OLD
    finally:
        root.chmod(0o755)
        path.unlink()
        root.rmdir()


@pytest.mark.parametrize(
    ("number", "sentence", "hint"),
    [
        (errno.ENOSPC, "the disk is full", "Make room"),
        (errno.EROFS, "the drive is read-only", "write-protect"),
        (errno.EACCES, "you may not write here", "Ask"),
        (errno.EIO, "the drive reports a fault", "another drive"),
        (errno.ENOENT, "the folder is gone", "Plug the drive in"),
        (errno.ENOLCK, "cannot lock files", "can lock"),
        (errno.EXDEV, "it cannot be written", "Try again"),
    ],
)
def test_each_trouble_of_a_disk_has_its_own_sentence(number: int, sentence: str, hint: str) -> None:
    told = not_kept("a.toml", OSError(number, os.strerror(number)))
    assert sentence in told.sentence
    assert hint in told.hint
    assert str(told) == f"a.toml: {told.sentence}"


@pytest.mark.skipif(not hasattr(os, "fchown") or os.geteuid() != 0, reason="needs to be root")
def test_a_file_of_a_shared_folder_keeps_its_group(tmp_path: Path) -> None:
    """The crew's group may write it: also after somebody of another group did."""
    path = tmp_path / "crew.toml"
    path.write_bytes(OLD)
    os.chown(path, -1, 4321)
    path.chmod(0o664)
    with folder_lock(tmp_path):
        replace_file(path, NEW, expected=OLD, root=tmp_path)
    assert path.stat().st_gid == 4321
    assert stat.S_IMODE(path.stat().st_mode) == 0o664


def test_the_new_file_is_given_the_group_of_the_old_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whoever runs the tests: the system is only asked, not made to."""
    path = tmp_path / "crew.toml"
    path.write_bytes(OLD)
    groups, real = list[int](), os.stat

    def of_another_group(target: str, **options: bool) -> os.stat_result:
        found = real(target, **options)
        if target != str(path):
            return found
        return os.stat_result((*found[:5], found.st_gid + 1, *found[6:10]))

    monkeypatch.setattr(os, "stat", of_another_group)
    monkeypatch.setattr(os, "fchown", lambda _file, _user, group: groups.append(group))
    with folder_lock(tmp_path):
        replace_file(path, NEW, expected=OLD, root=tmp_path)
    monkeypatch.undo()
    assert groups == [path.stat().st_gid + 1]
