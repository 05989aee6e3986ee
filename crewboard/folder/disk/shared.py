"""Whose a file is: what a new one takes from its folder, and what one in another's place keeps.

A crew's folder is shared by giving it a group. Whoever writes first, and whatever rights their
system gives to new files (umask), all the others of the group must be able to go on. So a new file
or folder takes owner (as far as the system allows it), group and rights from the folder it is made
in, and bytes put in the place of old ones keep those of the old file, access lists included.
"""

from __future__ import annotations

import errno
import os
import stat
from collections.abc import Callable
from contextlib import suppress

NOT_SUPPORTED = frozenset(
    {errno.EINVAL, errno.ENOTSUP, errno.EOPNOTSUPP, errno.EPERM, errno.ENOSYS, errno.EACCES}
)
_ACCESS_LIST = "system.posix_acl_access"
_LIST_FOR_NEW = "system.posix_acl_default"  # where a folder has one, the system itself applies it
_RUN = 0o111


def is_shared(folder: os.stat_result) -> bool:
    """Whether a folder was given to a group. One like `/tmp`, where all may make files and none
    may replace another's, was not: what is made there is as the system makes it."""
    handed_on = bool(folder.st_mode & stat.S_ISGID)
    return handed_on or bool(folder.st_mode & stat.S_IWGRP and not folder.st_mode & stat.S_ISVTX)


def take_from_folder(descriptor: int, folder: str) -> None:
    """Give a new file or folder the group and the rights of the one it lies in. Raises OSError."""
    if not hasattr(os, "fchmod"):
        return
    above, new = os.stat(folder), os.fstat(descriptor)
    if above.st_mode & stat.S_ISVTX and not is_shared(above):
        return
    grouped = _give(descriptor, above, new)
    if _extra(folder, _LIST_FOR_NEW) is not None:
        return
    access = _extra(folder, _ACCESS_LIST)
    is_folder = stat.S_ISDIR(new.st_mode)
    if access is not None and grouped:
        rights = access if is_folder else _without_run(access)
        _quietly(lambda: os.setxattr(descriptor, _ACCESS_LIST, rights))
        return
    _set_mode(descriptor, _mode(above.st_mode, is_folder=is_folder, grouped=grouped))


def keep_as(descriptor: int, old_file: str, *, run: bool) -> bool:
    """Give a file that takes another's place its owner, group, rights and extras. Raises OSError.

    Without `run`, no right to run it. False where its group would lose it: whoever writes is none
    of that group, so the system does not let the file stay with it.
    """
    if not hasattr(os, "fchmod"):
        return True
    old, new = os.stat(old_file), os.fstat(descriptor)
    grouped = _give(descriptor, old, new)
    mode = stat.S_IMODE(old.st_mode)
    _set_mode(descriptor, mode if run else mode & ~_RUN)
    _keep_extras(descriptor, old_file)
    return grouped or not (mode >> 3) & 0o6 & ~mode


def _give(descriptor: int, like: os.stat_result, new: os.stat_result) -> bool:
    """Give the file to the owner, where we are root, and to the group of another."""
    owner = like.st_uid if os.geteuid() == 0 else new.st_uid
    if (owner, like.st_gid) == (new.st_uid, new.st_gid):
        return True
    try:
        os.fchown(descriptor, owner if owner != new.st_uid else -1, like.st_gid)
    except OSError:
        return like.st_gid == new.st_gid
    return True


def _mode(above: int, *, is_folder: bool, grouped: bool) -> int:
    if is_folder:
        mode = above & 0o777 | 0o700 | (above & stat.S_ISGID if grouped else 0)
    else:
        mode = above & 0o666 | 0o600
    if not grouped:  # our own group is not meant: it gets no more than all have
        mode = mode & ~0o070 | (mode & 0o007) << 3
    return mode


def _set_mode(descriptor: int, mode: int) -> None:
    if stat.S_IMODE(os.fstat(descriptor).st_mode) == mode:
        return
    try:
        os.fchmod(descriptor, mode)
    except OSError as error:  # sticks formatted for Windows keep no modes
        if error.errno not in NOT_SUPPORTED:
            raise


def _keep_extras(descriptor: int, old_file: str) -> None:
    """The access list and what else people attached to the file, where the drive can keep it."""
    if not hasattr(os, "listxattr"):
        return
    with suppress(OSError):
        names = os.listxattr(old_file)
        for name in names:
            if name == _ACCESS_LIST or name.startswith("user."):
                os.setxattr(descriptor, name, os.getxattr(old_file, name))
        if _ACCESS_LIST not in names and _ACCESS_LIST in os.listxattr(descriptor):
            os.removexattr(descriptor, _ACCESS_LIST)


def _extra(path: str, name: str) -> bytes | None:
    if not hasattr(os, "getxattr"):
        return None
    try:
        return os.getxattr(path, name)
    except OSError:
        return None


def _without_run(access_list: bytes) -> bytes:
    """The list without anybody's right to run: four bytes of version, then of eight bytes each a
    tag, the rights (in the lowest bits of the third byte) and an id."""
    rights = bytearray(access_list)
    for entry in range(4, len(rights), 8):
        rights[entry + 2] &= 0o6
    return bytes(rights)


def _quietly(act: Callable[[], object]) -> None:
    with suppress(OSError):
        act()
