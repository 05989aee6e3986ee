"""What was measured, beside what was aimed at."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple


class Measured(NamedTuple):
    """One figure in words, and the aim where there is one."""

    what: str
    reached: str
    aim: str = ""


def show(heading: str, measured: Iterable[Measured]) -> None:
    """Print the figures as a table."""
    rows = [("", "reached", "aim"), *measured]
    wide = [max(len(row[column]) for row in rows) for column in range(3)]
    print(heading)
    for row in rows:
        cells = (cell.ljust(width) for cell, width in zip(row, wide, strict=True))
        print("  " + "   ".join(cells).rstrip())
    print()
