"""Bringing a copy of the folder back: first what it would do, then just that."""

from __future__ import annotations

import datetime as dt
import os
from typing import NamedTuple

from crewboard.folder.cannot import ChangedMeanwhile, NotKept
from crewboard.folder.disk.archive import NewCopy, make_copy
from crewboard.folder.disk.known import forget_known
from crewboard.folder.disk.names import is_toml, trouble
from crewboard.folder.disk.notkept import not_kept
from crewboard.folder.disk.packing import bytes_to_pack, contents_of
from crewboard.folder.disk.read import read_file
from crewboard.folder.disk.unpack import kept_in, members
from crewboard.folder.disk.write import inside, remove_file, replace_file
from crewboard.order.said import how_many


class Difference(NamedTuple):
    """What a restore would do, as paths within the folder, each sorted.

    `changed` get their bytes back, `missing` come back, `newer` are TOML files that the copy does
    not have: they stay, or go where an exact restore is asked for. `lost` are files that the copy
    only lists (pictures), and that are gone or of another size now. `passed_over` are in the
    archive, and are not brought back since they are no text.
    """

    changed: tuple[str, ...]
    missing: tuple[str, ...]
    newer: tuple[str, ...]
    lost: tuple[str, ...] = ()
    passed_over: tuple[str, ...] = ()


def compare(archive: str | os.PathLike[str], root: str | os.PathLike[str]) -> Difference:
    """What restoring the archive would change in the folder. Raises `NotKept`."""
    folder = os.path.realpath(root)
    kept = kept_in(archive)
    changed, missing = list[str](), list[str]()
    for name, data in members(archive):
        on_disk = _bytes_at(folder, name)
        if on_disk is None:
            missing.append(name)
        elif on_disk != data:
            changed.append(name)
    try:
        now = contents_of(folder)
    except OSError as error:
        raise not_kept(folder, error) from error
    known = kept.files | kept.skipped.keys()
    newer = [n for n in now.to_pack if is_toml(n) and n not in known and _is_packed(folder, n)]
    here = {name: file.bytes for name, file in now.to_list.items()} | now.to_pack
    lost = [name for name, file in kept.listed.items() if here.get(name) != file.bytes]
    parts = (changed, missing, newer, lost, kept.no_text)
    return Difference(*(tuple(sorted(part)) for part in parts))


def restore(
    archive: str | os.PathLike[str],
    root: str | os.PathLike[str],
    at: dt.datetime,
    *,
    exact: bool = False,
) -> NewCopy:
    """Bring the archive's files back, after making a copy of how the folder is now.

    With `exact`, TOML files that the archive does not have are taken away, but none that the copy
    of now does not hold. Returns that copy. Raises `NotKept`; what was done up to there stays, and
    restoring that copy takes it back. Nothing that comes back can be run.
    """
    folder = os.path.realpath(root)
    difference = compare(archive, folder)  # also proves that every file of it can be read
    made = make_copy(folder, at)
    done = 0
    try:
        for name, data in members(archive):
            if name in difference.changed or name in difference.missing:
                before = _bytes_at(folder, name)
                path = os.path.join(folder, name)
                replace_file(path, data, expected=before, root=folder, run=False)
                done += 1
        for name in difference.newer if exact else ():
            data_now = _bytes_at(folder, name) if name in made.files else None
            if data_now is not None:
                remove_file(os.path.join(folder, name), expected=data_now, root=folder)
                done += 1
    except (NotKept, ChangedMeanwhile) as error:
        raise _half_done(error, done, made) from error
    forget_known(folder, (*difference.changed, *(difference.newer if exact else ())))
    return made


def _half_done(error: NotKept | ChangedMeanwhile, done: int, made: NewCopy) -> NotKept:
    """What went wrong on the way, with what had been done by then."""
    name = os.path.basename(made.copy.path).removesuffix(".zip")
    why = error.sentence if isinstance(error, NotKept) else "it is being changed by another program"
    sentence = f"{os.path.basename(error.path)}: {why}; {how_many(done, 'file')} had been brought "
    sentence += f'back by then, and how all was before is kept as "{name}"'
    hint = error.hint if isinstance(error, NotKept) else "Close it there, then restore again."
    return NotKept(error.path, sentence, hint)


def _is_packed(folder: str, name: str) -> bool:
    """Whether a copy of now will hold the file: what cannot be read is never taken away."""
    return isinstance(bytes_to_pack(folder, name), bytes)


def _bytes_at(folder: str, name: str) -> bytes | None:
    """What stands where the file belongs. Raises `NotKept` where a link leads to another place
    than a copy may write to."""
    path = os.path.join(folder, name)
    real = inside(path, folder)
    within = os.path.relpath(real, folder).replace(os.sep, "/")
    if within != name and (reason := trouble(within)):
        sentence = f"{name} is behind a link to {within}, where nothing is brought back: {reason}"
        raise NotKept(path, sentence, "Delete the link.")
    try:
        return read_file(real)
    except NotADirectoryError:
        return None
    except OSError as error:
        raise not_kept(path, error) from error
