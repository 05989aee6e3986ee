"""A file larger than a set limit is refused in a sentence before any of it is read."""

from __future__ import annotations

import os
import re
import shutil
from datetime import date
from pathlib import Path
from zipfile import ZIP_DEFLATED, ZipFile

import pytest

from crewboard.folder.cannot import NotKept
from crewboard.folder.disk.archive import make_copy
from crewboard.folder.disk.known import standing_in_last_copy
from crewboard.folder.disk.read import read_at_most, read_file
from crewboard.folder.disk.undo import FileChange, take_back
from crewboard.folder.read.folder import Folder
from crewboard.folder.toml.text import MOST_BYTES
from tests.command.calling import SAMPLE, Shell, process

FILES = (
    *("vehicle.toml", "crew.toml", "hazards.toml", "components/deck.toml"),
    *("days/2026/2026-04-25.toml", "readings/2026-04.csv"),
)


def grown(root: Path, path: str) -> None:
    """A file of 20 GB that takes no room on the disk."""
    (root / path).parent.mkdir(exist_ok=True)
    with (root / path).open("ab") as file:
        os.truncate(file.fileno(), 20_000_000_000)


@pytest.mark.parametrize("path", FILES)
def test_a_file_of_the_folder_is_not_read(tmp_path: Path, path: str) -> None:
    root = Path(shutil.copytree(SAMPLE, tmp_path / "bus"))
    grown(root, path)
    told = [fault for fault in Folder(root).faults if fault.file == path]
    assert [f"{MOST_BYTES // 1_000_000} MB that are read" in fault.sentence for fault in told] == [
        True
    ]
    for read in (read_file, lambda name: read_at_most(name, root)):
        with pytest.raises(OSError, match=r"20000\.0 MB long, more than the 8 MB"):
            read(root / path)


def test_a_loggers_file_is_not_read(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    grown(tmp_path, "logger.csv")
    refused = Shell(capsys)("take-readings", SAMPLE, tmp_path / "logger.csv")
    assert refused.code == 1
    assert "20000.0 MB long, more than the 50 MB that are read" in refused.err


COPY = "days/2026/2026-04-25 (copy).toml"
TODAY = "days/2026/2026-05-02.toml"
AT = ("--by", "mirela", "--at", "2026-05-02T10:40")
TOO_LARGE = r"(20000\.0|20000) MB long, more than the (8|50) MB that are read"
WAYS: dict[str, tuple[str, tuple[str, ...]]] = {
    "check, a copy of a day": (COPY, ("check", "bus")),
    "check, supplies": ("supplies.toml", ("check", "bus")),
    "check, a hazard sheet": ("hazards.toml", ("check", "bus")),
    "fold, a copy of a day": (COPY, ("fold", "bus")),
    "fold, that copy": (COPY, ("fold", "bus", COPY)),
    "fold, a copy's day": ("days/2026/2026-04-25.toml", ("fold", "bus", "days/2026/x.toml")),
    "fold, a component's copy": ("components/deck (1).toml", ("fold", "bus")),
    "fold, set aside": (
        "components/deck (1).toml",
        ("fold", "bus", "components/deck (1).toml", "--aside", "--do-it"),
    ),
    "restore over it": (TODAY, ("restore", "bus", "last", "--do-it")),
    "a note into it": (TODAY, ("note", "bus", "the wind turns", *AT)),
    "undo what may stand in it": (TODAY, ("undo", "bus", "--by", "mirela")),
    "take-readings": ("logger.csv", ("take-readings", "bus", "bus/logger.csv")),
    "take-readings, standard input": ("logger.csv", ("take-readings", "bus", "/dev/stdin")),
}


@pytest.mark.parametrize("way", WAYS)
def test_every_way_in_refuses_it_in_one_sentence_that_names_it(tmp_path: Path, way: str) -> None:
    file, typed = WAYS[way]
    root = Path(shutil.copytree(SAMPLE, tmp_path / "bus"))
    shutil.copy(root / "days/2026/2026-04-25.toml", root / "days/2026/x.toml")
    make_copy(root, date(2026, 5, 2))
    grown(root, file)
    with (root / file).open("rb") as stdin:
        ended = process(*typed, cwd=tmp_path, stdin=stdin)
    words = (ended.stdout + ended.stderr).decode()
    assert ended.returncode, words
    assert "Traceback" not in words
    line = next(line for line in words.replace("\n         ", " ").split("\n") if "MB long" in line)
    assert re.search(TOO_LARGE, line), words
    names = (Path(file).name, "/dev/stdin", "Sat 2 May 2026")
    assert any(name in line for name in names), words
    assert (root / file).stat().st_size >= 20_000_000_000


def test_a_step_is_not_undone_in_it(tmp_path: Path) -> None:
    grown(tmp_path, "crew.toml")
    step = (FileChange(str(tmp_path / "crew.toml"), b"before", b"after"),)
    with pytest.raises(NotKept, match=r"crew\.toml cannot be read: it is 20000\.0 MB long"):
        take_back(step, root=tmp_path)


def test_an_archive_of_any_size_is_read_no_further_than_its_list(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    root = Path(shutil.copytree(SAMPLE, tmp_path / "bus"))
    made = make_copy(root, date(2026, 5, 2)).copy.path
    grown(tmp_path, made)
    refused = Shell(capsys)("restore", root, made, "--do-it")
    assert refused.code == 3
    assert "the archive is damaged or cut off" in refused.err
    assert not list(standing_in_last_copy(str(root))[0])


def test_what_a_copy_claims_to_hold_is_not_unpacked_beyond_the_limit(tmp_path: Path) -> None:
    copies = tmp_path / ".crewboard" / "copies"
    copies.mkdir(parents=True)
    with ZipFile(copies / "2026-05-02.zip", "w", ZIP_DEFLATED) as archive:
        archive.writestr("days/2026/2026-05-02.toml", b"#" * (MOST_BYTES + 1))
    assert not list(standing_in_last_copy(str(tmp_path))[0])
