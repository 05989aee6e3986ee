"""What a copy takes in and what it lists, the room it leaves, and how long it is kept."""

from __future__ import annotations

import datetime as dt
import hashlib
import os
import socket
from pathlib import Path

import pytest

from crewboard.folder.cannot import NotKept
from crewboard.folder.disk import archive, packing
from crewboard.folder.disk.archive import copies_of, daily_copy, make_copy
from crewboard.folder.disk.restore import compare, restore
from crewboard.folder.disk.unpack import files_in, kept_in
from crewboard.folder.toml.text import MOST_BYTES
from tests.folder.disk.somebody import EVE, shared_place

TODAY = dt.date(2026, 5, 2)
EVENING = dt.datetime(2026, 5, 2, 18)


@pytest.fixture
def root(tmp_path: Path) -> Path:
    folder = tmp_path / "van"
    (folder / "components").mkdir(parents=True)
    (folder / "vehicle.toml").write_bytes(b"name = 'van'\n")
    return folder


def put(root: Path, name: str, data: bytes = b"x = 1\n") -> Path:
    path = root / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data)
    return path


def test_text_is_packed_and_everything_else_is_listed_with_size_and_hash(root: Path) -> None:
    for name in ("notes.md", "notes/what.txt", "readings/2026-05.csv", ".gitignore"):
        put(root, name)
    data = os.urandom(5_000)
    listed = ("pictures/a.jpg", "pictures/b.png", "run.sh", "Makefile", "hooks/pre-commit")
    for name in listed:
        put(root, name, data)
    put(root, ".DS_Store")
    made = make_copy(root, TODAY)
    texts = {".gitignore", "notes.md", "notes/what.txt", "readings/2026-05.csv", "vehicle.toml"}
    assert made.files == files_in(made.copy.path) == texts
    assert os.path.getsize(made.copy.path) < 2_500  # whatever the pictures weigh
    kept = kept_in(made.copy.path)
    assert kept.listed.keys() == set(listed)
    assert {file.sha256 for file in kept.listed.values()} == {hashlib.sha256(data).hexdigest()}
    assert {file.bytes for file in kept.listed.values()} == {5_000}


def test_no_toml_that_the_tool_reads_is_left_out_however_it_is_called_or_large(root: Path) -> None:
    put(root, "components/big.toml", b"# " + b"x" * (MOST_BYTES - 3) + b"\n")
    names = ["components/aux.toml", "components/türen.toml", "components/Con.toml"]
    names += ["days/2026/2026-05-02 (of tom).toml", "days/2026/2026-05-02.toml.conflict-3"]
    for name in names:
        put(root, name)
    put(root, "lists/crew.toml")
    (root / "crew.toml").symlink_to("lists/crew.toml")
    before = {path: path.read_bytes() for path in root.rglob("*") if path.is_file()}
    made = make_copy(root, TODAY)
    assert made.files >= {*names, "components/big.toml", "crew.toml", "lists/crew.toml"}
    assert made.skipped == {}
    for path in before:
        path.write_bytes(b"spoilt = 1\n")
    restore(made.copy.path, root, EVENING)
    assert {path: path.read_bytes() for path in before} == before
    assert (root / "crew.toml").is_symlink()


def test_what_cannot_be_read_is_passed_over_and_named_with_the_reason(
    root: Path, tmp_path: Path
) -> None:
    put(tmp_path, "secret.toml")
    (root / "out.toml").symlink_to(tmp_path / "secret.toml")
    (root / "gone.toml").symlink_to("nowhere")
    put(root, "huge.toml", b"#" * (MOST_BYTES + 1))
    put(root, "binary.txt", b"\0\1\2")
    os.mkfifo(root / "pipe.toml")
    with socket.socket(socket.AF_UNIX) as door:
        here = os.getcwd()
        os.chdir(root)
        try:
            door.bind("door.toml")
        finally:
            os.chdir(here)
        made = make_copy(root, TODAY)
    assert made.files == {"vehicle.toml"}
    assert dict(made.skipped) == {
        "out.toml": "it is a link that leads out of the folder",
        "gone.toml": "a link that leads nowhere",
        "huge.toml": "larger than the 8 MB that are read",
        "binary.txt": "no text, whatever its name says",
        "pipe.toml": "not an ordinary file",
        "door.toml": "not an ordinary file",
    }
    assert kept_in(made.copy.path).skipped == made.skipped
    assert compare(made.copy.path, root).newer == ()  # an exact restore does not take them away


