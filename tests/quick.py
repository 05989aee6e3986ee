"""What the short form does once, or not at all, so that the whole of it takes minutes.

Everything here changes how long a test takes and nothing that it sees. The long form does without.
"""

from __future__ import annotations

import gc
import os
import sys
from functools import cache
from pathlib import Path

from crewboard.folder.disk.watch import Trace
from crewboard.folder.read import folder
from crewboard.folder.read.file_read import NO_FILE, FileRead
from crewboard.folder.read.one_file import read_bytes

SAMPLE = Path(__file__).parent.parent / "sample_project"


def be_quick() -> None:
    """Nothing waits for the platter of a drive, and the sample's own files are read once."""
    os.fsync = lambda fd: None  # killed processes are tried, power cuts are not
    folder.read_bytes = _read_once  # type: ignore[attr-defined]


def _read_once(path: str, trace: Trace, data: bytes) -> FileRead:
    """As `read_bytes`, which is a function of path and bytes alone."""
    if data and data == _in_the_sample(path):
        return _as_in_the_sample(path)._replace(trace=trace)
    return read_bytes(path, trace, data)


@cache
def _in_the_sample(path: str) -> bytes:
    try:
        return (SAMPLE / path).read_bytes()
    except OSError:  # none of that name, or tests that play another user of this machine
        return b""


@cache
def _as_in_the_sample(path: str) -> FileRead:
    return read_bytes(path, NO_FILE, _in_the_sample(path))


def compile_once() -> None:
    """Many tests start the program as a process of its own: it is not compiled each time."""
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    sys.dont_write_bytecode = False


def look_for_circles_seldom() -> None:
    """What was imported stays: no look for circles of objects goes through it again."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(400_000, 10, 10)
