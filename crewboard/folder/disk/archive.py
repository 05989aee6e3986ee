"""Daily copies: the folder's text as one archive file, the last of them kept, inside the folder.

Copies lie in `.crewboard/copies/`, one a day: `2026-05-02.zip`; the one that a restore makes first
carries its time too: `2026-05-02 at 18-30-05.zip`. The caller holds the folder's lock, and days are
those of the real clock, whatever moment is looked at.
"""

from __future__ import annotations

import datetime as dt
import os
import re
from collections.abc import Mapping
from contextlib import suppress
from typing import TYPE_CHECKING, NamedTuple

from crewboard.folder.cannot import NotKept
from crewboard.folder.disk.notkept import not_kept
from crewboard.folder.disk.packing import (
    Contents,
    ListedFile,
    bytes_to_pack,
    contents_of,
    hashed,
    is_spelled,
)
from crewboard.folder.disk.part import clean_leftovers, name_for_part
from crewboard.folder.disk.shared import take_from_folder
from crewboard.folder.disk.write import flush_folder, inside, make_folders

if TYPE_CHECKING:
    from zipfile import ZipFile

COPIES = os.path.join(".crewboard", "copies")
ROOM = 4_000_000
"""Bytes that a copy leaves free on the disk: the entries of the day need them more."""
_NAME = re.compile(r"(\d{4}-\d\d-\d\d)(?: at (\d\d-\d\d-\d\d))?\.zip\Z")


class DailyCopy(NamedTuple):
    """A copy on the disk; `at` is midnight for the ordinary copy of a day."""

    path: str
    at: dt.datetime


class NewCopy(NamedTuple):
    """A copy just made: the files that it holds, and those that could not be read, with the reason
    (paths within the folder)."""

    copy: DailyCopy
    files: frozenset[str]
    skipped: Mapping[str, str]


def make_copy(root: str | os.PathLike[str], at: dt.datetime | dt.date) -> NewCopy:
    """Copy the folder into one new archive. Raises `NotKept`; never leaves half an archive.

    With a date: the day's copy, made anew where there is one. What cannot be read is named, and
    the copy given up where hardly any room would be left on the disk.
    """
    folder = os.path.realpath(root)
    copies = inside(os.path.join(folder, COPIES), folder)
    try:
        contents = contents_of(folder)
        _leave_room(folder, contents)
        make_folders(copies, folder)
        path = os.path.join(copies, _name(at))
        while isinstance(at, dt.datetime) and os.path.exists(path):
            at += dt.timedelta(seconds=1)
            path = os.path.join(copies, _name(at))
        files = _write_archive(folder, path, contents)
    except OSError as error:
        raise not_kept(copies, error) from error
    return NewCopy(DailyCopy(path, _moment(os.path.basename(path))), files, contents.skipped)


def daily_copy(root: str | os.PathLike[str], today: dt.date, *, keep_days: int) -> NewCopy | None:
    """Make today's copy if there is none yet, and drop the old ones: see `_too_old`.

    `today` is that of the real clock. Unfinished files anywhere in the folder are swept first, old
    copies are dropped only after the new one is safe. Returns None where today has one.
    """
    if any(os.path.basename(copy.path) == f"{today}.zip" for copy in copies_of(root)):
        return None
    clean_leftovers(root)
    made = make_copy(root, today)
    for copy in _too_old(copies_of(root), today, keep_days):
        drop(copy)
    return made


def _too_old(copies: list[DailyCopy], today: dt.date, keep: int) -> list[DailyCopy]:
    """Those that are more than `keep` days old, but never one of the last `keep`.

    A copy from the future was made by a clock that was wrong: it makes no other one old, and a
    clock that jumps ahead takes no more than one away a day.
    """
    midnight = dt.datetime.combine(today, dt.time())
    past = [copy for copy in copies if copy.at.date() <= today]
    return [c for c in past[: max(len(past) - keep, 0)] if c.at < midnight - dt.timedelta(keep)]


