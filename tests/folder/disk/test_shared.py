"""What is new takes group and rights from its folder; what is replaced keeps those it had."""

from __future__ import annotations

import os
import struct
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from crewboard.folder.cannot import NotKept
from crewboard.folder.disk.lock import LOCK_NAME, folder_lock
from crewboard.folder.disk.write import replace_file
from tests.folder.disk.somebody import ADA, CREW, EVE, TOM, needs_root, rights, shared_place

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork")

OLD, NEW = b"old = 1\n", b"new = 1\n"


@contextmanager
def umask(mask: int) -> Iterator[None]:
    before = os.umask(mask)
    try:
        yield
    finally:
        os.umask(before)


def write(path: Path, data: bytes = NEW, expected: bytes | None = None, **options: bool) -> None:
    root = next(p for p in path.parents if (p / "vehicle.toml").exists())
    with folder_lock(root):
        replace_file(path, data, expected=expected, root=root, **options)


@pytest.fixture
def root(tmp_path: Path) -> Path:
    folder = tmp_path / "van"
    folder.mkdir()
    (folder / "vehicle.toml").write_bytes(OLD)
    return folder


@pytest.mark.parametrize("mask", [0, 0o022, 0o077])
@pytest.mark.parametrize(
    ("of_folder", "of_file"),
    [(0o2775, 0o664), (0o2770, 0o660), (0o775, 0o664), (0o755, 0o644), (0o700, 0o600)],
)
def test_new_files_and_folders_have_the_rights_of_the_folder_they_are_made_in(
    root: Path, mask: int, of_folder: int, of_file: int
) -> None:
    root.chmod(of_folder)
    with umask(mask):
        write(root / "days" / "2026" / "2026-05-02.toml")
    made = [root / "days", root / "days/2026", root / "days/2026/2026-05-02.toml", root / LOCK_NAME]
    modes = [rights(path)[1] for path in made]
    assert modes == [of_folder, of_folder, of_file, of_file]


def test_a_place_where_all_may_make_files_gives_no_rights_away(root: Path) -> None:
    root.chmod(0o1777)
    with umask(0o077):
        write(root / "crew.toml")
    assert rights(root / "crew.toml")[1] == 0o600


@pytest.mark.parametrize("mask", [0, 0o077])
def test_a_file_that_is_replaced_keeps_its_rights(root: Path, mask: int) -> None:
    root.chmod(0o2775)
    path = root / "vehicle.toml"
    path.chmod(0o640)
    with umask(mask):
        write(path, NEW, OLD)
    assert rights(path)[1] == 0o640


def test_what_people_attached_to_a_file_stays_with_it(root: Path) -> None:
    path = root / "vehicle.toml"
    listed = access_list((1, 6), (2, 6, 54002), (4, 4), (16, 6), (32, 0))
    try:
        os.setxattr(path, "user.note", b"of 1931")
        os.setxattr(path, "system.posix_acl_access", listed)
    except (OSError, AttributeError):
        pytest.skip("this drive keeps no extended attributes")
    write(path, NEW, OLD)
    assert path.read_bytes() == NEW
    assert os.getxattr(path, "user.note") == b"of 1931"
    assert os.getxattr(path, "system.posix_acl_access") == listed


def test_who_was_let_into_a_folder_by_name_is_let_into_new_files_too(root: Path) -> None:
    try:
        listed = access_list((1, 7), (2, 7, 54002), (4, 5), (16, 7), (32, 0))
        os.setxattr(root, "system.posix_acl_access", listed)
    except (OSError, AttributeError):
        pytest.skip("this drive keeps no access lists")
    write(root / "days" / "a.toml")
    assert os.getxattr(root / "days", "system.posix_acl_access") == listed
    of_file = os.getxattr(root / "days" / "a.toml", "system.posix_acl_access")
    assert of_file == access_list((1, 6), (2, 6, 54002), (4, 4), (16, 6), (32, 0))


def access_list(*entries: tuple[int, ...]) -> bytes:
    """As the system keeps it: tags 1 owner, 2 a user, 4 group, 16 the most of both, 32 others."""
    nobody = 2**32 - 1
    lines = [struct.pack("<HHI", e[0], e[1], e[2] if len(e) > 2 else nobody) for e in entries]
    return struct.pack("<I", 2) + b"".join(lines)


