"""An archive that somebody else made: nothing of it is written where nothing of it belongs."""

from __future__ import annotations

import datetime as dt
import io
import os
import random
import stat
import subprocess
import sys
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from crewboard.folder.cannot import NotKept
from crewboard.folder.disk.archive import make_copy
from crewboard.folder.disk.restore import compare, restore
from crewboard.folder.disk.unpack import MOST_AT_ONCE, MOST_IN_ALL

EVENING = dt.datetime(2026, 5, 2, 18)
RUNS = 20_000 if os.environ.get("CREWBOARD_LONG") else 300


@pytest.fixture
def root(tmp_path: Path) -> Path:
    folder = tmp_path / "van"
    (folder / "days" / "2026").mkdir(parents=True)
    (folder / "vehicle.toml").write_bytes(b"name = 'van'\n")
    return folder


def everything(root: Path) -> dict[str, bytes]:
    return {str(p): p.read_bytes() for p in root.parent.rglob("*") if p.is_file()}


def archive_of(root: Path, **more: bytes) -> Path:
    path = root.parent / "from-somebody.zip"
    with zipfile.ZipFile(path, "w") as file:
        file.writestr("vehicle.toml", b"name = 'changed'\n")
        for name, data in more.items():
            file.writestr(name, data)
    return path


@pytest.mark.parametrize(
    "name",
    [
        *("../out.toml", "/etc/x.toml", "a/../../out.toml", "a\\..\\out.toml", "C:/x.toml"),
        *("C:x.toml", "//server/share/x.toml", "./x.toml", "days//x.toml", "~\\x.toml"),
        *(".git/hooks/post-commit", ".git/config", ".GIT/config.toml", ".Git/x.md", ".ssh/x.txt"),
        *(".github/x.md", "days/.hidden/x.toml", ".crewboard/copies/x.toml", ".crewboard.lock"),
        *("GIT~1/config.toml", "git~12/x.md", ".git /x.toml", ".git./x.toml", "days./x.toml"),
        *("\u200c.git/x.toml", ".g\u200cit/x.toml", "days/a\u202etxt.toml", "a\nb.toml"),
        *("vehicle.toml:hidden.txt", "vehicle.toml::$DATA.md", "x.toml.", "x.toml ", "a|b.toml"),
        *("CON.toml", "days/2026/nul.txt", "AUX", "com1.md", "LPT9.toml", "components/x/aux.toml"),
        *("Vehicle.toml", "VEHICLE.TOML", "Days/2026/x.toml", "COMPONENTS/x.toml", "ｄays/x.toml"),
    ],
)
def test_an_archive_with_a_path_that_leads_elsewhere_is_refused_whole(
    root: Path, name: str
) -> None:
    archive = archive_of(root, **{name: b"x = 1\n"})
    before = everything(root)
    with pytest.raises(NotKept, match="no daily copy holds") as caught:
        restore(archive, root, EVENING)
    assert "\n" not in caught.value.sentence
    assert everything(root) == before


@pytest.mark.parametrize(
    "name", ["hooks/post-commit", "run.sh", "Makefile", ".git", ".gitmodules", "a.py", "p/a.jpg"]
)
def test_what_is_no_text_is_passed_over_and_said(root: Path, name: str) -> None:
    archive = archive_of(root, **{name: b"#!/bin/sh\n"})
    assert compare(archive, root).passed_over == (name,)
    restore(archive, root, EVENING)
    assert not (root / name).exists()
    assert b"changed" in (root / "vehicle.toml").read_bytes()


@pytest.mark.parametrize("kind", [stat.S_IFLNK, stat.S_IFIFO, stat.S_IFCHR, stat.S_IFBLK])
def test_a_link_or_device_in_an_archive_is_refused(root: Path, kind: int) -> None:
    path = root.parent / "link.zip"
    with zipfile.ZipFile(path, "w") as file:
        info = zipfile.ZipInfo("crew.toml")
        info.external_attr = (kind | 0o777) << 16
        file.writestr(info, "/etc/passwd")
    with pytest.raises(NotKept, match="no ordinary file"):
        compare(path, root)


def test_a_file_that_stands_twice_in_an_archive_is_refused(root: Path) -> None:
    path = root.parent / "twice.zip"
    with zipfile.ZipFile(path, "w") as file:
        file.writestr("crew.toml", b"a = 1\n")
        with pytest.warns(UserWarning, match="Duplicate"):
            file.writestr("crew.toml", b"b = 1\n")
    with pytest.raises(NotKept, match="twice"):
        compare(path, root)


