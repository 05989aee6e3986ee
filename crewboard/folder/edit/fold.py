"""Folding in the copies of day files that a sync tool left, entry by entry; nothing is dropped."""

from __future__ import annotations

import os
from typing import NamedTuple

from crewboard.folder.cannot import CannotFold
from crewboard.folder.disk.conflicts import ConflictCopy, conflict_copies, folded
from crewboard.folder.disk.read import read_file
from crewboard.folder.disk.write import remove_file, replace_file
from crewboard.folder.read.files import DAYS
from crewboard.folder.toml.append import new_day


class FoldedCopy(NamedTuple):
    """One copy: the entries that only it has, those that clash, or why it cannot be folded in.

    Paths are relative to the folder. A copy that clashes stays, so that a person can look.
    """

    path: str
    original: str
    added: tuple[str, ...] = ()
    clashing: tuple[str, ...] = ()
    cannot: str = ""

    @property
    def goes(self) -> bool:
        """Everything of the copy stands in the day's file: it is not needed any more."""
        return not self.clashing and not self.cannot


def copies_to_fold(root: str | os.PathLike[str]) -> list[FoldedCopy]:
    """What folding each copy in would do; nothing is written."""
    return [_folded(root, copy)[0] for copy in conflict_copies(os.path.join(root, DAYS))]


def fold_all(root: str | os.PathLike[str]) -> list[FoldedCopy]:
    """Fold every copy in, one after the other. The caller holds the folder's lock.

    Raises NotKept and ChangedMeanwhile. A copy is taken away only when all of it stands in the
    day's file.
    """
    done = []
    for copy in conflict_copies(os.path.join(root, DAYS)):
        result, before, after = _folded(root, copy)
        if not result.cannot and after != before:
            replace_file(copy.original, after, expected=before, root=root)
        if result.goes:
            data = read_file(copy.path)
            if data is not None:
                remove_file(copy.path, expected=data, root=root)
        done.append(result)
    return done


def _folded(
    root: str | os.PathLike[str], copy: ConflictCopy
) -> tuple[FoldedCopy, bytes | None, bytes]:
    """The result, and the day's file before and after."""
    result = FoldedCopy(os.path.relpath(copy.path, root), os.path.relpath(copy.original, root))
    before: bytes | None = None
    try:
        before = read_file(copy.original)
        data = read_file(copy.path) or b""
        new = folded(new_day(copy.date) if before is None else before, data)
    except (CannotFold, OSError) as error:
        return result._replace(cannot=str(error)), before, before or b""
    return result._replace(added=new.added, clashing=new.clashing), before, new.new_bytes
