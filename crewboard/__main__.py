"""`python -m crewboard`, and the console script."""

from __future__ import annotations

import sys
from collections.abc import Sequence


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command line; returns the exit code."""
    try:
        from crewboard.command.run import main as run

        return run(argv)
    except KeyboardInterrupt:  # before the run could begin, or after it ended
        return 130  # as `command.exits.Exit.STOPPED`


if __name__ == "__main__":
    sys.exit(main())
