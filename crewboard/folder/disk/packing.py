"""What a copy of the folder takes in: TOML and small text; the rest it lists, with size and hash.

Pictures are many, large, and not written by this tool: copying them each day would fill the disk.
Their hashes tell later whether they are still what they were.
"""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from crewboard.folder.disk.lock import LOCK_NAME
from crewboard.folder.disk.names import OWN_HIDDEN, is_text, is_toml, trouble
from crewboard.folder.disk.part import is_part
from crewboard.folder.disk.read import read_at_most
from crewboard.folder.toml.text import MOST_BYTES

LARGEST = 1_000_000
"""Bytes of the largest text that a copy takes in, but for TOML and a logger's rows."""
MOST_HASHED = 300_000_000
"""Bytes that are hashed for one copy, a few seconds' worth: what is left gets its turn in the next
copies, and no entry waits for a hundred gigabytes of pictures."""


class ListedFile(NamedTuple):
    """A file that is not in the copy: its size, when it was changed, and the SHA-256 of its bytes,
    empty where it was not taken yet."""

    bytes: int
    mtime_ns: int
    sha256: str = ""


class Contents(NamedTuple):
    """What there is, by path within the folder: files to pack with their sizes, files to list, and
    what can be neither, with the reason."""

    to_pack: dict[str, int]
    to_list: dict[str, ListedFile]
    skipped: dict[str, str]

    @property
    def size(self) -> int:
        """Bytes of all that is to be packed."""
        return sum(self.to_pack.values())


def contents_of(folder: str) -> Contents:
    """Look through the folder. Raises OSError only where the folder itself cannot be listed."""
    contents = Contents({}, {}, {})
    for name, entry in _entries(folder, contents.skipped):
        try:
            _sort(name, entry, contents)
        except FileNotFoundError:  # gone meanwhile, or a link that leads nowhere
            if entry.is_symlink():
                contents.skipped[name] = "a link that leads nowhere"
        except OSError as error:
            contents.skipped[name] = error.strerror or str(error)
    return contents


def _sort(name: str, entry: os.DirEntry[str], contents: Contents) -> None:
    kind = entry.stat()
    if entry.is_symlink() and not is_toml(name):
        contents.skipped[name] = "a link"
    elif not stat.S_ISREG(kind.st_mode):
        contents.skipped[name] = "not an ordinary file"
    elif is_text(name) and (reason := trouble(name)):
        contents.skipped[name] = reason
    elif is_toml(name) and kind.st_size > MOST_BYTES:
        contents.skipped[name] = f"larger than the {MOST_BYTES // 1_000_000} MB that are read"
    elif is_text(name) and kind.st_size <= _most(name):
        contents.to_pack[name] = kind.st_size
    else:
        contents.to_list[name] = ListedFile(kind.st_size, kind.st_mtime_ns)


def _most(name: str) -> int:
    return MOST_BYTES if is_toml(name) or name.startswith("readings/") else LARGEST


def _entries(folder: str, skipped: dict[str, str]) -> Iterator[tuple[str, os.DirEntry[str]]]:
    """All but folders, with their paths: nothing hidden, nothing that is the tool's alone."""
    waiting = [""]
    while waiting:
        prefix = waiting.pop()
        try:
            with os.scandir(os.path.join(folder, prefix)) as listing:
                entries = sorted(listing, key=lambda entry: entry.name)
        except OSError as error:
            if not prefix:
                raise
            skipped[prefix] = error.strerror or str(error)
            continue
        for entry in entries:
            if entry.is_dir(follow_symlinks=False):
                if not entry.name.startswith("."):
                    waiting.append(f"{prefix}{entry.name}/")
            elif not _is_hidden(prefix + entry.name):
                yield prefix + entry.name, entry


def _is_hidden(name: str) -> bool:
    last = name.rpartition("/")[2]
    if last == LOCK_NAME or is_part(last):
        return True
    return last.startswith(".") and name not in OWN_HIDDEN


def bytes_to_pack(folder: str, name: str) -> bytes | str:
    """The file's bytes, or why it is not packed."""
    try:
        data = read_at_most(os.path.join(folder, name), folder)
    except OSError as error:
        return error.strerror or str(error)
    if data is None:
        return "gone while the copy was made"
    if not is_toml(name) and b"\0" in data[:LARGEST]:
        return "no text, whatever its name says"
    return data if len(data) <= MOST_BYTES else "grown too large while the copy was made"


def hashed(
    folder: str, files: Mapping[str, ListedFile], before: Mapping[str, ListedFile]
) -> list[str]:
    """The lines of the list, each with its hash: as the copy before knew it where the file did not
    change since, otherwise taken anew, small files first, up to `MOST_HASHED` bytes."""
    from crewboard.folder.toml.values import inline_table, toml_key

    left, lines = MOST_HASHED, list[str]()
    for name, file in sorted(files.items(), key=lambda item: (item[1].bytes, item[0])):
        known = before.get(name)
        if known is not None and known[:2] == file[:2] and known.sha256:
            file = known
        elif file.bytes <= left:
            left -= file.bytes
            file = file._replace(sha256=_hash(os.path.join(folder, name)))
        if is_spelled(name):
            lines.append(f"{toml_key(name)} = {inline_table(file._asdict())}")
    return sorted(lines)


def is_spelled(name: str) -> bool:
    """Whether TOML can spell the name: not one that is no text in any encoding."""
    return not any(0xD800 <= ord(char) <= 0xDFFF for char in name)


def _hash(path: str) -> str:
    """The SHA-256 of the file's bytes, empty where it cannot be read."""
    from hashlib import sha256

    total = sha256()
    try:
        descriptor = os.open(path, os.O_RDONLY | getattr(os, "O_BINARY", 0))
        try:
            while part := os.read(descriptor, 1 << 20):
                total.update(part)
        finally:
            os.close(descriptor)
    except OSError:
        return ""
    return total.hexdigest()
