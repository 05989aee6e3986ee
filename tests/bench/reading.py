"""How long a large folder takes to read, and to read again after one file changed.

    python -m tests.bench.reading

2,000 tasks, 1,000 day files with 50,000 entries. Aims: under 2 s, under 50 ms. Processor time of
this process, so that what else the machine does counts less.
"""

from __future__ import annotations

import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from crewboard.folder.read.folder import Folder
from crewboard.order.assess import assess
from tests.bench.large_folder import large_folder
from tests.bench.table import Measured


def measure(rounds: int = 5) -> list[Measured]:
    """Medians over the rounds."""
    with tempfile.TemporaryDirectory() as scratch:
        root = Path(scratch)
        at = large_folder(root, 2000, days=1000, entries=50_000)
        first = [_seconds(lambda: Folder(root)) for _ in range(rounds)]
        folder = Folder(root)
        assert not folder.faults, folder.faults[:3]
        assert sum(len(day.entries) for day in folder.logbook.days.values()) == 50_000
        again = [_after_a_change(folder, root, number) for number in range(rounds)]
        plan = [_after_a_plan_change(folder, root, number) for number in range(rounds)]
        board = [_seconds(lambda: assess(folder.plan, folder.logbook, at)) for _ in range(rounds)]
    return [
        Measured("first read", f"{statistics.median(first):.2f} s", "under 2 s"),
        Measured("again, one day changed", _ms(again), "under 50 ms"),
        Measured("again, one component changed", _ms(plan), "under 50 ms"),
        Measured("the board, once read", _ms(board), ""),
    ]


def _after_a_change(folder: Folder, root: Path, number: int) -> float:
    path = sorted(root.glob("days/*/*.toml"))[number * 100]
    line = f'zzzzzzz{number + 2} = {{ at = 2020-01-04T10:00:00, kind = "note", text = "x" }}\n'
    path.write_text(path.read_text() + line)
    return _changed(folder)


def _after_a_plan_change(folder: Folder, root: Path, number: int) -> float:
    path = root / f"components/c{number}.toml"
    path.write_text(path.read_text() + f'\n[tasks.more{number}]\ntitle = "More"\n')
    return _changed(folder)


def _changed(folder: Folder) -> float:
    start = time.process_time()
    changed = folder.refresh()
    spent = time.process_time() - start
    assert len(changed) == 1
    return spent


def _seconds(act: Callable[[], object]) -> float:
    start = time.process_time()
    act()
    return time.process_time() - start


def _ms(times: list[float]) -> str:
    return f"{1000 * statistics.median(times):.0f} ms"


if __name__ == "__main__":
    from tests.bench.table import show

    show("Reading 2,000 tasks, 1,000 days, 50,000 entries", measure())
