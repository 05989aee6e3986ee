"""Files that are not where they are read from, brought there: folded in, moved, set aside."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import suppress

from crewboard.folder.cannot import CannotFold
from crewboard.folder.disk.known import forget_known
from crewboard.folder.disk.notkept import not_kept
from crewboard.folder.disk.read import TooLarge, read_file
from crewboard.folder.disk.write import inside, remove_file, replace_file
from crewboard.folder.edit.fold_days import day_steps, one_of_the_days
from crewboard.folder.edit.fold_plan import one_of_the_plan, plan_steps
from crewboard.folder.edit.fold_steps import FoldAsked, FoldedCopy, FoldStep, set_aside

_ALL = FoldAsked()


def copies_to_fold(root: str | os.PathLike[str], asked: FoldAsked = _ALL) -> list[FoldedCopy]:
    """What bringing each file to its place would do; nothing is written. Raises CannotFold."""
    return [step.copy for step in _steps(os.fspath(root), asked)]


def fold_all(root: str | os.PathLike[str], asked: FoldAsked = _ALL) -> list[FoldedCopy]:
    """Bring every file to its place, one after the other. The caller holds the folder's lock.

    Raises NotKept, ChangedMeanwhile and CannotFold.
    """
    done = []
    for step in _steps(os.fspath(root), asked):
        _do(os.fspath(root), step)
        changed = (step.copy.original,) if step.copy.does in ("instead", "dated") else ()
        forget_known(os.fspath(root), (step.copy.path, *changed) if step.copy.goes else ())
        done.append(step.copy)
    return done


def _do(root: str, step: FoldStep) -> None:
    if step.renamed:
        try:
            os.rename(os.path.join(root, step.copy.path), os.path.join(root, step.copy.original))
        except OSError as error:
            raise not_kept(step.copy.path, error) from error
    for write in step.writes:
        path = os.path.join(root, write.path)
        if write.after is not None:
            replace_file(path, write.after, expected=write.before, root=root)
        elif write.before is not None:
            remove_file(path, expected=write.before, root=root)
    if step.writes:
        with suppress(OSError):  # a folder of the wrong name goes with the last file in it
            os.removedirs(os.path.dirname(os.path.join(root, step.copy.path)))


def _steps(root: str, asked: FoldAsked) -> Iterator[FoldStep]:
    """Raises CannotFold, and NotKept for a file that is too large to be read."""
    try:
        yield from _every_step(root, asked)
    except TooLarge as error:
        raise not_kept(error.filename or root, error) from error


def _every_step(root: str, asked: FoldAsked) -> Iterator[FoldStep]:
    if not asked.file:
        yield from day_steps(root)
        yield from plan_steps(root)
        return
    path = asked.file.replace(os.sep, "/").removeprefix("./")
    data = read_file(inside(os.path.join(root, path), root))
    if data is None:
        raise CannotFold(f'there is no file "{path}" in the folder')
    if asked.aside:
        yield set_aside(root, path, data)
    else:
        of_a_day = one_of_the_days(root, path, data, asked)
        yield of_a_day or one_of_the_plan(root, path, data, asked)
