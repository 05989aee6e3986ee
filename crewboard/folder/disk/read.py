"""Reading a file's bytes without being led astray: no pipe that never ends, no link out."""

from __future__ import annotations

import errno
import os
import stat

from crewboard.folder.toml.text import MOST_BYTES


class TooLarge(OSError):
    """The file has more bytes than are read of its kind."""


def read_file(path: str | os.PathLike[str]) -> bytes | None:
    """All bytes of an ordinary file, None where there is none of that name. Raises OSError.

    A pipe or device raises at once instead of waiting or never ending, and a file larger than
    those of a vehicle's folder may be (`MOST_BYTES`) before any of it is read.
    """
    return _read(path)


def read_at_most(path: str | os.PathLike[str], root: str | os.PathLike[str]) -> bytes | None:
    """As `read_file`, for a file that may be anything: no link out of `root` is followed."""
    if os.path.islink(path):
        real_root = os.path.realpath(root)
        real = os.path.realpath(path)
        if os.path.commonpath((real, real_root)) != real_root:
            raise OSError(errno.EACCES, "it is a link that leads out of the folder")
    return _read(path)


def must_not_be_larger(size: int, most: int, path: str | os.PathLike[str]) -> None:
    """Raises `TooLarge` with the sentence where a file has more bytes than are read of its kind."""
    if size > most:
        sentence = (
            f"it is {size / 1e6:.1f} MB long, more than the {most / 1e6:.0f} MB that are read"
        )
        raise TooLarge(errno.EFBIG, sentence, os.fspath(path))


def _read(path: str | os.PathLike[str]) -> bytes | None:
    flags = os.O_RDONLY | getattr(os, "O_BINARY", 0) | getattr(os, "O_NONBLOCK", 0)
    try:
        descriptor = os.open(path, flags)
    except FileNotFoundError:
        return None
    try:
        kind = os.fstat(descriptor)
        if stat.S_ISDIR(kind.st_mode):
            raise IsADirectoryError(errno.EISDIR, "it is a folder")
        if not stat.S_ISREG(kind.st_mode):
            raise OSError(errno.EINVAL, "it is not an ordinary file")
        must_not_be_larger(kind.st_size, MOST_BYTES, path)
        return _all(descriptor, kind.st_size, path)
    finally:
        os.close(descriptor)


def _all(descriptor: int, size: int, path: str | os.PathLike[str]) -> bytes:
    parts, length = list[bytes](), 0
    while part := os.read(descriptor, max(size - length, 0) + 4096):
        parts.append(part)
        length += len(part)
        must_not_be_larger(length, MOST_BYTES, path)  # it may have grown meanwhile
    return b"".join(parts)
