"""What the tool said was kept is kept: after a kill at any moment, and with many at one folder.

Short form a few dozen days; CREWBOARD_LONG=1 plays 1,000 scripted days and 8 x 500 entries.
"""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from crewboard.folder.read.folder import Folder
from tests.folder.a_vehicle import make

LONG = bool(os.environ.get("CREWBOARD_LONG"))

# A crew's day as a program of its own: it says an entry's id only once the tool kept it.
A_DAY = """
import random, sys
from datetime import datetime, timedelta
from time import perf_counter
from crewboard.logbook.acts import HoursWorked, Noted, Reading, SignIn, SignOut
from crewboard.workbench import Said, Workbench

root, start, (seed, count, days) = sys.argv[1], sys.argv[2], map(int, sys.argv[3:])
dice, bench, times = random.Random(seed), Workbench(root), []
start = datetime.fromisoformat(start)
for number in range(count):
    at = start + timedelta(days=(seed + 3 * number) % days, minutes=number)
    act = dice.choice([
        Noted(f"note {seed}-{number}: [b]glue[/b] = \\"thin\\""),
        HoursWorked("ada", 0.5, "frame/scrape", f"{seed}-{number}"),
        Reading(12.0, 60.0, f"{seed}-{number}"),
    ])
    began = perf_counter()
    outcome = bench.record([Said(act, at)], by="ada", now=at)
    times.append(perf_counter() - began)
    print(outcome.entries[0].id if outcome.kept else f"! {outcome.refused[0]}", flush=True)
    if dice.random() < 0.1 and outcome.kept:
        back = bench.undo(by="tom", now=at)
        print(back.entries[0].id if back.kept else f"! {back.refused[0]}", flush=True)
print(*times, file=sys.stderr)
"""


def start_a_day(
    root: Path, start: datetime, seed: int, count: int, days: int = 1
) -> subprocess.Popen[str]:
    """A writer at work: `count` entries, into one day or round and round into several."""
    said = [root, start.isoformat(), seed, count, days]
    return subprocess.Popen(
        [sys.executable, "-c", A_DAY, *map(str, said)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )


def entry_ids(root: Path) -> list[str]:
    return [e.id for day in Folder(root).logbook.days.values() for e in day.entries]


def test_after_a_kill_at_any_moment_every_acknowledged_entry_is_there_once(tmp_path: Path) -> None:
    dice = random.Random(7)
    start = datetime(2026, 6, 6, 9)
    killed_midway = 0
    for seed in range(1000 if LONG else 12):
        root = make(tmp_path / str(seed % 20))
        day = start + timedelta(days=seed)
        child = start_a_day(root, day, seed, 400)
        assert child.stdout is not None
        assert child.stderr is not None
        first = child.stdout.readline().strip()  # it is at work; now the plug is pulled
        time.sleep(dice.uniform(0, 0.25))
        child.send_signal(signal.SIGKILL)
        rest = child.stdout.read().split("\n")
        child.wait()
        child.stdout.close()
        child.stderr.close()
        said = [first, *rest[:-1]]  # a last line without its end was not said
        killed_midway += len(said) < 400
        folder = Folder(root)
        assert folder.faults == []
        there = entry_ids(root)
        assert len(there) == len(set(there))
        assert set(said) <= set(there), "an acknowledged entry is gone"
    assert killed_midway > 0


@pytest.mark.parametrize("days", [1, 20])
def test_many_writers_in_one_folder_lose_nothing(tmp_path: Path, days: int) -> None:
    root = make(tmp_path)
    writers, each = (8, 500) if LONG else (4, 20)
    began = time.perf_counter()
    children = [
        start_a_day(root, datetime(2026, 6, 6, 9), number, each, days) for number in range(writers)
    ]
    told = [child.communicate() for child in children]
    took = time.perf_counter() - began
    answers = [line for out, _ in told for line in out.splitlines()]
    said = [line for line in answers if not line.startswith("!")]
    times = sorted(float(each) for _, err in told for each in err.split())
    # In a day of thousands of lines the wait for the others can grow too long: then that is said.
    waited = [line for line in answers if line.startswith("!")]
    assert all("another program has been writing" in line for line in waited), waited
    assert len(waited) <= len(said) / 500
    there = [entry_id for entry_id in entry_ids(root) if not entry_id.startswith("k7f3q2m")]
    assert sorted(there) == sorted(said)
    assert len(answers) >= writers * each
    assert len(times) == writers * each
    print(
        f"{len(said) / took:.0f} entries a second by {writers} writers into {days} days; half "
        f"within {times[len(times) // 2] * 1000:.0f} ms, 99 in 100 within "
        f"{times[len(times) * 99 // 100] * 1000:.0f} ms, all within {times[-1] * 1000:.0f} ms; "
        f"{len(said)} kept, {len(waited)} told to wait"
    )
    assert Folder(root).faults == []
