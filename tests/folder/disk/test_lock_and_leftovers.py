"""One writer at a time, and what a writer that died has left is swept."""

from __future__ import annotations

import errno
import os
import threading
import time
from pathlib import Path

import pytest

from crewboard.folder.cannot import NotKept
from crewboard.folder.disk.lock import LOCK_NAME, folder_lock
from crewboard.folder.disk.part import OLDEST, clean_leftovers, name_for_part
from crewboard.folder.disk.write import replace_file
from tests.folder.disk.failing_disk import Disk, failing, in_a_child, raises
from tests.folder.disk.test_write import NEW, everything_below

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork")


@pytest.mark.parametrize("number", [errno.EROFS, errno.EACCES, errno.ENOSPC, errno.EIO])
def test_a_lock_that_cannot_be_had_ends_in_a_sentence(tmp_path: Path, number: int) -> None:
    disk = Disk(0)
    with failing(disk), folder_lock(tmp_path):
        pass
    (tmp_path / LOCK_NAME).unlink()
    first_open = disk.calls.index("open") + 1
    lock = folder_lock(tmp_path)
    with failing(Disk(first_open, raises(number))), pytest.raises(NotKept) as caught, lock:
        pytest.fail("there is no lock to hold")
    assert caught.value.hint


def test_one_waits_for_the_other_and_says_so_when_it_takes_too_long(tmp_path: Path) -> None:
    with folder_lock(tmp_path):

        def other() -> None:
            lock = folder_lock(tmp_path, patience=0.2)
            with pytest.raises(NotKept, match="another program"), lock:
                pass

        assert in_a_child(other)


def test_two_threads_of_one_program_keep_each_other_out_too(tmp_path: Path) -> None:
    inside = list[int]()
    most = list[int]()

    def work() -> None:
        for _ in range(20):
            with folder_lock(tmp_path):
                inside.append(1)
                most.append(len(inside))
                time.sleep(0.0005)
                inside.pop()

    threads = [threading.Thread(target=work) for _ in range(3)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(most) == 60
    assert max(most) == 1


def test_unfinished_files_are_swept_only_when_their_writer_is_gone(tmp_path: Path) -> None:
    mine = Path(name_for_part(str(tmp_path)))
    mine.write_bytes(b"x")
    process = mine.name.split("-")[2]
    dead = tmp_path / mine.name.replace(f"-{process}-", f"-{2**22 + 1}-")
    elsewhere = tmp_path / ".crewboard-00000000-1-00000000.part"
    old = tmp_path / "days" / ".crewboard-00000000-2-00000000.part"
    foreign = tmp_path / ".other-00000000-1-00000000.part"
    old.parent.mkdir()
    for path in (dead, elsewhere, old, foreign):
        path.write_bytes(b"x")
    now = elsewhere.stat().st_mtime
    os.utime(old, (now - OLDEST - 60, now - OLDEST - 60))
    assert set(clean_leftovers(tmp_path, now=now)) == {str(dead), str(old)}
    assert mine.exists()
    assert elsewhere.exists()
    assert foreign.exists()


def test_each_write_sweeps_what_a_dead_writer_left_beside_the_file(tmp_path: Path) -> None:
    (tmp_path / "days").mkdir()
    mine = Path(name_for_part(str(tmp_path)))
    dead = mine.name.replace(f"-{mine.name.split('-')[2]}-", f"-{2**22 + 1}-")
    for folder in (tmp_path, tmp_path / "days"):
        (folder / dead).write_bytes(b"x")
    replace_file(tmp_path / "days" / "a.toml", NEW, expected=None, root=tmp_path)
    assert everything_below(tmp_path) == {dead: b"x", "days/a.toml": NEW}


def test_a_part_that_is_a_link_out_of_the_folder_is_swept_without_following_it(
    tmp_path: Path,
) -> None:
    root, outside = tmp_path / "root", tmp_path / "outside"
    root.mkdir()
    outside.mkdir()
    part = ".crewboard-00000000-2-00000000.part"
    (outside / part).write_bytes(b"not ours")
    (root / "link").symlink_to(outside)
    assert clean_leftovers(root, now=4e9) == []
    assert (outside / part).exists()


def test_a_lock_that_is_another_name_of_a_file_leaves_that_file_as_it_is(tmp_path: Path) -> None:
    (tmp_path / "crew.toml").write_bytes(NEW)
    os.link(tmp_path / "crew.toml", tmp_path / LOCK_NAME)
    with folder_lock(tmp_path):
        pass
    assert (tmp_path / "crew.toml").read_bytes() == NEW
