"""Daily copies: the folder as one archive file, kept for some days, inside the folder itself.

Copies lie in `.crewboard/copies/`, one a day: `2026-05-02.zip`; the one that a restore makes first
carries its time too: `2026-05-02 at 18-30-05.zip`. The caller holds the folder's lock.
"""

from __future__ import annotations

import datetime as dt
import os
import re
from collections.abc import Iterator
from contextlib import suppress
from typing import NamedTuple

from crewboard.folder.cannot import NotKept
from crewboard.folder.disk.lock import LOCK_NAME
from crewboard.folder.disk.notkept import not_kept
from crewboard.folder.disk.part import clean_leftovers, is_part, name_for_part
from crewboard.folder.disk.read import read_file
from crewboard.folder.disk.shared import take_from_folder
from crewboard.folder.disk.write import (
    flush_folder,
    inside,
    make_folders,
    remove_file,
    replace_file,
)

COPIES = os.path.join(".crewboard", "copies")
LARGEST = 1_000_000
"""Bytes of the largest file that a copy takes in: a fortnight of copies of every picture would
fill an old laptop's disk, and pictures are not written by this tool."""
_NAME = re.compile(r"(\d{4}-\d\d-\d\d)(?: at (\d\d-\d\d-\d\d))?\.zip\Z")


class DailyCopy(NamedTuple):
    """A copy on the disk; `at` is midnight for the ordinary copy of a day."""

    path: str
    at: dt.datetime


class NewCopy(NamedTuple):
    """A copy just made, and the files that were too large for it (paths within the folder)."""

    copy: DailyCopy
    left_out: tuple[str, ...]


class Difference(NamedTuple):
    """What a restore would do, as paths within the folder, each sorted.

    `changed` get their bytes back, `missing` come back, `newer` are TOML files that the copy does
    not have: they stay, or go where an exact restore is asked for.
    """

    changed: tuple[str, ...]
    missing: tuple[str, ...]
    newer: tuple[str, ...]


def make_copy(root: str | os.PathLike[str], at: dt.datetime | dt.date) -> NewCopy:
    """Copy the folder into one new archive. Raises `NotKept`; never leaves half an archive.

    With a date: the day's copy, made anew where there is one. Links are not followed, files
    above `LARGEST` bytes are left out and named.
    """
    folder = os.path.realpath(root)
    copies = inside(os.path.join(folder, COPIES), folder)
    try:
        make_folders(copies, folder)
        path = os.path.join(copies, _name(at))
        while isinstance(at, dt.datetime) and os.path.exists(path):
            at += dt.timedelta(seconds=1)
            path = os.path.join(copies, _name(at))
        left_out = _write_archive(folder, path)
    except OSError as error:
        raise not_kept(root, error) from error
    return NewCopy(DailyCopy(path, _moment(os.path.basename(path))), left_out)


def daily_copy(root: str | os.PathLike[str], today: dt.date, *, keep_days: int) -> NewCopy | None:
    """Make today's copy if there is none yet, and drop those older than `keep_days` days.

    Unfinished files anywhere in the folder are swept first, old copies are dropped only after the
    new one is safe. Returns None where today has one.
    """
    midnight = dt.datetime.combine(today, dt.time())
    if any(os.path.basename(copy.path) == f"{today}.zip" for copy in copies_of(root)):
        return None
    clean_leftovers(root)
    made = make_copy(root, today)
    for copy in copies_of(root):
        if copy.at < midnight - dt.timedelta(days=keep_days):
            with suppress(OSError):  # then it is dropped tomorrow
                os.unlink(copy.path)
    return made


def copies_of(root: str | os.PathLike[str]) -> list[DailyCopy]:
    """The folder's copies, oldest first."""
    copies = os.path.join(os.path.realpath(root), COPIES)
    try:
        names = os.listdir(copies)
    except OSError:
        return []
    copies_kept = [
        DailyCopy(os.path.join(copies, name), _moment(name)) for name in names if _NAME.match(name)
    ]
    return sorted(copies_kept, key=lambda copy: copy.at)


def compare(archive: str | os.PathLike[str], root: str | os.PathLike[str]) -> Difference:
    """What restoring the archive would change in the folder. Raises `NotKept`."""
    folder = os.path.realpath(root)
    changed, missing, kept = list[str](), list[str](), set[str]()
    for name, data in _members(archive, folder):
        kept.add(name)
        on_disk = _bytes_at(folder, name)
        if on_disk is None:
            missing.append(name)
        elif on_disk != data:
            changed.append(name)
    newer = [name for name, _ in _files(folder) if name.endswith(".toml") and name not in kept]
    return Difference(tuple(sorted(changed)), tuple(sorted(missing)), tuple(sorted(newer)))


