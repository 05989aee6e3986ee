"""The one way in which anything is written into an open folder: under its lock, after the day's
copy, all or nothing, and read back in its place."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from datetime import date

from crewboard.folder.cannot import ChangedMeanwhile, NotKept
from crewboard.folder.disk import undo
from crewboard.folder.disk.first_write import NO_COPY, FirstCopy, copied_first
from crewboard.folder.disk.notkept import not_kept
from crewboard.folder.disk.undo import FileChange, take_back
from crewboard.folder.edit.keep import locked
from crewboard.folder.read.folder import Folder
from crewboard.order.admit.refusal import Refusal
from crewboard.workbench.outcome import NotAdmitted, Outcome, not_read_back, only_shown

# How often a write is tried again when an editor saved the file between reading and writing.
TRIES = 5


def under_lock(
    folder: Folder, refresh: Callable[[], object], act: Callable[[], Outcome]
) -> Outcome:
    """Run one operation under the folder's lock; what hinders it becomes a refusal."""
    try:
        done = locked(folder.root, act)
        return done if isinstance(done, Outcome) else Outcome(refused=(done,))
    except NotAdmitted as refused:
        from crewboard.folder.read.cause import with_causes

        return Outcome(refused=with_causes(folder, refused.refusals), line=refused.line)
    finally:
        refresh()


def written(
    folder: Folder,
    refresh: Callable[[], object],
    changes: Callable[[], Sequence[FileChange]],
    then: Callable[[tuple[FileChange, ...]], object],
    *,
    copy_of: date | None,
) -> Outcome:
    """Write what `changes` asks for, worked out again when a file changed in between.

    `then` is told what was made. With `copy_of`, that day's copy of the folder is made first.
    Raises NotAdmitted, ChangedMeanwhile and NotKept.
    """
    if folder.newer:
        return Outcome(refused=(only_shown(),))
    for turn in range(1, TRIES + 1):
        refresh()
        if folder.gone:
            raise not_kept(folder.root, FileNotFoundError(2, "gone"))
        todo = tuple(changes())
        _must_be_read_there(folder, todo)
        copy = FirstCopy()
        if todo and copy_of:
            copy = copied_first(folder.root, copy_of, folder.plan.vehicle.copies_days)
        try:
            make(folder, todo)
        except ChangedMeanwhile:
            if turn == TRIES:
                raise
            continue
        except NotKept as error:
            if not (error.full and copy.given_up()):
                raise
            make(folder, todo)
            copy = FirstCopy(remarks=(NO_COPY + error.sentence,))
        _read_back(folder, refresh, todo)
        then(todo)
        return Outcome(files=tuple(c.path_in(folder.root) for c in todo), remarks=copy.remarks)
    raise AssertionError("the last turn returns or raises")


def make(folder: Folder, todo: Sequence[FileChange]) -> None:
    """Make all of the changes, or none and raise."""
    made: list[FileChange] = []
    try:
        for change in todo:
            undo.apply(change, root=folder.root)
            made.append(change)
    except BaseException:
        take_back(made, root=folder.root)
        raise


def _must_be_read_there(folder: Folder, changes: Sequence[FileChange]) -> None:
    """What would not be read is not written. Raises NotAdmitted."""
    for path in _written_to(folder, changes):
        if why := folder.why_not_read(path):
            mend = "put the folder itself in its place"
            raise NotAdmitted([Refusal("not-read", f"nothing was saved: {why}", mend)])


def _written_to(folder: Folder, changes: Sequence[FileChange]) -> list[str]:
    paths = (change.path_in(folder.root) for change in changes if change.after is not None)
    return [path.replace(os.sep, "/") for path in paths]


def _read_back(folder: Folder, refresh: Callable[[], object], done: Sequence[FileChange]) -> None:
    """Look whether what was written is read in its place. Raises NotAdmitted where it is not, with
    the files as they were, and a doubtful NotKept where those could not be put back."""
    folder.let_go(change.path_in(folder.root) for change in done if change.after is None)
    refresh()
    if unread := [path for path in _written_to(folder, done) if not folder.reads(path)]:
        folder.let_go(change.path_in(folder.root) for change in done if change.before is None)
        refusal = not_read_back(unread[0])
        try:
            changed = take_back(done, root=folder.root)
        except NotKept as error:
            error.doubtful = True
            raise
        if changed:
            raise NotKept(changed[0], refusal.says, refusal.mend, doubtful=True)
        raise NotAdmitted([refusal])
    folder.remember(make_folder=True)
