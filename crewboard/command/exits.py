"""What a command tells the shell when it ends."""

from __future__ import annotations

from enum import IntEnum


class Exit(IntEnum):
    """Exit codes; they stay the same from version to version."""

    FINE = 0
    REFUSED = 1  # refused, not found, or mistakes in the folder
    WRONG_CALL = 2  # the command was typed wrongly
    DISK = 3  # the disk or the system would not let us read or write
    STOPPED = 130  # Ctrl-C, as shells have it: 128 + SIGINT
