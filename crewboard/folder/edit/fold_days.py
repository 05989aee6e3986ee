"""Day files that are not where a day is read from: folded into the day's own file."""

from __future__ import annotations

import os
from collections.abc import Iterator
from datetime import date

from crewboard.folder.cannot import CannotEdit, CannotFold
from crewboard.folder.disk.conflicts import ConflictCopy, conflict_copies, day_place, folded
from crewboard.folder.disk.read import read_file
from crewboard.folder.edit.fold_steps import (
    FoldAsked,
    FoldedCopy,
    FoldStep,
    Write,
    put_instead,
    unread,
)
from crewboard.folder.read.files import DAYS
from crewboard.folder.toml.append import new_day


def day_steps(root: str, folder: str = DAYS) -> Iterator[FoldStep]:
    """What becomes of each such file: one at a time, so that the second copy of a day meets what
    the first brought. `folder` is where to look for them."""
    for copy in conflict_copies(os.path.join(root, folder), os.path.join(root, DAYS)):
        yield _step(root, copy)


def one_of_the_days(root: str, path: str, data: bytes, asked: FoldAsked) -> FoldStep | None:
    """What becomes of one file; None where it is none of a day. Raises CannotFold."""
    if asked.day is not None:
        return _of_that_day(root, path, asked.day, data)
    for copy in conflict_copies(os.path.join(root, DAYS)):
        if _relative(root, copy.path) == path:
            if asked.instead:
                return put_instead(root, path, _relative(root, copy.original), data)
            return _step(root, copy)
    return None


def _step(root: str, copy: ConflictCopy) -> FoldStep:
    path, original = _relative(root, copy.path), _relative(root, copy.original)
    try:
        if path == original:
            return _of_that_day(root, path, copy.date, read_file(copy.path) or b"")
        before = read_file(copy.original)
        return _folded(path, original, copy.date, before, read_file(copy.path) or b"")
    except CannotFold as error:
        return FoldStep(FoldedCopy(path, original, cannot=str(error)))
    except OSError as error:
        return unread(path, original, error)


def _folded(path: str, original: str, day: date, before: bytes | None, data: bytes) -> FoldStep:
    new = folded(before if before and before.strip() else new_day(day), data)
    copy = FoldedCopy(path, original, new.added, new.clashing)
    writes = [Write(original, before, new.new_bytes)] if new.new_bytes != before else []
    writes += [Write(path, data, None)] if copy.goes else []
    return FoldStep(copy, tuple(writes))


def _of_that_day(root: str, path: str, day: date, data: bytes) -> FoldStep:
    """The file is that day's, whatever its name and its date say."""
    from crewboard.folder.toml.edit import set_value

    if not path.lower().startswith(DAYS):
        raise CannotFold(f'"{path}" does not lie among the days')
    place = day_place(os.path.join(root, DAYS), day)
    try:
        dated = set_value(data.decode(), ("date",), day).encode()
    except (CannotEdit, UnicodeDecodeError) as error:
        raise CannotFold(f"{path} cannot be read: {error}") from None
    original = _relative(root, place)
    if original == path:
        return FoldStep(FoldedCopy(path, path, does="dated"), (Write(path, data, dated),))
    step = _folded(path, original, day, read_file(place), dated)
    as_it_is = (
        write._replace(before=data) if write.path == path else write for write in step.writes
    )
    return step._replace(writes=tuple(as_it_is))


def _relative(root: str, path: str) -> str:
    return os.path.relpath(path, root).replace(os.sep, "/")
