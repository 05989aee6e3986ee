"""What a command says: data on the standard output, talk on the standard error.

Every line passes `legible`, so that nothing typed into a file can steer the terminal.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Mapping
from typing import Any

from crewboard.legible import legible

NARROWEST, WIDEST = 40, 100  # columns a person reads with ease


class Output:
    """The two streams of one run."""

    def line(self, text: str = "") -> None:
        """A line of data."""
        sys.stdout.write(legible(text) + "\n")

    def lines(self, texts: Iterable[str]) -> None:
        sys.stdout.writelines(legible(text) + "\n" for text in texts)

    def text(self, text: str) -> None:
        """Text that was made for a file: its line ends stay as they are."""
        sys.stdout.flush()
        stream = getattr(sys.stdout, "buffer", None)
        if stream is None:
            sys.stdout.write(text)
        else:
            stream.write(text.encode("utf-8", "backslashreplace"))

    def json(self, form: Mapping[str, Any]) -> None:
        """One JSON object, in ASCII, so that it survives every stream."""
        import json

        sys.stdout.write(json.dumps(form, indent=2) + "\n")

    def talk(self, text: str) -> None:
        """A line for the person at the keyboard."""
        sys.stdout.flush()
        if sys.stderr is not None:
            sys.stderr.write(legible(text) + "\n")

    @property
    def plain(self) -> bool:
        """Whether the stream cannot show bars of blocks, only ASCII."""
        encoding = (getattr(sys.stdout, "encoding", "") or "").lower().replace("-", "")
        return not encoding.startswith("utf")

    @property
    def width(self) -> int:
        """Columns to write in: COLUMNS, the terminal's own, or 80."""
        columns = os.environ.get("COLUMNS", "")
        if columns.isascii() and columns.isdigit():
            wide = int(columns[:6])
        else:
            try:
                wide = os.get_terminal_size(sys.stdout.fileno()).columns
            except (OSError, ValueError, AttributeError):
                wide = 80
        return min(max(wide, NARROWEST), WIDEST)


def forgiving_streams() -> None:
    """A stream that cannot show a character shows its number, instead of ending the program."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="backslashreplace")
