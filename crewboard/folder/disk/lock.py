"""One writer at a time in a folder.

The lock is the operating system's, on the file `.crewboard.lock` at the folder's root: it ends
with its owner, however the owner ends; the file itself stays and means nothing.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from time import sleep

from crewboard.folder.cannot import NotKept
from crewboard.folder.disk.notkept import not_kept
from crewboard.folder.disk.write import make_empty

LOCK_NAME = ".crewboard.lock"
PATIENCE = 10.0
"""Seconds that a writer waits for the others before it says so."""
_LOOK_AGAIN = 0.001  # seconds between two tries

_had: list[str] = []  # the folders whose lock this process has or had


def was_had() -> bool:
    """Whether this process has begun to write in a folder."""
    return bool(_had)


@contextmanager
def folder_lock(root: str | os.PathLike[str], *, patience: float = PATIENCE) -> Iterator[None]:
    """Hold the folder's lock. Raises `NotKept` where it is not had within `patience` seconds.

    Not to be taken again by the one who holds it.
    """
    from filelock import FileLock, Timeout

    folder = os.path.realpath(root)
    if not os.path.isdir(folder):
        raise not_kept(root, FileNotFoundError(2, "no such folder"))
    path = os.path.join(folder, LOCK_NAME)
    try:
        if not os.path.lexists(path):  # whoever may write in the folder must be able to lock it
            make_empty(path)
    except OSError as error:
        raise not_kept(path, error) from error
    # A lock made of a file's mere existence would outlive its owner, so no falling back to that.
    lock = FileLock(path, patience, fallback_to_soft=False, poll_interval=_LOOK_AGAIN)
    waited = False
    try:
        try:
            lock.acquire(blocking=False)
        except Timeout:
            waited = True
            lock.acquire()
    except Timeout:
        raise NotKept(
            root,
            f"another program has been writing in this folder for {patience:.0f} seconds",
            "Wait until it is done, then try again.",
        ) from None
    except OSError as error:
        raise not_kept(path, error) from error
    _had.append(folder)
    try:
        yield
    finally:
        with suppress(OSError):  # the drive is gone, and the lock with it
            lock.release()
        if waited:  # others wait too: whoever writes much lets them have a turn
            sleep(2 * _LOOK_AGAIN)
