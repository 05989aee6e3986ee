"""Files are written whole or not at all.

A new file beside the old one, flushed to the disk, then put in its place in one step, then the
folder flushed too: whoever reads, and whenever the power fails, finds the old bytes or the new.
The caller holds the folder's lock (`lock.folder_lock`).
"""

from __future__ import annotations

import errno
import os
from collections.abc import Callable
from contextlib import suppress

from crewboard.folder.cannot import ChangedMeanwhile, NotKept
from crewboard.folder.disk.notkept import not_kept
from crewboard.folder.disk.part import name_for_part, sweep
from crewboard.folder.disk.read import read_file
from crewboard.folder.disk.shared import NOT_SUPPORTED, keep_as, take_from_folder

_NO_LINKS = frozenset({errno.EPERM, errno.ENOTSUP, errno.EOPNOTSUPP, errno.ENOSYS, errno.EMLINK})


def replace_file(
    path: str | os.PathLike[str],
    data: bytes,
    *,
    expected: bytes | None,
    root: str | os.PathLike[str],
    run: bool = True,
) -> None:
    """Put `data` in the file's place, at once and for good.

    `expected` is what the file holds now (None: there is no such file); where it holds anything
    else `ChangedMeanwhile` is raised and nothing written. Links are followed, but not out of
    `root`; missing folders below `root` are made. Group and rights are kept (without `run` not the
    right to run it), and those of what is new are its folder's (`shared`). Raises `NotKept`.
    """
    target = inside(path, root)
    try:
        _look(target, expected)
        folder = os.path.dirname(target)
        if expected is None:
            make_folders(folder, os.path.realpath(root))
        sweep(folder)
        part = write_part(folder, data, in_place_of=target if expected is not None else "", run=run)
        try:
            _look(target, expected)  # an editor may have saved while the disk took our bytes
            _put_in_place(part, target, new=expected is None)
        except BaseException:
            _quietly(lambda: os.unlink(part))
            raise
    except OSError as error:
        raise not_kept(path, error) from error
    _make_last(path, target)


def make_empty(path: str) -> None:
    """Make an empty file that means nothing, where there is none yet. Raises OSError."""
    part = write_part(os.path.dirname(path), b"")
    try:
        with suppress(ChangedMeanwhile):  # somebody else made it just now
            _put_in_place(part, path, new=True)
    finally:
        _quietly(lambda: os.unlink(part))


def remove_file(
    path: str | os.PathLike[str], *, expected: bytes, root: str | os.PathLike[str]
) -> None:
    """Take the file away if it still holds `expected`. Raises as `replace_file` does."""
    target = inside(path, root)
    try:
        _look(target, expected)
        os.unlink(target)
    except OSError as error:
        raise not_kept(path, error) from error
    _make_last(path, target)


def inside(path: str | os.PathLike[str], root: str | os.PathLike[str]) -> str:
    """The path with its links followed. Raises `NotKept` where it leads out of `root`."""
    try:
        real_root = os.path.realpath(root, strict=True)
    except OSError as error:
        raise not_kept(root, error) from error
    try:
        real = os.path.realpath(path)
        if real != real_root and os.path.commonpath((real, real_root)) == real_root:
            return real
    except (OSError, ValueError):  # another drive, or a zero character in the name
        pass
    raise NotKept(
        path,
        "the path leads out of the folder",
        "Only files inside the folder are written; remove the link or the dots from the path.",
    )


def _look(target: str, expected: bytes | None) -> None:
    on_disk = read_file(target)
    if on_disk != expected:
        raise ChangedMeanwhile(target, on_disk)
    if expected is not None and not os.access(target, os.W_OK):
        # Replacing needs only the folder's permission; whoever marked the file meant the file.
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))


def write_part(folder: str, data: bytes, *, in_place_of: str = "", run: bool = True) -> str:
    """The path of an unfinished file in the folder that holds `data` for good. Raises OSError."""
    part = name_for_part(folder)
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL
    flags |= getattr(os, "O_BINARY", 0) | getattr(os, "O_NOFOLLOW", 0)
    descriptor = os.open(part, flags, 0o666)
    try:
        try:
            _own(descriptor, folder, in_place_of, run)
            rest = memoryview(data)
            while rest:
                rest = rest[os.write(descriptor, rest) :]
            os.fsync(descriptor)
        finally:
            os.close(descriptor)
    except BaseException:
        _quietly(lambda: os.unlink(part))
        raise
    return part


def _own(descriptor: int, folder: str, old_file: str, run: bool) -> None:
    if not old_file:
        take_from_folder(descriptor, folder)
    elif not keep_as(descriptor, old_file, run=run):
        raise NotKept(
            old_file,
            "it belongs to a group that you are not in, and would be lost to that group",
            "Ask its owner to give the file to the folder's group (chgrp).",
        )


def _put_in_place(part: str, target: str, *, new: bool) -> None:
    if not new:
        os.replace(part, target)
        return
    try:
        put_new(part, target)
    except FileExistsError:
        raise ChangedMeanwhile(target, read_file(target)) from None


def put_new(part: str, target: str) -> None:
    """Put a finished file in a place where there is none. Raises FileExistsError where there is
    one, whatever it is, and OSError; the caller then takes the unfinished file away."""
    if os.name == "nt":
        os.rename(part, target)  # refuses where the target exists
        return
    try:
        os.link(part, target, follow_symlinks=False)
    except OSError as error:
        if error.errno not in _NO_LINKS:
            raise
        # Drives without hard links (most USB sticks): the folder's lock keeps our own writers
        # apart, and the look just now leaves an editor the time of one system call.
        if os.path.lexists(target):
            raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), target) from None
        os.replace(part, target)
        return
    _quietly(lambda: os.unlink(part))


def make_folders(folder: str, root: str) -> None:
    """Make the folder and what is missing of those above it, below `root`. Raises OSError."""
    missing = list[str]()
    while folder != root and not os.path.isdir(folder):
        missing.append(folder)
        folder = os.path.dirname(folder)
    for new_folder in reversed(missing):
        make_folder(new_folder)
        flush_folder(os.path.dirname(new_folder))


def make_folder(path: str) -> None:
    """Make one folder, at once with the rights that it takes from the one above. Raises OSError.

    Where somebody else makes it at the same moment, theirs stays.
    """
    above = os.path.dirname(path)
    if os.name == "nt":
        with suppress(FileExistsError):
            os.mkdir(path)
        return
    part = name_for_part(above)
    os.mkdir(part)
    try:
        descriptor = os.open(part, os.O_RDONLY | os.O_DIRECTORY)
        try:
            take_from_folder(descriptor, above)
        finally:
            os.close(descriptor)
        os.rename(part, path)
    except BaseException as error:
        _quietly(lambda: os.rmdir(part))
        if not (isinstance(error, OSError) and os.path.isdir(path)):
            raise


def flush_folder(folder: str) -> None:
    """Make the folder's names outlast a power cut, where the system can. Raises OSError."""
    if os.name == "nt":
        return
    descriptor = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(descriptor)
    except OSError as error:
        if error.errno not in NOT_SUPPORTED:
            raise
    finally:
        os.close(descriptor)


def _make_last(path: str | os.PathLike[str], target: str) -> None:
    try:
        flush_folder(os.path.dirname(target))
    except OSError as error:
        raise not_kept(path, error, doubtful=True) from error


def _quietly(act: Callable[[], object]) -> None:
    with suppress(OSError):
        act()
