"""Files are written whole or not at all.

A new file beside the old one, flushed to the disk, then put in its place in one step, then the
folder flushed too: whoever reads, and whenever the power fails, finds the old bytes or the new.
The caller holds the folder's lock (`lock.folder_lock`).
"""

from __future__ import annotations

import errno
import os
import stat
from collections.abc import Callable
from contextlib import suppress

from crewboard.folder.cannot import ChangedMeanwhile, NotKept
from crewboard.folder.disk.notkept import not_kept
from crewboard.folder.disk.part import name_for_part, sweep
from crewboard.folder.disk.read import read_file

_NOT_SUPPORTED = frozenset(
    {errno.EINVAL, errno.ENOTSUP, errno.EOPNOTSUPP, errno.EPERM, errno.ENOSYS, errno.EACCES}
)
_NO_LINKS = frozenset({errno.EPERM, errno.ENOTSUP, errno.EOPNOTSUPP, errno.ENOSYS, errno.EMLINK})


def replace_file(
    path: str | os.PathLike[str],
    data: bytes,
    *,
    expected: bytes | None,
    root: str | os.PathLike[str],
) -> None:
    """Put `data` in the file's place, at once and for good.

    `expected` is what the file holds now (None: there is no such file); where it holds anything
    else `ChangedMeanwhile` is raised and nothing written. Links are followed, but not out of
    `root`; missing folders below `root` are made. Mode and line ends are kept. Raises `NotKept`.
    """
    target = inside(path, root)
    try:
        _look(target, expected)
        folder = os.path.dirname(target)
        if expected is None:
            _make_folders(folder, os.path.realpath(root))
        sweep(folder)
        part = _write_part(target, data, like=target if expected is not None else None)
        try:
            _look(target, expected)  # an editor may have saved while the disk took our bytes
            _put_in_place(part, target, new=expected is None)
        except BaseException:
            _quietly(lambda: os.unlink(part))
            raise
    except OSError as error:
        raise not_kept(path, error) from error
    _make_last(path, target)


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
        "Only files inside the folder are written; take the link or the dots out of the path.",
    )


def _look(target: str, expected: bytes | None) -> None:
    on_disk = read_file(target)
    if on_disk != expected:
        raise ChangedMeanwhile(target, on_disk)
    if expected is not None and not os.access(target, os.W_OK):
        # Replacing needs only the folder's permission; whoever marked the file meant the file.
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))


def _write_part(target: str, data: bytes, *, like: str | None) -> str:
    part = name_for_part(os.path.dirname(target))
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL
    flags |= getattr(os, "O_BINARY", 0) | getattr(os, "O_NOFOLLOW", 0)
    descriptor = os.open(part, flags, 0o666)
    try:
        try:
            if like is not None:
                _copy_mode(like, descriptor)
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


def _copy_mode(like: str, descriptor: int) -> None:
    if not hasattr(os, "fchmod"):
        return
    old, new = os.stat(like), os.fstat(descriptor)
    if old.st_gid != new.st_gid:  # a shared folder's group keeps its rights
        _quietly(lambda: os.fchown(descriptor, -1, old.st_gid))
    if stat.S_IMODE(old.st_mode) != stat.S_IMODE(new.st_mode):
        try:
            os.fchmod(descriptor, stat.S_IMODE(old.st_mode))
        except OSError as error:  # sticks formatted for Windows keep no modes
            if error.errno not in _NOT_SUPPORTED:
                raise


def _put_in_place(part: str, target: str, *, new: bool) -> None:
    if not new:
        os.replace(part, target)
        return
    if os.name == "nt":
        try:
            os.rename(part, target)  # refuses where the target exists
        except FileExistsError:
            raise ChangedMeanwhile(target, read_file(target)) from None
        return
    try:
        os.link(part, target, follow_symlinks=False)
    except FileExistsError:
        raise ChangedMeanwhile(target, read_file(target)) from None
    except OSError as error:
        if error.errno not in _NO_LINKS:
            raise
        # Drives without hard links (most USB sticks): the folder's lock keeps our own writers
        # apart, and the look just now leaves an editor the time of one system call.
        _look(target, None)
        os.replace(part, target)
        return
    _quietly(lambda: os.unlink(part))


def _make_folders(folder: str, root: str) -> None:
    missing = list[str]()
    while folder != root and not os.path.isdir(folder):
        missing.append(folder)
        folder = os.path.dirname(folder)
    for new_folder in reversed(missing):
        try:
            os.mkdir(new_folder)
        except FileExistsError:
            continue
        flush_folder(os.path.dirname(new_folder))


def flush_folder(folder: str) -> None:
    """Make the folder's names outlast a power cut, where the system can. Raises OSError."""
    if os.name == "nt":
        return
    descriptor = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(descriptor)
    except OSError as error:
        if error.errno not in _NOT_SUPPORTED:
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
