"""First paint as a multiple of an empty Textual app, and a key press to its repaint.

    python -m tests.bench.screens

In a real pseudo-terminal of 120 columns and 40 lines: what is measured is the time from the start
of the process, or from a key written to the terminal, to what the program draws. Aims: at most
1.5 x; at 5,000 tasks no slower than at 500. Unix only.
"""

from __future__ import annotations

import fcntl
import os
import pty
import select
import signal
import statistics
import struct
import sys
import tempfile
import termios
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from tests.bench.large_folder import large_folder
from tests.bench.table import Measured

REPOSITORY = Path(__file__).parent.parent.parent
EMPTY = (
    "from textual.app import App\n"
    "from textual.widgets import Static\n"
    "class Empty(App):\n"
    "    def compose(self):\n"
    "        yield Static('READY-MARK')\n"
    "Empty().run()\n"
)
SCRIPT = "import sys; from crewboard.__main__ import main; sys.exit(main())"
MOMENT = ["--at", "2026-05-02T09:00"]
QUIET = 0.25  # seconds without a byte after which a screen counts as drawn
DOWN, UP, VEHICLE = b"\x1b[B", b"\x1b[A", b"\x1bOR"  # F3


def measure(rounds: int = 5) -> list[Measured]:
    """Medians over the rounds; the empty app and ours take turns."""
    empty, ours = [], []
    sample = [SCRIPT, str(REPOSITORY / "sample_project"), *MOMENT]
    for number in range(rounds + 1):
        one = _first_paint([EMPTY], b"READY-MARK")
        two = _first_paint(sample, b"Marigold")
        if number:  # the first round compiles
            empty.append(one)
            ours.append(two)
    ratio = statistics.median(o / e for o, e in zip(ours, empty, strict=True))
    says = f"{ratio:.2f} x ({statistics.median(ours):.0f} ms)"
    found = [
        Measured("first paint of an empty app", f"{statistics.median(empty):.0f} ms"),
        Measured("first paint of the work day", says, "at most 1.5 x"),
    ]
    with tempfile.TemporaryDirectory() as scratch:
        times = {
            (tasks, page): _key_presses(Path(scratch, str(tasks)), tasks, keys)
            for tasks in (500, 5000)
            for page, keys in (("work day", []), ("vehicle", [VEHICLE]))
        }
    for (tasks, page), each in times.items():
        p95 = statistics.quantiles(each, n=20)[-1]
        says = f"{statistics.median(each):.1f} ms, 95 of 100 within {p95:.1f} ms"
        aim = "no slower than at 500" if tasks == 5000 else ""
        found.append(Measured(f"an arrow key, {page}, {tasks:,} tasks", says, aim))
    return found


@contextmanager
def terminal(program: list[str]) -> Iterator[tuple[int, int]]:
    """The program in a terminal of its own: its process, and the descriptor of what it draws."""
    pid, descriptor = pty.fork()
    if pid == 0:
        os.environ |= {"TERM": "xterm-256color", "PYTHONPATH": str(REPOSITORY)}
        os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
        os.execv(sys.executable, [sys.executable, "-c", *program])
    fcntl.ioctl(descriptor, termios.TIOCSWINSZ, struct.pack("HHHH", 40, 120, 0, 0))
    try:
        yield pid, descriptor
    finally:
        os.kill(pid, signal.SIGKILL)
        os.close(descriptor)
        os.waitpid(pid, 0)


def read_drawn(descriptor: int, patience: float) -> bytes:
    """What was drawn within so many seconds, nothing where all is quiet."""
    ready, _, _ = select.select([descriptor], [], [], patience)
    return os.read(descriptor, 65536) if ready else b""


def _first_paint(program: list[str], mark: bytes) -> float:
    """Milliseconds from the start to the mark on the screen."""
    start, seen = time.perf_counter(), b""
    with terminal(program) as (_, descriptor):
        while mark not in seen:
            drawn = read_drawn(descriptor, 20)
            assert drawn, f"{mark!r} was never drawn: {seen[-500:]!r}"
            seen += drawn
        return 1000 * (time.perf_counter() - start)


def _key_presses(root: Path, tasks: int, keys: list[bytes], presses: int = 40) -> list[float]:
    """Milliseconds from each press of an arrow key to the first byte that it draws."""
    at = large_folder(root, tasks)
    with terminal([SCRIPT, str(root), "--at", at.isoformat()]) as (_, descriptor):
        drawn_until_quiet(descriptor, 5)
        for key in keys:
            os.write(descriptor, key)
            drawn_until_quiet(descriptor, 5)
        times = []
        for number in range(presses):
            start = time.perf_counter()
            os.write(descriptor, UP if number % 2 else DOWN)
            assert read_drawn(descriptor, 5), "a key drew nothing"
            times.append(1000 * (time.perf_counter() - start))
            drawn_until_quiet(descriptor, QUIET)
    return times


def drawn_until_quiet(descriptor: int, patience: float) -> bytes:
    """What is drawn until nothing comes any more."""
    drawn = b""
    while piece := read_drawn(descriptor, patience):
        drawn += piece
        patience = QUIET
    return drawn


if __name__ == "__main__":
    from tests.bench.table import show

    show("Screens", measure())