def restore(
    archive: str | os.PathLike[str],
    root: str | os.PathLike[str],
    at: dt.datetime,
    *,
    exact: bool = False,
) -> NewCopy:
    """Bring the archive's files back, after making a copy of how the folder is now.

    With `exact`, TOML files that the archive does not have are taken away (the copy of now has
    them). Returns that copy. Raises `NotKept`; what was done up to there stays, and restoring
    that copy takes it back.
    """
    folder = os.path.realpath(root)
    difference = compare(archive, folder)  # also proves that every member can be read
    made = make_copy(folder, at)
    for name, data in _members(archive, folder):
        if name in difference.changed or name in difference.missing:
            path = os.path.join(folder, name)
            replace_file(path, data, expected=_bytes_at(folder, name), root=folder)
    for name in difference.newer if exact else ():
        data_now = _bytes_at(folder, name)
        if data_now is not None:
            remove_file(os.path.join(folder, name), expected=data_now, root=folder)
    return made


def _write_archive(folder: str, path: str) -> tuple[str, ...]:
    from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

    left_out = list[str]()
    part = name_for_part(os.path.dirname(path))
    try:
        with open(part, "xb") as file:
            take_from_folder(file.fileno(), os.path.dirname(path))
            with ZipFile(file, "w", ZIP_DEFLATED, compresslevel=6) as archive:
                for name, size in _files(folder):
                    packs = size <= LARGEST and _fits(name)
                    data = read_file(os.path.join(folder, name)) if packs else None
                    if data is None:
                        left_out.append(name)
                        continue
                    info = ZipInfo(name)  # without times: the same folder gives the same archive
                    info.compress_type = ZIP_DEFLATED
                    archive.writestr(info, data)
            file.flush()
            os.fsync(file.fileno())
        os.replace(part, path)
    except BaseException:
        with suppress(OSError):
            os.unlink(part)
        raise
    flush_folder(os.path.dirname(path))
    return tuple(left_out)


def _files(folder: str) -> Iterator[tuple[str, int]]:
    """The folder's own files, with `/`, and their sizes: no links, no hidden folders."""
    waiting = [""]
    while waiting:
        prefix = waiting.pop()
        with os.scandir(os.path.join(folder, prefix)) as listing:
            entries = sorted(listing, key=lambda entry: entry.name)
        for entry in entries:
            if entry.is_dir(follow_symlinks=False):
                if not entry.name.startswith("."):
                    waiting.append(f"{prefix}{entry.name}/")
            elif entry.is_file(follow_symlinks=False) and not _ours_alone(entry.name):
                yield prefix + entry.name, entry.stat().st_size


def _ours_alone(name: str) -> bool:
    return name == LOCK_NAME or is_part(name)


def _members(archive: str | os.PathLike[str], folder: str) -> Iterator[tuple[str, bytes]]:
    """The archive's files: only such as this tool packs, whole, and within the folder."""
    from zipfile import BadZipFile, ZipFile
    from zlib import error as broken_stream

    try:
        with ZipFile(archive) as opened:
            for info in opened.infolist():
                if info.is_dir():
                    continue
                if not _fits(info.filename) or info.file_size > LARGEST:
                    raise NotKept(
                        archive,
                        "the archive holds a file that no daily copy holds",
                        "Restore only archives that this program made.",
                    )
                inside(os.path.join(folder, info.filename), folder)
                yield info.filename, opened.read(info)
    except (BadZipFile, broken_stream, EOFError, NotImplementedError, RuntimeError) as error:
        raise NotKept(archive, "the archive is damaged", "Take the copy of another day.") from error
    except OSError as error:
        raise not_kept(archive, error) from error


def _fits(name: str) -> bool:
    """Whether every system can hold a file of this name, within the folder."""
    if any(0xD800 <= ord(char) <= 0xDFFF for char in name):
        return False
    parts = name.split("/")
    steers = any(part in ("", ".", "..") for part in parts) or parts[0].startswith(".crewboard")
    return not (steers or "\\" in name or ":" in parts[0] or "\0" in name)


def _bytes_at(folder: str, name: str) -> bytes | None:
    try:
        return read_file(inside(os.path.join(folder, name), folder))
    except NotADirectoryError:
        return None
    except OSError as error:
        raise not_kept(name, error) from error


def _name(at: dt.date) -> str:
    return f"{at:%Y-%m-%d at %H-%M-%S}.zip" if isinstance(at, dt.datetime) else f"{at}.zip"


def _moment(name: str) -> dt.datetime:
    match = _NAME.match(name)
    if match is None:
        raise ValueError(f"not the name of a daily copy: {name}")
    time = dt.time.fromisoformat(match[2].replace("-", ":")) if match[2] else dt.time()
    return dt.datetime.combine(dt.date.fromisoformat(match[1]), time)
