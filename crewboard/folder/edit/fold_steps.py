"""Bringing one file to where it is read from: what becomes of it, and the writes that do it.

Nothing is ever dropped: a file goes only when all of it stands where it is read, or when it was put
aside (`.crewboard/aside`).
"""

from __future__ import annotations

import os
from datetime import date
from typing import NamedTuple

from crewboard.folder.disk.read import read_file
from crewboard.folder.disk.write import inside

ASIDE = ".crewboard/aside"


class FoldAsked(NamedTuple):
    """What a person asked for of one file (its path within the folder); nothing: of all, what is
    sure. `instead`: it takes the place of the file that it is a copy of. `aside`: it goes out of
    the way. `name`: it is a component of its own, under that short name. `day`: it is that day's.
    """

    file: str = ""
    instead: bool = False
    aside: bool = False
    name: str = ""
    day: date | None = None


class FoldedCopy(NamedTuple):
    """One file: the entries that only it has, those that clash, or why it cannot be folded in.

    Paths are relative to the folder, with `/`. `does` says what else becomes of it, as far as it is
    not folded in: "moved", "the same", "instead", "aside", "dated". A copy that clashes stays, so
    that a person can look.
    """

    path: str
    original: str
    added: tuple[str, ...] = ()
    clashing: tuple[str, ...] = ()
    cannot: str = ""
    does: str = ""

    @property
    def goes(self) -> bool:
        """Everything of the file stands where it is read: it is not needed any more."""
        return not self.clashing and not self.cannot


class Write(NamedTuple):
    """One file's bytes before and after (None: there is none), by its path within the folder."""

    path: str
    before: bytes | None
    after: bytes | None


class FoldStep(NamedTuple):
    """What becomes of one file, and the writes that do it, in their order. `renamed`: instead of
    writes it only gets another name, since capital letters make no difference on this drive, or
    since it is a folder."""

    copy: FoldedCopy
    writes: tuple[Write, ...] = ()
    renamed: bool = False


def unread(path: str, original: str, error: OSError) -> FoldStep:
    """The file stays where it is: the disk does not give it, or it is too large."""
    file = original if error.filename and error.filename.endswith(original) else "it"
    return FoldStep(FoldedCopy(path, original, cannot=f"{file} cannot be read: {error.strerror}"))


def moved(path: str, original: str, before: bytes | None, data: bytes) -> FoldStep:
    """The file gets its right name and place; `before` is what stands there (nothing, mostly)."""
    writes = Write(original, before, data), Write(path, data, None)
    return FoldStep(FoldedCopy(path, original, does="moved"), writes)


def put_instead(root: str, path: str, original: str, data: bytes) -> FoldStep:
    """The copy takes the place of the file, which is set aside."""
    before = read_file(inside(os.path.join(root, original), root))
    if before is None:
        return moved(path, original, None, data)
    kept = Write(_free_aside(root, original), None, before)
    writes = kept, Write(original, before, data), Write(path, data, None)
    return FoldStep(FoldedCopy(path, original, does="instead"), writes)


def set_aside(root: str, path: str, data: bytes) -> FoldStep:
    """The file goes out of the way, to where nothing reads it."""
    place = _free_aside(root, path)
    writes = Write(place, None, data), Write(path, data, None)
    return FoldStep(FoldedCopy(path, place, does="aside"), writes)


def _free_aside(root: str, path: str) -> str:
    """A name among what was set aside that nothing has yet."""
    name = os.path.basename(path)
    number, place = 2, f"{ASIDE}/{name}"
    while os.path.lexists(os.path.join(root, place)):
        place, number = f"{ASIDE}/{number} {name}", number + 1
    return place
