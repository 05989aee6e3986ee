"""Reading a file's bytes without being led astray: no pipe that never ends, no link out."""

from __future__ import annotations

import errno
import os
import stat

from crewboard.folder.toml.text import MOST_BYTES


def read_file(path: str | os.PathLike[str]) -> bytes | None:
    """All bytes of an ordinary file, None where there is none of that name. Raises OSError.

    A pipe or device raises at once instead of waiting or never ending.
    """
    return _read(path, None)


def read_at_most(path: str | os.PathLike[str], root: str | os.PathLike[str]) -> bytes | None:
    """As `read_file`, for a file that may be anything: no link out of `root` is followed.

    Of a file larger than a TOML file may be (`MOST_BYTES`), no more is read than tells so.
    """
    if os.path.islink(path):
        real_root = os.path.realpath(root)
        real = os.path.realpath(path)
        if os.path.commonpath((real, real_root)) != real_root:
            raise OSError(errno.EACCES, "it is a link that leads out of the folder")
    return _read(path, MOST_BYTES + 1)


def _read(path: str | os.PathLike[str], most: int | None) -> bytes | None:
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
        return _all(descriptor, kind.st_size, most)
    finally:
        os.close(descriptor)


def _all(descriptor: int, size: int, most: int | None) -> bytes:
    parts, length = list[bytes](), 0
    size = size if most is None else min(size, most)
    while part := os.read(descriptor, max(size - length, 0) + 4096):
        parts.append(part)
        length += len(part)
        if most is not None and length >= most:
            break
    return b"".join(parts)
