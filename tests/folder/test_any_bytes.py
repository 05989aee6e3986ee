"""Whatever stands in the files: reading ends in sentences with places, and never in an error.

The short form tries some hundred damaged folders; CREWBOARD_LONG=1 tries 100,000.
"""

from __future__ import annotations

import os
import random
import tempfile
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from crewboard.folder.read.folder import Folder
from crewboard.order.assess import assess
from crewboard.order.reasons.onward import what_then
from crewboard.order.reasons.why import why
from tests.folder.a_vehicle import FILES, make

LONG = bool(os.environ.get("CREWBOARD_LONG"))
NOON = datetime(2026, 5, 3, 12)
# What people and machines really do to files, besides turning single bytes.
SNIPPETS = [
    b"\x00", b"\xff\xfe", b"\xef\xbb\xbf", b"\r", b"\n", b'"', b"'''", b'"""', b"[", b"]]", b"{",
    b"}", b"=", b",", b"#", b"nan", b"inf", b"-1", b"9999999999999999999", b"1e400", b"true",
    b"2026-02-30", b"9999-12-31T23:59:59", b"0001-01-01", b"2026-05-02T09:00:00Z", b"24:00:00",
    b'"100 years"', b'"1200 months"', b'"0 days"', b"[tasks.lay]", b"[tasks]", b"[[tasks.lay]]",
    b'after = ["deck"]', b'after = ["frame/prime", "deck/trim"]', b'part_of = "boards"',
    b'kind = "finished"', b'replaces = "k7f3q2mr"', b'entry = "k7f3q2mp"', b"\xe2\x80\xae",
    b"\x1b[31m", b"<<<<<<< ours", b"=======", b">>>>>>> theirs",
]  # fmt: skip


def damaged(dice: random.Random) -> dict[str, bytes]:
    """The folder with one to four wounds."""
    files = {path: text.encode() for path, text in FILES.items()}
    for _ in range(dice.randint(1, 4)):
        path = dice.choice(list(files))
        data = bytearray(files[path])
        at = dice.randrange(len(data) + 1)
        match dice.randrange(7):
            case 0:
                data[at:at] = dice.choice(SNIPPETS)
            case 1:
                del data[at : at + dice.randint(1, 40)]
            case 2 if at < len(data):
                data[at] = dice.randrange(256)
            case 3:
                other = files[dice.choice(list(files))]
                start = dice.randrange(len(other) + 1)
                data[at:at] = other[start : start + dice.randint(1, 80)]
            case 4:
                lines = bytes(data).split(b"\n")
                lines.insert(dice.randrange(len(lines)), dice.choice(lines))
                data = bytearray(b"\n".join(lines))
            case 5:
                words = bytes(data).split(b" ")
                words[dice.randrange(len(words))] = dice.choice(SNIPPETS)
                data = bytearray(b" ".join(words))
            case _:
                data = data[:at]
        files[path] = bytes(data)
    return files


def look_at_everything(root: Path) -> None:
    folder = Folder(root)
    for fault in folder.faults:
        assert fault.line >= 1
        assert fault.column >= 1
        assert fault.sentence
        assert "\n" not in str(fault)
        assert "Traceback" not in str(fault)
    board = assess(folder.plan, folder.logbook, NOON)
    for task_id in folder.plan.tasks:
        assert why(board, task_id)
        what_then(board, task_id)
    board.stopping()


@pytest.fixture(scope="module")
def scratch() -> Iterator[Path]:
    with tempfile.TemporaryDirectory() as name:
        yield Path(name)


def test_the_undamaged_folder_has_no_mistake(tmp_path: Path) -> None:
    folder = Folder(make(tmp_path))
    assert folder.faults == []
    assert len(folder.plan.tasks) == 4
    assert len(folder.logbook.days) == 1


def test_a_damaged_folder_opens_and_says_what_is_wrong(scratch: Path) -> None:
    dice = random.Random(20260502)
    told = 0
    for _ in range(100_000 if LONG else 400):
        files = damaged(dice)
        make(scratch, files)
        look_at_everything(scratch)
        told += bool(Folder(scratch).faults)
        for path, data in files.items():
            assert (scratch / path).read_bytes() == data, "reading never writes"
    assert told > 200  # the damage is real: most of these folders have something to tell


@settings(
    max_examples=2000 if LONG else 60,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(path=st.sampled_from(sorted(FILES)), data=st.binary(max_size=400))
def test_any_bytes_in_any_file_are_told_and_the_rest_opens(
    scratch: Path, path: str, data: bytes
) -> None:
    files = {p: t.encode() for p, t in FILES.items()} | {path: data}
    make(scratch, files)
    look_at_everything(scratch)
    others = {p for p in FILES if p.startswith("components/") and p != path}
    stems = {p.rpartition("/")[2].removesuffix(".toml") for p in others}
    assert stems <= set(Folder(scratch).plan.components)
