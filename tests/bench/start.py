"""How long `crewboard day` takes, as a multiple of a bare interpreter that imports rich.

    python -m tests.bench.start

Each round runs every program once, so that what else the machine does falls on all alike; the
ratio of each round is taken, then the median. Processor time of the processes where the system
tells it, since it varies less than the clock's. Aim: at most 3.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.bench.table import Measured

REPOSITORY = Path(__file__).parent.parent.parent
SCRIPT = "import sys; from crewboard.__main__ import main; sys.exit(main())"
SAMPLE = str(REPOSITORY / "sample_project")
BARE = "an interpreter that imports rich"
# What the console script runs, as `pip` writes it.
PROGRAMS = {
    BARE: ["-c", "import rich"],
    "crewboard day": ["-c", SCRIPT, "day", SAMPLE, "--at", "2026-05-02T09:00"],
    "crewboard why": ["-c", SCRIPT, "why", SAMPLE, "deck/lay-boards", "--at", "2026-05-02T09:00"],
    "crewboard --help": ["-c", SCRIPT, "--help"],
}
ROUNDS = 25


def measure(rounds: int = ROUNDS) -> list[Measured]:
    """Milliseconds and multiples, medians over the rounds."""
    with tempfile.TemporaryDirectory() as compiled:
        # Compiled modules are kept, as after an installation, whatever the environment says.
        env = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
        env |= {"PYTHONPYCACHEPREFIX": compiled, "PYTHONPATH": str(REPOSITORY)}
        times: dict[str, list[float]] = {name: [] for name in PROGRAMS}
        for number in range(rounds + 1):
            for name, program in PROGRAMS.items():
                spent = _milliseconds(program, env)
                if number:  # the first round compiles
                    times[name].append(spent)
    bare = times[BARE]
    found = [Measured(BARE, f"{statistics.median(bare):.0f} ms", "")]
    for name in list(PROGRAMS)[1:]:
        ratio = statistics.median(t / b for t, b in zip(times[name], bare, strict=True))
        says = f"{ratio:.2f} x ({statistics.median(times[name]):.0f} ms)"
        found.append(Measured(name, says, "at most 3 x" if name == "crewboard day" else ""))
    return found


def _milliseconds(program: list[str], env: dict[str, str]) -> float:
    before = _spent()
    subprocess.run([sys.executable, *program], env=env, stdout=subprocess.DEVNULL, check=True)
    return 1000 * (_spent() - before)


def _spent() -> float:
    """Seconds of processor time that the ended processes took; the clock where nobody counts."""
    try:
        from resource import RUSAGE_CHILDREN, getrusage
    except ImportError:  # Windows
        return time.perf_counter()
    usage = getrusage(RUSAGE_CHILDREN)
    return usage.ru_utime + usage.ru_stime


if __name__ == "__main__":
    from tests.bench.table import show

    show("Start", measure())
