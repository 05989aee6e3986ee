"""Times and memory of 1,000, 2,000 and 4,000 tasks with three links each, and how they grow.

Each command runs in a process of its own; what counts is the processor's time, and of the memory
the most that was held at once. Linux and other Unixes: `python -m tests.bench.growth`.
"""

import os
import subprocess
import sys
import tempfile
from itertools import pairwise
from pathlib import Path
from typing import NamedTuple

from tests.bench.table import Measured, show
from tests.growth.shapes import three_links

SIZES = (1000, 2000, 4000)
COMMANDS = (("check",), ("day",), ("review",), ("forecast", "--runs", "20", "--short"))


class Run(NamedTuple):
    """One command: seconds of the processor, megabytes at the most."""

    seconds: float
    megabytes: int


def measure() -> list[Measured]:
    """For each command the times at each size, the ratio of each to the one before, the memory."""
    with tempfile.TemporaryDirectory() as place:
        roots = [_written(Path(place) / str(size), size) for size in SIZES]
        return [_measured(command, [run(command, root) for root in roots]) for command in COMMANDS]


def run(command: tuple[str, ...], root: Path) -> Run:
    """Raises CalledProcessError where the command fails."""
    called = [sys.executable, "-m", "crewboard", command[0], str(root), *command[1:]]
    process = subprocess.Popen(called, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, usage = os.wait4(process.pid, 0)
    if code := os.waitstatus_to_exitcode(status):
        raise subprocess.CalledProcessError(code, called)
    kilobytes = usage.ru_maxrss // (1024 if sys.platform == "darwin" else 1)
    return Run(usage.ru_utime + usage.ru_stime, kilobytes // 1024)


def _written(root: Path, size: int) -> Path:
    for path, text in three_links(size).items():
        (root / path).parent.mkdir(parents=True, exist_ok=True)
        (root / path).write_text(text)
    return root


def _measured(command: tuple[str, ...], runs: list[Run]) -> Measured:
    times = " / ".join(f"{one.seconds:.2f}" for one in runs)
    pairs = pairwise(runs)
    ratios = " / ".join(f"{later.seconds / one.seconds:.1f}" for one, later in pairs)
    reached = f"{times} s ({ratios} times), {max(one.megabytes for one in runs)} MB"
    return Measured(command[0], reached, "2 times each")


if __name__ == "__main__":
    show("1,000, 2,000 and 4,000 tasks, three links each", measure())