@needs_root
def test_what_root_writes_belongs_to_whom_the_folder_belongs() -> None:
    with shared_place(0o755, ADA.group) as place:
        (place / "vehicle.toml").write_bytes(OLD)
        os.chown(place, ADA.user, ADA.group)
        os.chown(place / "vehicle.toml", ADA.user, ADA.group)
        write(place / "days" / "a.toml")
        write(place / "vehicle.toml", NEW, OLD)
        for path in place.rglob("*"):
            kind = path.stat()
            assert (kind.st_uid, kind.st_gid) == (ADA.user, ADA.group), path


@needs_root
@pytest.mark.parametrize("mode", [0o2775, 0o775, 0o2770])
def test_whoever_of_the_group_came_first_the_other_can_go_on(mode: int) -> None:
    with shared_place(mode) as place:
        (place / "vehicle.toml").touch()
        day = place / "days" / "2026" / "a.toml"
        first, second = (ADA, TOM) if mode != 0o775 else (TOM, ADA)
        assert first.does(lambda: write(day, OLD))
        assert second.does(lambda: write(day, NEW, OLD))
        assert second.does(lambda: write(day.with_name("b.toml")))
        assert first.does(lambda: write(day, OLD, NEW))
        assert {rights(path) for path in (place / "days", day.parent)} == {(CREW, mode)}
        files = (day, day.with_name("b.toml"), place / LOCK_NAME)
        assert {rights(path) for path in files} == {(CREW, mode & 0o666)}


@needs_root
def test_who_is_not_of_the_folders_group_gives_their_own_group_no_more_than_all_have() -> None:
    with shared_place(0o777) as place:
        (place / "vehicle.toml").touch()
        place.chmod(0o775)
        listed = access_list((1, 7), (2, 7, EVE.user), (4, 7), (16, 7), (32, 5))
        os.setxattr(place, "system.posix_acl_access", listed)
        assert EVE.does(lambda: write(place / "a.toml"))
        assert rights(place / "a.toml") == (EVE.group, 0o644)


def refused(path: Path, expected: bytes | None, *words: str) -> None:
    with pytest.raises(NotKept) as caught:
        write(path, NEW, expected)
    for word in words:
        assert word in f"{caught.value.sentence}; {caught.value.hint}", caught.value


@needs_root
def test_a_refusal_names_the_file_whose_it_is_and_what_its_owner_can_do() -> None:
    with shared_place() as place:
        (place / "vehicle.toml").write_bytes(OLD)
        crew, days = place / "crew.toml", place / "days"
        crew.write_bytes(OLD)
        days.mkdir()
        os.chown(crew, ADA.user, CREW)
        os.chown(days, ADA.user, ADA.group)
        crew.chmod(0o644)
        days.chmod(0o755)
        run = f"Ask user {ADA.user} to run: "
        owned = f"it is owned by user {ADA.user}, and only user {ADA.user} may write "
        assert TOM.does(
            lambda: refused(crew, OLD, f"crew.toml: {owned}it;", f"{run}chmod g+rw {crew}")
        )
        mend = f"chgrp -R {CREW} {days} && chmod -R g+rwX {days}"
        assert TOM.does(
            lambda: refused(days / "a.toml", None, f"days: {owned}in it;", f"{run}{mend}")
        )
        assert EVE.does(lambda: refused(crew, OLD, f"and the group {CREW} may write in it"))
        place.chmod(0o3775)
        crew.chmod(0o664)
        assert TOM.does(
            lambda: refused(crew, OLD, "only the owner of a file may replace it", f"-t {place}")
        )
        assert crew.read_bytes() == OLD


@needs_root
def test_a_file_is_not_taken_from_a_group_by_who_is_not_in_it() -> None:
    with shared_place() as place:
        (place / "vehicle.toml").write_bytes(OLD)
        os.chown(place / "vehicle.toml", ADA.user, 54999)
        (place / "vehicle.toml").chmod(0o664)
        assert ADA.does(lambda: refused(place / "vehicle.toml", OLD, "would be lost to that group"))
        assert rights(place / "vehicle.toml") == (54999, 0o664)