def drop(copy: DailyCopy) -> None:
    """Take a copy away; where that is not possible it stays for another day."""
    with suppress(OSError):
        os.unlink(copy.path)


def copies_of(root: str | os.PathLike[str]) -> list[DailyCopy]:
    """The folder's copies, oldest first."""
    copies = os.path.join(os.path.realpath(root), COPIES)
    try:
        names = os.listdir(copies)
    except OSError:
        return []
    kept = list[DailyCopy]()
    for name in filter(_NAME.match, names):
        with suppress(ValueError):  # "2026-13-45.zip" is none of ours
            kept.append(DailyCopy(os.path.join(copies, name), _moment(name)))
    return sorted(kept, key=lambda copy: copy.at)


def _leave_room(folder: str, contents: Contents) -> None:
    """Raises `NotKept` where the copy could fill the disk."""
    if not hasattr(os, "statvfs"):
        from shutil import disk_usage

        free = disk_usage(folder).free
    else:
        drive = os.statvfs(folder)
        free = drive.f_bavail * drive.f_frsize
    if free < contents.size + ROOM:
        raise NotKept(folder, "the disk is nearly full", "Make room on the drive.")


def _write_archive(folder: str, path: str, contents: Contents) -> frozenset[str]:
    """Pack what can be read; what cannot goes to those that are skipped."""
    from zipfile import ZIP_DEFLATED, ZipFile

    from crewboard.folder.disk.unpack import LIST

    before, packed = _listed_before(folder), set[str]()
    part = name_for_part(os.path.dirname(path))
    try:
        with open(part, "xb") as file:
            take_from_folder(file.fileno(), os.path.dirname(path))
            with ZipFile(file, "w", ZIP_DEFLATED, compresslevel=6) as archive:
                for name in contents.to_pack:
                    data = bytes_to_pack(folder, name)
                    if isinstance(data, str):
                        contents.skipped[name] = data
                        continue
                    _add(archive, name, data)
                    packed.add(name)
                _add(archive, LIST, _list(folder, contents, before))
            file.flush()
            os.fsync(file.fileno())
        os.replace(part, path)
    except BaseException:
        with suppress(OSError):
            os.unlink(part)
        raise
    flush_folder(os.path.dirname(path))
    return frozenset(packed)


def _add(archive: ZipFile, name: str, data: bytes) -> None:
    from zipfile import ZIP_DEFLATED, ZipInfo

    info = ZipInfo(name)  # without times: the same folder gives the same archive
    info.compress_type = ZIP_DEFLATED
    archive.writestr(info, data)


def _list(folder: str, contents: Contents, before: Mapping[str, ListedFile]) -> bytes:
    """What is not in the copy, as TOML."""
    from crewboard.folder.toml.values import toml_key, toml_value

    skipped = [
        f"{toml_key(name)} = {toml_value(why)}"
        for name, why in sorted(contents.skipped.items())
        if is_spelled(name)
    ]
    listed = hashed(folder, contents.to_list, before)
    head = "# Files of the folder that are not in this copy: listed, or not to be read."
    return "\n".join([head, "[listed]", *listed, "", "[skipped]", *skipped, ""]).encode()


def _listed_before(folder: str) -> Mapping[str, ListedFile]:
    """What the last copy listed: what did not change since needs not be hashed again."""
    from crewboard.folder.disk.unpack import kept_in

    copies = copies_of(folder)
    try:
        return kept_in(copies[-1].path).listed if copies else {}
    except NotKept:
        return {}


def _name(at: dt.date) -> str:
    return f"{at:%Y-%m-%d at %H-%M-%S}.zip" if isinstance(at, dt.datetime) else f"{at}.zip"


def _moment(name: str) -> dt.datetime:
    match = _NAME.match(name)
    if match is None:
        raise ValueError(f"not the name of a daily copy: {name}")
    time = dt.time.fromisoformat(match[2].replace("-", ":")) if match[2] else dt.time()
    return dt.datetime.combine(dt.date.fromisoformat(match[1]), time)
