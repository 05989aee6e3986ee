"""What a command says: data on the standard output, talk on the standard error.

Every line passes `legible`, so that nothing typed into a file can steer the terminal. A stream that
takes nothing (closed, full, its reader gone) ends no command: what is to be done is done, and
`ended` tells at the end what that makes of the exit code.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterable, Mapping
from contextlib import suppress
from typing import IO, Any

from crewboard.command.exits import Exit
from crewboard.legible import legible

NARROWEST, WIDEST = 40, 100  # columns a person reads with ease
_NOBODY = BrokenPipeError()  # a stream that was closed from the start has no reader either


class Output:
    """The two streams of one run."""

    def __init__(self) -> None:
        self._lost: Exception | None = None  # why the standard output takes nothing any more
        self.kept: list[str] = []  # what was written to the disk so far, in lines

    def line(self, text: str = "") -> None:
        """A line of data."""
        self._put(legible(text) + "\n")

    def lines(self, texts: Iterable[str]) -> None:
        self._put("".join(legible(text) + "\n" for text in texts))

    def keeps(self, texts: Iterable[str], *, also: Mapping[str, Any] | None = None) -> None:
        """What was written to the disk, in lines, or `also` as one JSON object in their place.

        Where the standard output takes nothing, the lines are said on the standard error.
        """
        lines = list(texts)
        self.kept += lines or [""]
        if also is None:
            self.lines(lines)
        else:
            self.json(also)

    def text(self, text: str) -> None:
        """Text that was made for a file: its line ends stay as they are."""
        self._flush()
        if self._lost is None and hasattr(sys.stdout, "buffer"):
            self._tried(lambda: sys.stdout.buffer.write(text.encode("utf-8", "backslashreplace")))
        else:
            self._put(text)

    def json(self, form: Mapping[str, Any]) -> None:
        """One JSON object, in ASCII, so that it survives every stream."""
        import json

        self._put(json.dumps(form, indent=2) + "\n")

    def talk(self, text: str) -> None:
        """A line for the person at the keyboard, where there is one."""
        self._flush()
        if sys.stderr is None:
            return
        try:
            sys.stderr.write(legible(text) + "\n")
            sys.stderr.flush()
        except (OSError, ValueError):
            _drop(sys.stderr)

    def ended(self, code: Exit) -> Exit:
        """The exit code, now that everything was said, or could not be.

        What was kept is kept, whoever heard of it. A reader who went away wanted no more; what was
        to be seen and could not be written is a trouble of the disk.
        """
        self._flush()
        if self._lost is None:
            return code
        if isinstance(self._lost, BrokenPipeError):
            trouble = "nobody read the standard output"
        else:
            trouble = f"standard output: {getattr(self._lost, 'strerror', '') or self._lost}"
        if self.kept:
            self.talk(f"crewboard: {trouble}; saved all the same:")
            for line in filter(None, self.kept):
                self.talk(line)
            return code
        if isinstance(self._lost, BrokenPipeError):
            return code
        self.talk(f"crewboard: {trouble}")
        return Exit.DISK if code is Exit.FINE else code

    def _put(self, text: str) -> None:
        self._tried(lambda: sys.stdout.write(text))

    def _flush(self) -> None:
        self._tried(lambda: sys.stdout.flush())

    def _tried(self, speak: Callable[[], object]) -> None:
        if self._lost is not None:
            return
        if sys.stdout is None:
            self._lost = _NOBODY
            return
        try:
            speak()
        except (OSError, ValueError) as error:
            self._lost = error
            _drop(sys.stdout)

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


def _drop(stream: IO[str]) -> None:
    """What still waits to be written would complain again when the program ends."""
    with suppress(OSError, ValueError, AttributeError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())
        os.close(nowhere)


def forgiving_streams() -> None:
    """A stream that cannot show a character shows its number, instead of ending the program.

    The place of a stream that was closed is taken: the next file to be opened would get its number,
    and what a library says there would land in it.
    """
    for number in range(3):
        try:
            os.fstat(number)
        except OSError:
            with suppress(OSError):  # the lowest number that is free is given: this one
                os.set_inheritable(os.open(os.devnull, os.O_RDWR), True)
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="backslashreplace")
