"""Taking back what was done since the program was opened.

A step is what one act did to the files. It is taken back only while each file still holds what
the act left in it: nobody's later words are ever lost.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from typing import NamedTuple, TypeAlias

from crewboard.folder.cannot import ChangedMeanwhile, NotKept
from crewboard.folder.disk.notkept import not_kept
from crewboard.folder.disk.read import read_file
from crewboard.folder.disk.write import inside, remove_file, replace_file


class FileChange(NamedTuple):
    """One file's bytes before and after; None: there is no such file."""

    path: str
    before: bytes | None
    after: bytes | None

    def path_in(self, root: str | os.PathLike[str]) -> str:
        """The file's path from the folder on."""
        return os.path.relpath(self.path, root)


Step: TypeAlias = Sequence[FileChange]


def take_back(step: Step, *, root: str | os.PathLike[str]) -> tuple[str, ...]:
    """Undo the step, or return the paths that changed since and so forbid it.

    All files are looked at before the first is touched; then the last change is undone first. The
    caller holds the folder's lock. Raises `NotKept`; then the files already taken back are put
    forward again as far as the disk allows.
    """
    changed = changed_since(step, root=root)
    if changed:
        return changed
    done = list[FileChange]()
    for change in reversed(step):
        back = FileChange(change.path, change.after, change.before)
        try:
            apply(back, root=root)
        except ChangedMeanwhile as error:
            _put_forward(done, root)
            return (error.path,)
        except NotKept as error:
            _put_forward([*done, change] if error.doubtful else done, root)
            raise
        done.append(change)
    return ()


def changed_since(step: Step, *, root: str | os.PathLike[str]) -> tuple[str, ...]:
    """The paths of the step whose files no longer hold what it left in them. Raises `NotKept`."""
    final = {change.path: change.after for change in step}
    return tuple(path for path, after in final.items() if _bytes_at(path, root) != after)


def apply(change: FileChange, *, root: str | os.PathLike[str]) -> None:
    """Make the change, or raise and leave the file as it was.

    Raises `ChangedMeanwhile` where the file is not as before, and `NotKept`: where the drive would
    not confirm the change it is put back, so that trying again does not do it twice.
    """
    try:
        _make(change, root)
    except NotKept as error:
        if error.doubtful:
            error.doubtful = not _is_back(change, root)
        raise


def _is_back(change: FileChange, root: str | os.PathLike[str]) -> bool:
    try:
        _make(FileChange(change.path, change.after, change.before), root)
    except ChangedMeanwhile:
        return False
    except NotKept as error:
        return error.doubtful  # the old bytes are in place again, that too unconfirmed
    return True


def _make(change: FileChange, root: str | os.PathLike[str]) -> None:
    if change.after is not None:
        replace_file(change.path, change.after, expected=change.before, root=root)
    elif change.before is not None:
        remove_file(change.path, expected=change.before, root=root)


def _bytes_at(path: str, root: str | os.PathLike[str]) -> bytes | None:
    try:
        return read_file(inside(path, root))
    except OSError as error:
        raise not_kept(path, error) from error


def _put_forward(done: Sequence[FileChange], root: str | os.PathLike[str]) -> None:
    for change in reversed(done):
        try:
            apply(change, root=root)
        except (NotKept, ChangedMeanwhile):
            return
