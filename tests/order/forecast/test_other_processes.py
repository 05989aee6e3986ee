"""The processes that play the forecast's runs end with the one that asked them, however it ends."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

SAMPLE = Path(__file__).parents[3] / "sample_project"
PATIENCE = 30.0  # seconds

pytestmark = pytest.mark.skipif(not os.path.exists("/proc/self/stat"), reason="needs /proc")


def children(pid: int) -> set[int]:
    """The processes that it started and that are alive."""
    alive = set()
    for stat in Path("/proc").glob("[0-9]*/stat"):
        try:
            state, parent = stat.read_text().rpartition(")")[2].split()[:2]
        except OSError:
            continue
        if int(parent) == pid and state != "Z":
            alive.add(int(stat.parent.name))
    return alive


def lives(pid: int) -> bool:
    try:
        return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False


def until(condition: Callable[[], object]) -> bool:
    end = time.monotonic() + PATIENCE
    while not condition():
        if time.monotonic() > end:
            return False
        time.sleep(0.05)
    return True


@pytest.fixture
def forecasting(monkeypatch: pytest.MonkeyPatch) -> subprocess.Popen[bytes]:
    """A forecast of very many runs, with others at work for it."""
    program = (
        "import os\n"
        "os.cpu_count = lambda: 3\n"
        "from crewboard.command.run import main\n"
        f"main(['forecast', {str(SAMPLE)!r}, '--runs', '100000', '--short'])\n"
    )
    run = subprocess.Popen(
        [sys.executable, "-c", program], stdout=subprocess.DEVNULL, stderr=subprocess.PIPE
    )
    assert until(lambda: len(children(run.pid)) >= 3), "no other process was started"
    return run


@pytest.mark.parametrize("number", [signal.SIGKILL, signal.SIGTERM, signal.SIGINT])
def test_the_others_end_with_the_first_however_it_ends(
    number: signal.Signals, forecasting: subprocess.Popen[bytes]
) -> None:
    others = children(forecasting.pid)
    time.sleep(1.0)  # let them get to work
    forecasting.send_signal(number)
    forecasting.communicate(timeout=PATIENCE)
    ended = until(lambda: not any(map(lives, others)))
    for other in filter(lives, others):
        os.kill(other, signal.SIGKILL)
    assert ended, "they went on without it"
