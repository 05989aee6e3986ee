"""All measurements in one run, beside what was aimed at: `python -m tests.bench`."""

from __future__ import annotations

import os

from tests.bench import long_log, reading, start
from tests.bench.table import show


def main() -> None:
    """Measure and print; nothing is asserted, since machines differ."""
    show("Start", start.measure())
    show("Reading 2,000 tasks, 1,000 days, 50,000 entries", reading.measure())
    show("The board over a long logbook", long_log.measure())
    if os.name == "posix":
        from tests.bench import (  # a pseudo-terminal, or os.wait4
            arrow,
            growth,
            record,
            screens,
            series,
        )

        show("Screens", screens.measure())
        show("An arrow key", arrow.measure())
        show("1,000, 2,000 and 4,000 tasks, three links each", growth.measure())
        show("5,000 tasks by series / written one by one", series.measure())
        show("10,000 findings and 2,000 pieces / the same days without", record.measure())


if __name__ == "__main__":
    main()