def test_nothing_that_comes_back_can_be_run(root: Path) -> None:
    path = root.parent / "run.zip"
    with zipfile.ZipFile(path, "w") as file:
        for name in ("new.toml", "vehicle.toml"):
            info = zipfile.ZipInfo(name)
            info.external_attr = (stat.S_IFREG | 0o6777) << 16
            file.writestr(info, b"name = 'x'\n")
    (root / "vehicle.toml").chmod(0o755)
    restore(path, root, EVENING)
    for name in ("new.toml", "vehicle.toml"):
        assert (root / name).stat().st_mode & 0o6111 == 0


def test_a_restore_goes_through_no_link_into_a_hidden_folder(root: Path) -> None:
    (root / ".git" / "hooks").mkdir(parents=True)
    (root / "components").symlink_to(".git/hooks")
    archive = archive_of(root, **{"components/post-commit.toml": b"x = 1\n"})
    with pytest.raises(NotKept, match="behind a link"):
        restore(archive, root, EVENING)
    assert list((root / ".git" / "hooks").iterdir()) == []


def test_an_exact_restore_takes_away_only_what_the_copy_of_now_holds(root: Path) -> None:
    archive = archive_of(root)
    (root / "a.toml").write_bytes(b"a = 1\n")
    (root / "b.toml").symlink_to("/etc/hostname")
    (root / ".hidden.toml").write_bytes(b"h = 1\n")
    (root / "c:d.toml").write_bytes(b"c = 1\n")
    made = restore(archive, root, EVENING, exact=True)
    assert "a.toml" in made.files
    here = {path.name for path in root.iterdir() if path.name.endswith(".toml")}
    assert here == {"vehicle.toml", "b.toml", ".hidden.toml", "c:d.toml"}


def swelling(files: int, size: int) -> bytes:
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as file:
        for number in range(files):
            file.writestr(f"n{number}.toml", b"\0" * size)
    return made.getvalue()


def lying(real: int, said: int) -> bytes:
    """One file that unpacks to more than the archive says of it."""
    data = swelling(1, real)
    return data.replace(real.to_bytes(4, "little"), said.to_bytes(4, "little"))


GIANTS: dict[str, Callable[[], bytes]] = {
    "one large file": lambda: swelling(1, 9_000_000),
    "very many files": lambda: swelling(1 + MOST_IN_ALL // 7_999_999, 7_999_999),
    "a file that lies": lambda: lying(200_000_000, 1_000),
    "a list without end": lambda: b"PK\1\2" + b"\0" * 60_000_000 + end_of(60_000_004),
    "no archive": lambda: b"x" * 50_000_000,
    "nothing": lambda: b"",
}


def end_of(size: int) -> bytes:
    """The end of an archive whose list has that size."""
    numbers = (1).to_bytes(2, "little") * 2 + size.to_bytes(4, "little") + bytes(4)
    return b"PK\5\6" + bytes(4) + numbers + bytes(2)


@pytest.mark.parametrize("giant", GIANTS)
def test_a_giant_archive_is_one_sentence_in_little_memory(root: Path, giant: str) -> None:
    path = root.parent / "giant.zip"
    path.write_bytes(GIANTS[giant]())
    before = {p: p.read_bytes() for p in root.rglob("*") if p.is_file()}
    code = (
        "import resource, sys\n"
        "resource.setrlimit(resource.RLIMIT_AS, (300_000_000, 300_000_000))\n"
        "from crewboard.command.run import main\n"
        "code = main(sys.argv[1:])\n"
        "sys.exit(code)\n"
    )
    typed = ["restore", str(root), str(path), "--do-it"]
    ended = subprocess.run(
        [sys.executable, "-c", code, *typed], capture_output=True, text=True, timeout=60
    )
    assert ended.returncode == 3, ended.stderr
    assert len(ended.stderr.splitlines()) <= 2
    assert "archive" in ended.stderr
    assert {p: p.read_bytes() for p in root.rglob("*") if p.is_file()} == before


def test_a_list_may_be_as_long_as_a_hundred_thousand_files_need() -> None:
    assert MOST_AT_ONCE / (46 + len("days/2026/2026-05-02 (of tom).toml")) > 100_000


def test_a_broken_or_cut_off_archive_is_one_sentence(root: Path) -> None:
    whole = Path(make_copy(root, EVENING).copy.path).read_bytes()
    broken = root.parent / "broken.zip"
    dice = random.Random(7)
    for _ in range(RUNS):
        data = bytearray(whole)
        for _ in range(dice.randint(1, 6)):
            data[dice.randrange(len(data))] = dice.randrange(256)
        broken.write_bytes(data[: dice.choice([len(data), dice.randrange(len(data))])])
        try:
            compare(broken, root)
        except NotKept as told:
            assert told.hint  # noqa: PT017
            assert "\n" not in told.sentence  # noqa: PT017
