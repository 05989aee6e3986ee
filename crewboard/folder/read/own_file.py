"""A file of the folder, by its path in it: the pictures and recordings that entries and the plan
name. Nothing outside the folder is one of them, by whatever way the path leads there."""

from __future__ import annotations

import os
from typing import NamedTuple
from unicodedata import normalize

_MEND = "write its path from the folder, such as pictures/deck.jpg"


class WrongFile(NamedTuple):
    """What is wrong with a path, as a sentence, and how it is mended."""

    says: str
    mend: str = _MEND

    def __str__(self) -> str:
        return f"{self.says}; {self.mend}"


def wrong_file(root: str, name: str) -> WrongFile | None:
    """What is wrong with a file's path from the folder `root`; None where the file is there."""
    found = own_file(root, name)
    return found if isinstance(found, WrongFile) else None


def own_file(root: str, name: str) -> str | WrongFile:
    """Where on the disk a file of the folder lies, its links followed; what is wrong with the path
    where it leads out of the folder, also through a link, or to no file."""
    outside = WrongFile(f'the picture "{name}" is not inside the folder')
    if os.path.isabs(name) or "\\" in name or ":" in name or "\0" in name or not name.strip():
        return outside
    try:
        real = os.path.realpath(root)
        path = os.path.realpath(os.path.join(real, name))
        if os.path.commonpath((path, real)) != real:
            return outside
        if os.path.isfile(path):
            return path
        none = f'there is no picture "{name}"'
        spelled = _spelled_here(real, name)
        return WrongFile(none, f'it is called "{spelled}" here') if spelled else WrongFile(none)
    except (OSError, ValueError):
        return outside


def _spelled_here(root: str, name: str) -> str:
    """The path of the file whose name differs only in capital letters, or in how its accents are
    put together; empty where there is none."""
    folder, spelled = root, []
    for part in name.split("/"):
        if not os.path.isdir(folder):
            return ""
        there = {_as_one(one): one for one in sorted(os.listdir(folder), reverse=True)}
        if (right := there.get(_as_one(part))) is None:
            return ""
        spelled.append(right)
        folder = os.path.join(folder, right)
    return "/".join(spelled) if os.path.isfile(folder) else ""


def _as_one(name: str) -> str:
    return normalize("NFC", name).casefold()
