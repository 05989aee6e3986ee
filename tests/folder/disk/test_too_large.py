"""A file larger than a set limit is refused in a sentence before any of it is read."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest

from crewboard.folder.disk.read import read_at_most, read_file
from crewboard.folder.read.folder import Folder
from crewboard.folder.toml.text import MOST_BYTES
from tests.command.calling import SAMPLE, Shell

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
