"""Files brought into the folder, in the order in which they were taken, and the entries to write.

First all of them are looked at, then they are copied one by one, and the entries come last, in one
write: whoever pulls the plug in between has files without entries, which the next intake of the
same files takes as they are.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import datetime
from typing import NamedTuple

from crewboard.folder.cannot import NotKept
from crewboard.folder.intake.copied import ReadThrough, copied, read_through, recorded_in
from crewboard.folder.intake.looked_through import PassedOver, ToTakeIn, looked_through
from crewboard.folder.intake.safe_name import safe_name, told_apart
from crewboard.folder.intake.when_taken import WhenTaken, when_taken
from crewboard.logbook.record.seen import PICTURES, RECORDINGS, TookIn


class Brought(NamedTuple):
    """The entries to write, the files that were put into the folder for them, and what was passed
    over."""

    acts: tuple[TookIn, ...]
    new_files: tuple[str, ...]
    passed_over: tuple[PassedOver, ...]


class _NewHere(NamedTuple):
    """A file to take in, its hash, and when it was taken."""

    file: ToTakeIn
    sha256: str
    taken: WhenTaken

    @property
    def in_order(self) -> tuple[datetime, str]:
        return self.taken.at or datetime.max, self.file.path


def brought(
    root: str,
    sources: Sequence[str],
    taken_before: Mapping[str, str],
    *,
    local: Callable[[float], datetime],
    year: int,
    large: bool = False,
) -> Brought:
    """Copy the files of the sources that were not taken in before.

    `taken_before` gives the path in the folder for each hash; `local` turns seconds of the epoch
    into the shop's time; `year` is for files of which nothing says when they were taken.
    """
    passed: list[PassedOver] = []
    before = dict(taken_before)
    known = sorted(_new_here(root, sources, before, local, passed, large=large), key=_order)
    acts: list[TookIn] = []
    new_files: list[str] = []
    for one in known:
        try:
            copy = copied(one.file, one.sha256, root, _folder(one, year), _name(one))
        except NotKept as error:
            passed.append(_hindered(one.file.path, error))
            continue
        acts.append(TookIn(copy.path, one.sha256, *one.taken, _called(one.file.name)))
        new_files += [copy.path] if copy.new else []
    return Brought(tuple(acts), tuple(new_files), tuple(passed))


def _order(one: _NewHere) -> tuple[datetime, str]:
    return one.in_order


def _new_here(
    root: str,
    sources: Sequence[str],
    before: dict[str, str],
    local: Callable[[float], datetime],
    passed: list[PassedOver],
    *,
    large: bool,
) -> Iterable[_NewHere]:
    """The files that are new here; what is not goes to those passed over."""
    for file in looked_through(root, sources, large=large):
        if isinstance(file, PassedOver):
            passed.append(file)
            continue
        try:
            read = read_through(file.path)
            if (here := before.get(read.sha256)) is not None:
                passed.append(_taken_before(root, here, file, read))
                continue
        except NotKept as error:
            passed.append(_hindered(file.path, error))
            continue
        before[read.sha256] = ""
        recorded = None if file.sort.is_picture else recorded_in(file.path)
        taken = when_taken(read.front, file.name, file.mtime, local, recorded)
        yield _NewHere(file, read.sha256, taken)


def _taken_before(root: str, here: str, file: ToTakeIn, read: ReadThrough) -> PassedOver:
    """The same bytes were taken in before; where their file is gone since, it is put back."""
    if not here:
        return PassedOver(file.path, "another of these files is the same")
    if os.path.lexists(os.path.join(root, here)):
        return PassedOver(file.path, f"it was taken in before, as {here}", here)
    folder, _, name = here.rpartition("/")
    copied(file, read.sha256, root, folder, name)
    why = f"it was taken in before, and {here}, which was gone, is back"
    return PassedOver(file.path, why, here)


def _folder(one: _NewHere, year: int) -> str:
    top = PICTURES if one.file.sort.is_picture else RECORDINGS
    return f"{top}{one.taken.at.year if one.taken.at else year}"


def _name(one: _NewHere) -> str:
    return told_apart(safe_name(one.file.name, one.file.sort), one.sha256)


def _called(name: str) -> str:
    """The name before, as far as text can hold it."""
    return os.fsencode(name).decode("utf-8", "backslashreplace")


def _hindered(path: str, error: NotKept) -> PassedOver:
    hint = error.hint[:1].lower() + error.hint[1:].rstrip(".")
    return PassedOver(path, f"{error.sentence}; {hint}" if hint else error.sentence, disk=True)
