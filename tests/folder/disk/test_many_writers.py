"""Many processes write one folder, some are killed: what was acknowledged is there, once.

Long form: 8 processes x 500 entries, and 1,000 days ended by SIGKILL at a random moment.
"""

from __future__ import annotations

import datetime as dt
import multiprocessing as mp
import os
import random
import signal
import time
from pathlib import Path
from typing import Any

import pytest

from crewboard.folder.disk.lock import folder_lock
from crewboard.folder.disk.part import clean_leftovers, is_part
from crewboard.folder.disk.read import read_file
from crewboard.folder.disk.write import replace_file
from crewboard.folder.toml.append import SystemDice, appended, entry_line, new_day, new_id
from crewboard.folder.toml.day import DayText, parse_day

LONG = bool(os.environ.get("CREWBOARD_LONG"))
WRITERS, ENTRIES = 8, 500 if LONG else 10
KILLED = 1000 if LONG else 25
FIRST = dt.date(2026, 5, 2)

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork")


def day_path(root: Path, day: dt.date) -> Path:
    return root / "days" / f"{day.year}" / f"{day}.toml"


def log(root: Path, day: dt.date, writer: int, number: int) -> str:
    """What the workbench does: lock, read again, add the line, put it in place."""
    path = day_path(root, day)
    with folder_lock(root, patience=60):
        before = read_file(path)
        text = new_day(day) if before is None else before
        entry_id = new_id(SystemDice())
        line = entry_line(entry_id, {"writer": writer, "number": number})
        replace_file(path, appended(text, line), expected=before, root=root)
    return entry_id


def write_many(root: Path, writer: int, days: int, seconds: Any, start: Any) -> None:
    import filelock  # noqa: F401  # the first import is no part of the time to write

    start.wait()
    times = list[float]()
    for number in range(ENTRIES):
        began = time.perf_counter()
        log(root, FIRST + dt.timedelta((writer + 3 * number) % days), writer, number)
        times.append(time.perf_counter() - began)
    seconds.put(times)


def entries_below(root: Path) -> list[dict[str, int]]:
    found = list[dict[str, int]]()
    for path in sorted(root.glob("days/*/*.toml")):
        day = parse_day(path.read_bytes())
        assert isinstance(day, DayText)
        assert day.doubled == ()
        assert day.clashes == ()
        found += day.values["entries"].values()
    return found


@pytest.mark.parametrize("days", [1, 20])
def test_eight_writers_lose_nothing_and_double_nothing(tmp_path: Path, days: int) -> None:
    fork = mp.get_context("fork")
    seconds, start = fork.Queue(), fork.Event()
    writers = [
        fork.Process(target=write_many, args=(tmp_path, number, days, seconds, start))
        for number in range(WRITERS)
    ]
    for writer in writers:
        writer.start()
    began = time.perf_counter()
    start.set()
    times = sorted(each for _ in writers for each in seconds.get(timeout=500))
    took = time.perf_counter() - began
    for writer in writers:
        writer.join(timeout=30)
    found = sorted((entry["writer"], entry["number"]) for entry in entries_below(tmp_path))
    assert found == [(w, n) for w in range(WRITERS) for n in range(ENTRIES)]
    print(
        f"{len(times) / took:.0f} entries a second into {days} days; half within"
        f" {times[len(times) // 2] * 1000:.0f} ms, 99 in 100 within"
        f" {times[len(times) * 99 // 100] * 1000:.0f} ms, all within {times[-1] * 1000:.0f} ms"
    )


def work_until_killed(root: Path, first: int, answers: int) -> None:
    import filelock  # noqa: F401

    os.write(answers, b"ready\n")
    for number in range(first, first + 10_000):
        entry_id = log(root, FIRST + dt.timedelta(number % 3), 1, number)
        os.write(answers, f"{entry_id}\n".encode())


def killed_day(root: Path, first: int, wait: float) -> list[str]:
    """Let a process log until it is killed; the entries that it acknowledged."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reading)
        try:
            work_until_killed(root, first, writing)
        finally:
            os._exit(1)
    os.close(writing)
    with os.fdopen(reading, "rb") as answers:
        assert answers.readline() == b"ready\n"
        time.sleep(wait)
        os.kill(child, signal.SIGKILL)
        acknowledged = answers.read().decode().split()
    os.waitpid(child, 0)
    return acknowledged


def test_killed_at_a_random_moment_every_acknowledged_entry_is_there_once(tmp_path: Path) -> None:
    dice = random.Random(7)
    acknowledged = list[str]()
    unsaid = 0
    for number in range(KILLED):
        if number % 50 == 0:  # a new folder, so that the days stay of a day's size
            root = tmp_path / str(number)
            root.mkdir()
            acknowledged = []
            unsaid = 0
        acknowledged += killed_day(root, number * 10_000, dice.random() * 0.05)
        unsaid += 1
        with folder_lock(root, patience=5):
            clean_leftovers(root)
        assert not [path for path in root.rglob("*") if is_part(path.name)]
        there = set[str]()
        for path in root.glob("days/*/*.toml"):
            day = parse_day(path.read_bytes())
            assert isinstance(day, DayText)
            assert not day.doubled
            assert not day.clashes
            there |= day.values["entries"].keys()
        assert there >= set(acknowledged)
        # one entry at most each time was kept without its answer having come through
        assert len(there) - len(acknowledged) <= unsaid


def test_a_lock_is_free_as_soon_as_its_owner_is_dead(tmp_path: Path) -> None:
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        with folder_lock(tmp_path):
            os.write(writing, b"held")
            time.sleep(60)
        os._exit(0)
    assert os.read(reading, 4) == b"held"
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    with folder_lock(tmp_path, patience=2):
        pass
    os.close(reading)
    os.close(writing)
