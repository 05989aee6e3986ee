"""5,000 tasks of the same work on several pieces against the same tasks written one by one.

Each command runs in a process of its own; what counts is the processor's time. Linux and other
Unixes: `python -m tests.bench.series`.
"""

import tempfile
from pathlib import Path

from tests.bench.growth import run
from tests.bench.table import Measured, show
from tests.growth.twins import by_hand, with_series

COMMANDS = (("day",), ("check",), ("review",), ("forecast", "--runs", "20", "--short"))
TASKS, COMPONENTS = 5000, 10
TIMES = 2


def measure() -> list[Measured]:
    """For each command the least seconds of a few runs on either folder, and their ratio."""
    with tempfile.TemporaryDirectory() as place:
        roots = []
        for written in (with_series, by_hand):
            root = Path(place) / written.__name__
            for path, text in written(TASKS, COMPONENTS).items():
                (root / path).parent.mkdir(parents=True, exist_ok=True)
                (root / path).write_text(text)
            roots.append(root)
        return [_measured(command, roots) for command in COMMANDS]


def _measured(command: tuple[str, ...], roots: list[Path]) -> Measured:
    once, one_by_one = (min(run(command, root).seconds for _ in range(TIMES)) for root in roots)
    return Measured(
        command[0], f"{once:.2f} / {one_by_one:.2f} s ({once / one_by_one:.2f} times)", "1 times"
    )


if __name__ == "__main__":
    show("5,000 tasks by series / written one by one", measure())
