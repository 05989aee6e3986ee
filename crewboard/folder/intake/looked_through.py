"""What there is to take in: the files that are named, and those of the folders that are named."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from crewboard.folder.intake.what_it_is import FIRST_BYTES, FileSort, sort_of
from crewboard.logbook.record.seen import PICTURES, RECORDINGS

MOST = 500_000_000
"""Bytes from which on a file is taken in only when that is asked for: a long film fills a stick."""
PLACES = (PICTURES.rstrip("/"), RECORDINGS.rstrip("/"))
_FLAGS = os.O_RDONLY | getattr(os, "O_BINARY", 0) | getattr(os, "O_NONBLOCK", 0)
_FLAGS |= getattr(os, "O_NOFOLLOW", 0)


class ToTakeIn(NamedTuple):
    """A file that can be taken in."""

    path: str
    sort: FileSort
    bytes: int
    mtime: float

    @property
    def name(self) -> str:
        return os.path.basename(self.path)


class PassedOver(NamedTuple):
    """What is not taken in, and why. `here` is its path in the folder where it is there already,
    `disk` whether the disk hindered it, `large` whether it would be taken in when asked for."""

    path: str
    why: str
    here: str = ""
    disk: bool = False
    large: bool = False


def looked_through(
    root: str, sources: Sequence[str], *, large: bool = False
) -> Iterator[ToTakeIn | PassedOver]:
    """Each file of the sources, once, in order; what cannot be taken in with its reason.

    Hidden files are left out. Links are not followed but where a folder is named by one. With
    `large` a file may have more than `MOST` bytes.
    """
    here, seen = _real(root), set[str]()
    for source in sources:
        for path in _paths(source, here):
            if isinstance(path, PassedOver):
                yield path
            elif (real := _real(path)) not in seen:
                seen.add(real)
                yield _looked_at(path, large=large)


def _paths(source: str, here: str) -> Iterator[str | PassedOver]:
    try:
        real = _real(source)
        if not source:
            yield PassedOver(source, "there is no such file")
        elif real == here:
            yield PassedOver(source, "it is the vehicle's own folder")
        elif any(_holds(os.path.join(here, place), real) for place in PLACES):
            yield PassedOver(source, "it is in its place in the vehicle's folder already")
        elif os.path.isdir(source):
            yield from _files_of(source, here)
        else:
            yield source
    except ValueError:  # a zero character in the name
        yield PassedOver(source, "there is no such file")


def _files_of(folder: str, here: str) -> Iterator[str | PassedOver]:
    """The files of a folder and those below it, but for the vehicle's own folder."""
    try:
        with os.scandir(folder) as listing:
            entries = sorted(listing, key=lambda entry: entry.name)
    except OSError as error:
        yield PassedOver(folder, f"it cannot be read: {error.strerror}", disk=True)
        return
    for entry in entries:
        if entry.name.startswith("."):
            continue
        if not entry.is_dir(follow_symlinks=False):
            yield entry.path
        elif _real(entry.path) == here:
            yield PassedOver(entry.path, "it is the vehicle's own folder")
        else:
            yield from _files_of(entry.path, here)


def _holds(folder: str, path: str) -> bool:
    return os.path.commonpath((folder, path)) == folder if _same_drive(folder, path) else False


def _real(path: str) -> str:
    """The path with its links followed, as far as the system lets them be read."""
    try:
        return os.path.realpath(path)
    except OSError:
        return os.path.abspath(path)


def _same_drive(one: str, other: str) -> bool:
    return os.path.splitdrive(one)[0] == os.path.splitdrive(other)[0]


def _looked_at(path: str, *, large: bool) -> ToTakeIn | PassedOver:
    try:
        if os.path.islink(path):
            return PassedOver(path, f"it is a link; name what it leads to ({_real(path)})")
        kind = os.lstat(path)
        if not stat.S_ISREG(kind.st_mode):
            return PassedOver(path, f"it is {_odd(kind.st_mode)}, not a file")
        if not kind.st_size:
            return PassedOver(path, "it is empty")
        if kind.st_size >= MOST and not large:
            return PassedOver(path, too_large(kind.st_size), large=True)
        sort = sort_of(_first_bytes(path))
    except FileNotFoundError:
        return PassedOver(path, "there is no such file")
    except OSError as error:
        return PassedOver(path, f"it cannot be read: {error.strerror}", disk=True)
    if sort is None:
        return PassedOver(path, "it is neither a picture nor sound nor a film, by what is in it")
    return ToTakeIn(path, sort, kind.st_size, kind.st_mtime)


def too_large(size: int) -> str:
    """That a file is so large that it has to be asked for."""
    return (
        f"it has {size // 1_000_000:,} MB, and files of {MOST // 1_000_000} MB and more are taken "
        "in only when that is asked for"
    )


def _odd(mode: int) -> str:
    if stat.S_ISFIFO(mode):
        return "a pipe"
    if stat.S_ISSOCK(mode):
        return "a socket"
    return "a folder" if stat.S_ISDIR(mode) else "a device"


def opened(path: str) -> int:
    """A descriptor of the file's bytes: no link is followed and no pipe waited for."""
    descriptor = os.open(path, _FLAGS)
    if not stat.S_ISREG(os.fstat(descriptor).st_mode):  # something else lies there by now
        os.close(descriptor)
        raise OSError(22, "it is no ordinary file")
    return descriptor


def _first_bytes(path: str) -> bytes:
    descriptor = opened(path)
    try:
        return os.read(descriptor, FIRST_BYTES)
    finally:
        os.close(descriptor)
