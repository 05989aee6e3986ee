"""`python -m crewboard`, and the console script."""

from __future__ import annotations

import sys
from collections.abc import Sequence


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command line; returns the exit code."""
    from crewboard.command.run import main as run

    return run(argv)


if __name__ == "__main__":
    sys.exit(main())
