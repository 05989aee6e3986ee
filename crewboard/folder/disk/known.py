"""What stood in the folder at the last look, kept beside the copies, so that a loss is noticed.

`.crewboard/known` has a line for each file: its path, and behind a tab the ids of a day's entries,
or the short names of what a component's file has. It is of this computer alone and can be thrown
away; a clone of the folder comes without it.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from contextlib import suppress
from functools import lru_cache

from crewboard.folder.cannot import NotKept
from crewboard.folder.disk.read import read_file

OURS = ".crewboard"
KNOWN = os.path.join(OURS, "known")
_HEAD = "# What stood here at the last look. By it a loss is noticed; it can be thrown away."


class StoodHere:
    """What stands in each file, by its path from the folder, with `/`: ids and short names, as they
    are written until somebody asks for them."""

    def __init__(self, written: dict[str, str] | None = None) -> None:
        self.written = {} if written is None else written

    def __getitem__(self, path: str) -> frozenset[str]:
        return names_in(self.written[path])

    def __contains__(self, path: str) -> bool:
        return path in self.written

    def __iter__(self) -> Iterator[str]:
        return iter(self.written)


@lru_cache(maxsize=1 << 13)  # at each look nearly all files hold what they held before
def written_names(names: frozenset[str]) -> str:
    """Ids and short names with blanks between, the same for the same names."""
    in_order = sorted(names)
    written = " ".join(in_order)
    if "%" in written or not written.isprintable() or written.count(" ") >= max(len(names), 1):
        written = " ".join(map(_escaped, in_order))
    return written


def names_in(written: str) -> frozenset[str]:
    """What `written_names` wrote."""
    return frozenset(map(_plain, written.split()) if "%" in written else written.split())


def known_text(standing: StoodHere) -> str:
    """The text of the file, the same for the same folder."""
    lines = [
        f"{_escaped(path)}\t{names}" if names else _escaped(path)
        for path, names in sorted(standing.written.items())
    ]
    return "\n".join((_HEAD, *lines)) + "\n"


def read_known(root: str) -> str:
    """The text as it was written last, empty where there is none that can be read."""
    try:
        return (read_file(os.path.join(root, KNOWN)) or b"").decode("utf-8", "replace")
    except OSError:
        return ""


def standing_in(text: str) -> StoodHere:
    """What the text says. Lines that two versions of it left (`<<<<<<<`) are passed over."""
    written: dict[str, str] = {}
    for line in text.splitlines():
        path, _, names = line.partition("\t")
        if path and path[0] not in "#<=>|":
            path = _plain(path)
            written[path] = f"{written[path]} {names}" if path in written else names
    return StoodHere(written)


def standing_in_last_copy(root: str) -> tuple[StoodHere, str]:
    """What the last daily copy holds, and its day in words; nothing where there is none."""
    if not os.path.isdir(os.path.join(root, OURS, "copies")):
        return StoodHere(), ""
    from crewboard.folder.disk.archive import copies_of
    from crewboard.folder.disk.unpack import members
    from crewboard.order.said import day_in_words

    for copy in reversed(copies_of(root)):
        try:
            packed = members(copy.path)
            written = {
                name: written_names(_ids_in(name, data))
                for name, data in packed
                if name.endswith(".toml")
            }
        except NotKept:
            continue  # an older one is better than none
        return StoodHere(written), day_in_words(copy.at.date())
    return StoodHere(), ""


def _ids_in(name: str, data: bytes) -> frozenset[str]:
    """The ids of a day's entries; nothing of another file, or of one that cannot be read."""
    from crewboard.folder.toml.day import DayText, parse_day

    day = parse_day(data) if name.startswith("days/") else None
    entries = day.values.get("entries") if isinstance(day, DayText) else None
    return frozenset(entries) if isinstance(entries, dict) else frozenset()


def forget_known(root: str, paths: Iterable[str]) -> None:
    """These files were taken away or changed on purpose: nobody asks for what was in them."""
    text = read_known(root)
    if text:
        standing = standing_in(text)
        for path in paths:
            standing.written.pop(path, None)
        write_known(root, known_text(standing), make_folder=False)


def write_known(root: str, text: str, *, make_folder: bool) -> None:
    """Keep the text. Never raises: in a folder that is only read nothing is remembered.

    It is not flushed to the disk: after a power cut the copies still know most of it.
    """
    from crewboard.folder.disk.part import name_for_part

    folder = os.path.join(root, OURS)
    with suppress(OSError):
        if os.path.islink(folder):
            return
        if make_folder and not os.path.isdir(folder):
            _make(folder, root)
        part = name_for_part(folder)
        try:
            _write(part, os.path.join(root, KNOWN), text.encode("utf-8", "surrogateescape"))
            os.replace(part, os.path.join(root, KNOWN))
        except BaseException:
            with suppress(OSError):
                os.unlink(part)
            raise


def _make(folder: str, root: str) -> None:
    from crewboard.folder.disk.write import make_folders

    make_folders(folder, root)


def _write(part: str, old: str, data: bytes) -> None:
    from crewboard.folder.disk.shared import keep_as, take_from_folder

    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
    descriptor = os.open(part, flags, 0o666)
    try:
        if os.path.exists(old):
            keep_as(descriptor, old, run=False)
        else:
            take_from_folder(descriptor, os.path.dirname(part))
        while data:
            data = data[os.write(descriptor, data) :]
    finally:
        os.close(descriptor)


def _escaped(name: str) -> str:
    """A name without blanks: nearly all have none."""
    if name.isprintable() and " " not in name and "%" not in name:
        return name
    return "".join(c if c.isprintable() and c not in " %" else f"%{ord(c):06x}" for c in name)


def _plain(written: str) -> str:
    first, *rest = written.split("%")
    try:
        return first + "".join(chr(int(part[:6], 16)) + part[6:] for part in rest)
    except (ValueError, OverflowError):
        return written
