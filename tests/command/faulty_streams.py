"""Calling commands while a stream is closed, full, or has lost its reader."""

from __future__ import annotations

import io
import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO, NamedTuple

from crewboard.command.run import main


class Fault(NamedTuple):
    """What is wrong with a stream, and whether somebody wants what it carries."""

    open: Callable[[], IO[str] | None]
    wanted: bool


class Ended(NamedTuple):
    """How a call ended: its exit code, and what it said on each stream that could be read."""

    code: int
    out: str
    err: str


class Read(io.StringIO):
    """A stream whose text can be read after it was closed."""

    text = ""

    def close(self) -> None:
        self.text = self.getvalue()
        super().close()


def reader_gone() -> IO[str]:
    reading, writing = os.pipe()
    os.close(reading)
    return os.fdopen(writing, "w")


def opened(device: str, way: int) -> IO[str]:
    return os.fdopen(os.open(device, way), "w")


FAULTS = {
    "closed": Fault(lambda: None, wanted=False),
    "gone": Fault(reader_gone, wanted=False),
    "full": Fault(lambda: opened("/dev/full", os.O_WRONLY), wanted=True),
    "for reading": Fault(lambda: opened(os.devnull, os.O_RDONLY), wanted=True),
}
NONE = Fault(Read, wanted=True)


@contextmanager
def streams(out: IO[str] | None, err: IO[str] | None) -> Iterator[None]:
    before = sys.stdout, sys.stderr
    sys.stdout, sys.stderr = out, err
    try:
        yield
    finally:
        sys.stdout, sys.stderr = before
        for stream in (out, err):
            if stream is not None:
                stream.close()


def call(typed: list[str], out: str = "", err: str = "") -> Ended:
    """The call, with a fault at its output and perhaps one at its errors."""
    pair = FAULTS.get(out, NONE).open(), FAULTS.get(err, NONE).open()
    with streams(*pair):
        code = main(typed)
    return Ended(code, *(getattr(stream, "text", "") for stream in pair))


def state(folder: Path) -> dict[str, bytes]:
    """All that the folder holds, but for the tool's own lock and copies."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file() and ".crewboard" not in str(path.relative_to(folder))
    }
