"""Copying a file into the folder: whole or not at all, its bytes as they are, hashed on the way."""

from __future__ import annotations

import errno
import os
from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from hashlib import sha256
from typing import NamedTuple

from crewboard.folder.cannot import NotKept
from crewboard.folder.disk.lock import folder_lock
from crewboard.folder.disk.notkept import not_kept
from crewboard.folder.disk.part import name_for_part, sweep
from crewboard.folder.disk.shared import take_from_folder
from crewboard.folder.disk.write import flush_folder, inside, make_folders, put_new
from crewboard.folder.intake.exif import MOST as FRONT
from crewboard.folder.intake.film import recorded_at
from crewboard.folder.intake.looked_through import ToTakeIn, opened
from crewboard.folder.intake.safe_name import as_one, numbered

ROOM = 1_000_000
"""Bytes that stay free on the disk: the entries, which come last, need them more."""
_CHUNK = 1 << 20


class ReadThrough(NamedTuple):
    """A file's bytes in short: their SHA-256, and the first of them."""

    sha256: str
    front: bytes


class Copied(NamedTuple):
    """Where the bytes lie within the folder, and whether they were put there just now."""

    path: str
    new: bool


def read_through(path: str) -> ReadThrough:
    """Read the file from end to end. Raises `NotKept` where it cannot be read."""
    return _through(path)


def recorded_in(path: str) -> float | None:
    """When a film says that it was recorded, in seconds of the epoch; None where it does not, or
    is no film of that kind."""
    with suppress(OSError), os.fdopen(opened(path), "rb") as file:
        return recorded_at(file)
    return None


def copied(file: ToTakeIn, sha: str, root: str, folder: str, name: str) -> Copied:
    """Copy the file into `folder`, a path within `root`.

    Where a file of that name lies there it gets a number, and where that one has the same bytes
    (an intake was cut off before its entries were written), it is left as it is. Raises `NotKept`.
    """
    target = inside(os.path.join(root, folder, name), root)
    above = os.path.dirname(target)
    try:
        if same := _already(above, name, file.bytes, sha):
            return Copied(f"{folder}/{same}", new=False)
        _leave_room(root, file.bytes)
        make_folders(above, os.path.realpath(root))
        sweep(above)
        part = name_for_part(above)
        try:
            _write(part, above, file, sha)
            placed = _placed(part, above, name, root)
        except BaseException:
            with suppress(OSError):
                os.unlink(part)
            raise
        flush_folder(above)
    except OSError as error:
        raise not_kept(target, error) from error
    return Copied(f"{folder}/{placed}", new=True)


def without_entries(root: str, paths: Iterable[str]) -> None:
    """Take copies away again, as far as the disk lets it: their entries could not be written."""
    for path in paths:
        with suppress(OSError, NotKept):
            os.unlink(inside(os.path.join(root, path), root))


def _already(above: str, name: str, size: int, sha: str) -> str:
    """The file of that name, or of that name with a number, that has these bytes."""
    for there in _numbered_there(above, name):
        path = os.path.join(above, there)
        if os.path.islink(path) or os.path.getsize(path) != size:
            continue
        with suppress(NotKept):
            if _through(path).sha256 == sha:
                return there
    return ""


def _numbered_there(above: str, name: str) -> Iterable[str]:
    there, number = _names(above), 1
    while (one := as_one(numbered(name, number))) in there:
        yield there[one]
        number += 1


def _names(above: str) -> Mapping[str, str]:
    try:
        return {as_one(name): name for name in os.listdir(above)}
    except FileNotFoundError:
        return {}


def _leave_room(root: str, size: int) -> None:
    if hasattr(os, "statvfs"):
        disk = os.statvfs(root)
        if disk.f_bavail * disk.f_frsize < size + ROOM:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def _write(part: str, above: str, file: ToTakeIn, sha: str) -> None:
    """Copy the bytes into an unfinished file, and see that they are those that were looked at."""
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL
    flags |= getattr(os, "O_BINARY", 0) | getattr(os, "O_NOFOLLOW", 0)
    into = os.open(part, flags, 0o666)
    try:
        take_from_folder(into, above)
        if _through(file.path, into).sha256 != sha:
            raise NotKept(file.path, "it is being changed by another program", "try again")
        with suppress(OSError):
            os.utime(
                part, (file.mtime, file.mtime)
            )  # a camera's own time, where it is all there is
        os.fsync(into)
    finally:
        os.close(into)


def _through(path: str, into: int | None = None) -> ReadThrough:
    """Read a file from end to end, and write it `into` another meanwhile."""
    total, front = sha256(), b""
    for chunk in _chunks(path):
        total.update(chunk)
        if len(front) < FRONT:
            front += chunk[: FRONT - len(front)]
        rest = memoryview(chunk)
        while rest and into is not None:
            rest = rest[os.write(into, rest) :]
    return ReadThrough(total.hexdigest(), front)


def _chunks(path: str) -> Iterator[bytes]:
    """Raises `NotKept`, so that nobody takes trouble with this file for trouble with another."""
    try:
        descriptor = opened(path)
    except OSError as error:
        raise _unread(path, error) from None
    try:
        while True:
            try:
                chunk = os.read(descriptor, _CHUNK)
            except OSError as error:
                raise _unread(path, error) from None
            if not chunk:
                return
            yield chunk
    finally:
        with suppress(OSError):  # it was only read
            os.close(descriptor)


def _unread(path: str, error: OSError) -> NotKept:
    return NotKept(path, f"it cannot be read: {error.strerror or error}", "")


def _placed(part: str, above: str, name: str, root: str) -> str:
    """Give the finished file the first number under which there is none; its name."""
    with folder_lock(root):
        number = 1
        while True:
            one = numbered(name, number)
            if as_one(one) not in _names(above):
                with suppress(FileExistsError):
                    put_new(part, os.path.join(above, one))
                    return one
            number += 1