def test_a_file_and_a_folder_that_may_not_be_read_are_named() -> None:
    """As root, whom no right stops, by somebody else."""

    def copies(place: Path) -> None:
        made = make_copy(place, TODAY)
        reason = "Permission denied"
        assert dict(made.skipped) == {"crew.toml": reason, "days/": reason}
        assert made.files == {"vehicle.toml"}

    with shared_place(0o777, os.getegid()) as place:
        make_copy(put(place, "vehicle.toml").parent, EVENING)  # imports what a copy needs
        (place / ".crewboard/copies").chmod(0o777)
        put(place, "crew.toml").chmod(0)
        put(place, "days/2026/a.toml")
        (place / "days").chmod(0)
        if os.geteuid() == 0:
            assert EVE.does(lambda: copies(place))
        else:
            copies(place)
        (place / "days").chmod(0o700)


def test_pictures_that_did_not_change_are_not_read_again(
    root: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    put(root, "pictures/a.jpg", b"a" * 100)
    put(root, "pictures/b.jpg", b"b" * 300)
    hashes = list[str]()
    really = packing._hash

    def counted(path: str) -> str:
        hashes.append(os.path.basename(path))
        return really(path)

    monkeypatch.setattr(packing, "_hash", counted)
    monkeypatch.setattr(packing, "MOST_HASHED", 350)
    for number in range(3):
        daily_copy(root, TODAY + dt.timedelta(number), keep_days=30)
    assert hashes == ["a.jpg", "b.jpg"]  # the second had its turn on the second day
    listed = kept_in(copies_of(root)[-1].path).listed
    assert [file.sha256 != "" for file in listed.values()] == [True, True]
    put(root, "pictures/a.jpg", b"c" * 100)
    os.utime(root / "pictures/a.jpg", ns=(1, 1))
    daily_copy(root, TODAY + dt.timedelta(5), keep_days=30)
    assert hashes[2:] == ["a.jpg"]


def test_a_picture_that_is_gone_is_told_since_a_copy_cannot_bring_it_back(root: Path) -> None:
    put(root, "pictures/a.jpg", b"a" * 100)
    made = make_copy(root, TODAY)
    assert compare(made.copy.path, root).lost == ()
    (root / "pictures/a.jpg").unlink()
    assert compare(made.copy.path, root).lost == ("pictures/a.jpg",)


class Drive:
    """A drive with so many bytes free."""

    f_frsize = 1

    def __init__(self, free: int) -> None:
        self.f_bavail = free


def test_a_copy_is_given_up_where_it_would_take_the_room_that_entries_need(
    root: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "statvfs", lambda _: Drive(archive.ROOM))
    with pytest.raises(NotKept, match="nearly full"):
        make_copy(root, TODAY)
    assert copies_of(root) == []
    monkeypatch.setattr(os, "statvfs", lambda _: Drive(archive.ROOM + 1_000))
    assert make_copy(root, TODAY).files == {"vehicle.toml"}


def days_kept(root: Path) -> list[dt.date]:
    return [copy.at.date() for copy in copies_of(root)]


@pytest.fixture
def a_month(root: Path) -> list[dt.date]:
    days = [TODAY + dt.timedelta(number) for number in range(5)]
    for day in days:
        daily_copy(root, day, keep_days=5)
    return days


def test_a_clock_that_jumped_ahead_takes_no_copies_away(root: Path, a_month: list[dt.date]) -> None:
    wrong = dt.date(2031, 1, 1)
    daily_copy(root, wrong, keep_days=5)
    assert days_kept(root) == [*a_month[1:], wrong]  # one made, one gone
    right = TODAY + dt.timedelta(6)
    daily_copy(root, right, keep_days=5)
    assert days_kept(root) == [*a_month[1:], right, wrong]
    for number in range(7, 20):
        daily_copy(root, TODAY + dt.timedelta(number), keep_days=5)
    assert len(days_kept(root)) == 7  # what is five days old or less, and the one from the future


def test_copies_of_a_crew_that_meets_twice_a_month_are_as_many(root: Path) -> None:
    days = [TODAY + dt.timedelta(14) * number for number in range(9)]
    for day in days:
        daily_copy(root, day, keep_days=5)
    assert days_kept(root) == days[-5:]


def test_a_file_that_is_called_like_a_copy_of_no_day_is_left_alone(root: Path) -> None:
    daily_copy(root, TODAY, keep_days=5)
    odd = put(root, ".crewboard/copies/2026-13-45.zip")
    assert days_kept(root) == [TODAY]
    assert odd.exists()
