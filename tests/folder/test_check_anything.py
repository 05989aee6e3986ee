"""`crewboard check` and `crewboard day` on whatever stands in the files: sentences or silence.

The short form damages some hundred folders; CREWBOARD_LONG=1 damages 100,000, or as many as
CREWBOARD_FOLDERS says, from the seed that CREWBOARD_SEED says.
"""

from __future__ import annotations

import os
import random
import resource
import subprocess
import sys
import time
import traceback
from collections.abc import Callable
from pathlib import Path

import pytest

from crewboard.command.looking import day_in_plain
from crewboard.folder.check.check import Checked, check
from crewboard.folder.read.fault import Fault
from crewboard.folder.read.folder import Folder
from crewboard.legible import legible
from crewboard.order.assess import assess
from tests.command.calling import REPOSITORY
from tests.folder.a_vehicle import FILES, make
from tests.folder.test_any_bytes import NOON, damaged
from tests.folder.toml.test_decode import BROKEN

LONG = bool(os.environ.get("CREWBOARD_LONG"))
FOLDERS = int(os.environ.get("CREWBOARD_FOLDERS", "100000")) if LONG else 100
SEED = int(os.environ.get("CREWBOARD_SEED", "51"))
MEMORY = 700_000_000  # bytes of address space that a check may use: an old laptop has them


def looked_over(root: Path) -> Checked:
    """What `check` finds; fails where one of its sentences is none, or has no place."""
    found = check(Folder(root), NOON)
    for fault in (*found.mistakes, *found.questions):
        fit_to_print(fault)
    return found


def fit_to_print(fault: Fault) -> None:
    assert fault.line >= 1
    assert fault.column >= 1
    assert fault.sentence.strip()
    shown = legible(str(fault))
    assert "\n" not in shown
    assert len(fault.sentence) < 2000, fault.sentence[:200]


def the_day_in_lines(root: Path) -> list[str]:
    """What `crewboard day` prints for the folder."""
    folder = Folder(root)
    board = assess(folder.plan, folder.logbook, NOON)
    return day_in_plain(board, 80)


def test_check_and_day_end_in_sentences_for_any_damaged_folder(tmp_path: Path) -> None:
    dice = random.Random(SEED)
    began, told, slowest = time.perf_counter(), 0, 0.0
    for number in range(FOLDERS):
        files = damaged(dice)
        make(tmp_path, files)
        start = time.perf_counter()
        try:
            found = looked_over(tmp_path)
            assert the_day_in_lines(tmp_path)
        except Exception:
            pytest.fail(f"folder {number} of seed {SEED}: {traceback.format_exc()}\n{files}")
        slowest = max(slowest, time.perf_counter() - start)
        told += bool(found.mistakes or found.questions)
        if number % 50 == 0:
            for path, data in files.items():
                assert (tmp_path / path).read_bytes() == data, "looking never writes"
    took = time.perf_counter() - began
    print(
        f"{FOLDERS} folders from seed {SEED} in {took:.0f} s, {told} with something to tell, "
        f"none without an answer, the slowest {slowest * 1000:.0f} ms"
    )
    assert told > FOLDERS / 2
    assert slowest < 5


@pytest.mark.parametrize("file", sorted(FILES))
def test_each_class_of_invalid_toml_is_one_sentence_whatever_file_it_stands_in(
    tmp_path: Path, file: str
) -> None:
    """The classes of error of the TOML 1.0.0 grammar, as each of the folder's files.

    In the short form each class stands in one file, and each file has its share of the classes.
    """
    make(tmp_path)
    files = sorted(FILES)
    for text, line, words in BROKEN if LONG else BROKEN[files.index(file) :: len(files)]:
        (tmp_path / file).write_bytes(text.encode())
        found = looked_over(tmp_path)
        told = [fault for fault in found.mistakes if fault.file == file]
        # A day is read past lines that a merge doubled, so that the rest of it counts.
        broken = [fault for fault in told if fault.code in ("toml", "two-wordings")]
        assert len(broken) == 1, (text, told)
        assert broken[0].line == line, (text, told)
        if broken[0].code == "toml":
            assert told == broken, text
            assert words in f"{told[0].sentence} {told[0].hint}"
        assert the_day_in_lines(tmp_path)


