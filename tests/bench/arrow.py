"""What an arrow key costs, at 120 and 5,000 tasks: the bytes it draws, the processor's time.

    python -m tests.bench.arrow

In a real pseudo-terminal of 120 columns and 40 lines; the cursor goes down a row and up again.
Aims: at most 8 KB and 10 ms, and at 5,000 tasks as at 120. Unix only.
"""

from __future__ import annotations

import os
import statistics
import tempfile
import time
from pathlib import Path
from typing import NamedTuple

from tests.bench.large_folder import large_folder
from tests.bench.screens import DOWN, SCRIPT, UP, VEHICLE, drawn_until_quiet, terminal
from tests.bench.table import Measured

PAGES = {"work day": b"", "vehicle": VEHICLE}
FEW, MANY = 120, 5000
PRESSES = 40


class Arrow(NamedTuple):
    """The cost of one press in the middle: bytes drawn, milliseconds of processor time."""

    drawn: float
    worked: float


def measure() -> list[Measured]:
    """Each page at both sizes, and how much dearer the larger is."""
    found: list[Measured] = []
    with tempfile.TemporaryDirectory() as scratch:
        moment = {tasks: large_folder(Path(scratch, str(tasks)), tasks) for tasks in (FEW, MANY)}
        for page, key in PAGES.items():
            few, many = (
                press(Path(scratch, str(tasks)), moment[tasks].isoformat(), key)
                for tasks in (FEW, MANY)
            )
            drawn = f"{few.drawn / 1000:.1f} / {many.drawn / 1000:.1f} KB"
            worked = f"{few.worked:.1f} / {many.worked:.1f} ms"
            ratios = f"{many.drawn / few.drawn:.2f} x, {many.worked / few.worked:.2f} x"
            says = f"{drawn}, {worked} ({ratios})"
            what = f"an arrow, {page}, {FEW} / {MANY:,} tasks"
            found.append(Measured(what, says, "8 KB, 10 ms, 1 x"))
    return found


def press(root: Path, at: str, key: bytes = b"", presses: int = PRESSES) -> Arrow:
    """Open the page and go up and down; the cost of one press."""
    with terminal([SCRIPT, str(root), "--at", at]) as (pid, descriptor):
        drawn_until_quiet(descriptor, 5)
        if key:
            os.write(descriptor, key)
            drawn_until_quiet(descriptor, 5)
        drawn: list[int] = []
        worked: list[float] = []
        for number in range(presses):
            before = processor_time(pid)
            os.write(descriptor, UP if number % 2 else DOWN)
            drawn.append(len(drawn_until_quiet(descriptor, 5)))
            worked.append(1000 * (processor_time(pid) - before))
    return Arrow(statistics.median(drawn), statistics.median(worked))


def processor_time(pid: int) -> float:
    """Seconds of processor time that the process has used, on Linux to the microsecond."""
    # The clock of another process has this number (what clock_getcpuclockid gives in C).
    return time.clock_gettime((~pid << 3) | 2)


if __name__ == "__main__":
    from tests.bench.table import show

    show("An arrow key", measure())
