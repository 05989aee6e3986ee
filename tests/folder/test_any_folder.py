"""Any folder whatsoever, and thousands of mistakes: all end in sentences, and soon."""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from crewboard.folder.check.check import check
from crewboard.folder.read.fault import Fault
from crewboard.folder.read.folder import Folder
from tests.folder.a_vehicle import FILES, make

DAY = "days/2026/2026-05-02.toml"
DECK = "components/deck.toml"


@contextmanager
def _deep_folders(top: Path, depth: int) -> Iterator[None]:
    """Folders in folders, deeper than a path can be written; taken away afterwards."""
    here = os.getcwd()
    top.mkdir()
    os.chdir(top)
    for _ in range(depth):
        os.mkdir("d")
        os.chdir("d")
    try:
        os.chdir(here)
        yield
        os.chdir(top)
        for _ in range(depth):
            os.chdir("d")
        for _ in range(depth):
            os.chdir("..")
            os.rmdir("d")
    finally:
        os.chdir(here)


@pytest.mark.skipif(os.name == "nt", reason="pipes, devices and modes are made otherwise there")
def test_any_folder_whatsoever_ends_in_sentences(tmp_path: Path) -> None:
    """Pipes that never end, links in a circle, folders deeper than a path can be, no permission."""
    root = make(tmp_path / "van")
    os.mkfifo(root / "components/pipe.toml")
    (root / "round").symlink_to(root)
    (root / "components/dir.toml").mkdir()
    (root / "components/zero.toml").symlink_to("/dev/zero")
    (root / "supplies.toml").chmod(0)
    with _deep_folders(root / "deep", 1500):
        start = time.process_time()
        found = check(Folder(root))
        assert time.process_time() - start < 10
    told = {fault.file: fault.sentence for fault in found.mistakes}
    assert "not an ordinary file" in told["components/pipe.toml"]
    assert "components/dir.toml" in told
    assert "components/zero.toml" in told
    if os.geteuid():
        assert "supplies.toml" in told
    assert all(isinstance(fault, Fault) for fault in found.mistakes)


LINES = 4000


HEAD = "date = 2026-05-02\n\n[entries]\n"


NAMED = 'name = "Deck"\n'


def _entries(fields: Callable[[int], str]) -> str:
    lines = (f"e{n} = {{ at = 2026-05-02T09:00:00, {fields(n)} }}\n" for n in range(LINES))
    return HEAD + "".join(lines)


def _tasks(fields: Callable[[int], str]) -> str:
    return NAMED + "".join(f'[tasks.t{n}]\ntitle = "x"\n{fields(n)}\n' for n in range(LINES))


LONG = [
    ("lines that take back one another in a row", DAY,
     _entries(lambda n: f'kind = "taken back", entry = "e{n - 1}"')),
    ("lines that take back one another in a ring", DAY,
     _entries(lambda n: f'kind = "taken back", entry = "e{(n - 1) % LINES}"')),
    ("corrections in a ring", DAY,
     _entries(lambda n: f'kind = "note", text = "x", replaces = "e{(n - 1) % LINES}"')),
    ("corrections of one line", DAY,
     _entries(lambda n: 'kind = "note", text = "x", replaces = "e0"')),
    ("people nobody knows", DAY, _entries(lambda n: f'kind = "sign-in", who = "adda{n}"')),
    ("kinds nobody knows", DAY, _entries(lambda n: f'kind = "hourz{n}"')),
    ("names of nothing", DECK, _tasks(lambda n: f'after = ["q{n}"]')),
    ("tasks after themselves", DECK, _tasks(lambda n: f'after = ["t{n}"]')),
    ("tasks in one ring", DECK, _tasks(lambda n: f'after = ["t{(n + 1) % LINES}"]')),
    ("tasks in many rings", DECK,
     _tasks(lambda n: f'after = ["t{(n + 1) % LINES}", "t{(n + 7) % LINES}"]')),
    ("parts within parts", DECK,
     NAMED + "".join(f'[parts.p{n}]\nname = "x"\npart_of = "p{n + 1}"\n' for n in range(LINES))),
    ("pictures that are not there", DECK,
     NAMED + f"pictures = {[f'{n}.jpg' for n in range(LINES)]}\n"),
    ("a name of a megabyte", DECK, NAMED + f'after = ["{"x" * 1_000_000}"]\n'),
]  # fmt: skip


@pytest.mark.parametrize(("what", "file", "text"), LONG, ids=[each[0] for each in LONG])
def test_thousands_of_mistakes_are_told_before_anybody_loses_patience(
    tmp_path: Path, what: str, file: str, text: str
) -> None:
    files = {path: each.encode() for path, each in FILES.items()}
    files[file] = text.encode()
    root = make(tmp_path, files)
    start = time.process_time()
    found = check(Folder(root))
    assert time.process_time() - start < 15
    assert any(fault.file == file for fault in found.mistakes)
    assert "ada" in Folder(root).plan.crew