# --- what has no end, or nearly none: as a process of its own, with little memory ----------------


def little_memory() -> None:
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))


def checked(root: Path, *command: str, seconds: float) -> str:
    """What `crewboard check` prints, in so many seconds and with little memory."""
    run = subprocess.run(
        [sys.executable, "-m", "crewboard", *(command or ("check",)), str(root)],
        stdin=subprocess.DEVNULL,
        capture_output=True,
        env={**os.environ, "PYTHONPATH": str(REPOSITORY)},
        preexec_fn=little_memory,
        timeout=seconds,
    )
    assert b"Traceback" not in run.stderr, run.stderr.decode()
    assert b"MemoryError" not in run.stderr
    assert run.returncode in (0, 1), run.stderr.decode()
    return run.stdout.decode()


def deep(path: str) -> bytes:
    if path.startswith("days/"):
        return b"[entries]\na = " + b"{b=" * 200_000
    return b"x = " + b"[" * 500_000


LARGE: dict[str, Callable[[str], bytes]] = {
    "ten million bytes of text": lambda _: b'name = "' + b"a" * 10_000_000 + b'"\n',
    "seven million bytes of one value": lambda _: b'titel = "' + b"a" * 7_000_000 + b'"\n',
    "forty thousand keys": lambda _: b"".join(b"k%d = 1\n" % n for n in range(40_000)),
    "a list of sixty thousand": lambda _: b"name = [" + b"1," * 60_000 + b"]\n",
    "very deep": deep,
    "a key of a million letters": lambda _: b"k" * 1_000_000 + b" = 1\n",
    "a hundred thousand dots": lambda _: b"a" + b".a" * 100_000 + b" = 1\n",
}


@pytest.mark.parametrize("what", LARGE)
def test_large_files_are_told_within_seconds_and_with_little_memory(
    tmp_path: Path, what: str
) -> None:
    files = {path: text.encode() for path, text in FILES.items()}
    for path in ("components/deck.toml", "days/2026/2026-05-02.toml"):
        files[path] = LARGE[what](path)
    out = checked(make(tmp_path, files), seconds=30)
    assert "components/deck.toml:" in out
    assert "days/2026/2026-05-02.toml:" in out
    assert max(len(line) for line in out.splitlines()) < 4000


@pytest.fixture
def odd(tmp_path: Path) -> Path:
    """A folder of pipes, devices, links in a circle and links out."""
    root = make(tmp_path / "van")
    (tmp_path / "outside.toml").write_text("secret = 1\n")
    for folder in ("components", "days/2026"):
        os.mkfifo(root / folder / "pipe.toml")
        (root / folder / "zero.toml").symlink_to("/dev/zero")
        (root / folder / "tty.toml").symlink_to("/dev/tty")
        (root / folder / "round.toml").symlink_to("round.toml")
        (root / folder / "out.toml").symlink_to(tmp_path / "outside.toml")
        (root / folder / "up.toml").symlink_to("..")
        (root / folder / "folder.toml").mkdir()
    (root / "components/everything").symlink_to("/")
    return root


def test_pipes_devices_and_links_in_a_circle_or_out_are_told_and_not_followed(odd: Path) -> None:
    out = checked(odd, seconds=20)
    for name in ("pipe", "zero", "round", "out"):
        assert f"components/{name}.toml:1:1: " in out
        assert f"days/2026/{name}.toml:1:1: " in out
    assert "secret" not in out
    assert "Test van" in checked(odd, "day", seconds=20)


@pytest.mark.skipif(not LONG, reason="makes a hundred thousand files")
def test_a_hundred_thousand_files_are_looked_over(tmp_path: Path) -> None:
    root = make(tmp_path / "van")
    for number in range(100_000):
        folder = root / ("components" if number % 2 else f"days/{1900 + number % 200}")
        folder.mkdir(exist_ok=True)
        (folder / f"n{number}.toml").write_bytes(b"x = \n" if number % 5 else b'name = "n"\n')
    start = time.perf_counter()
    out = checked(root, seconds=300)
    print(f"100,000 files looked over in {time.perf_counter() - start:.0f} s")
    assert len(out.splitlines()) > 80_000
