"""A file of the folder that is to be shown: a picture, sound, a film, a drawing or a paper, told by
its bytes and by how its name ends, so that nothing else is ever handed to another program."""

from __future__ import annotations

import os
from pathlib import Path
from typing import NamedTuple
from urllib.parse import quote

from crewboard.folder.intake.looked_through import MOST, opened
from crewboard.folder.intake.what_it_is import FIRST_BYTES, FileSort, sort_of
from crewboard.folder.read.own_file import WrongFile, own_file

DRAWING = FileSort("drawing", (".svg",))
PAPER = FileSort("paper", (".pdf",))


class ToShow(NamedTuple):
    """A file of the folder: where it lies on the disk, its links followed, and what it is."""

    path: str
    sort: FileSort


def to_show(root: str, name: str) -> ToShow | WrongFile:
    """The file of the folder `root` by its path in it; why it cannot be shown, in a sentence."""
    path = own_file(root, name)
    if isinstance(path, WrongFile):
        return path
    try:
        descriptor = opened(path)
        try:
            size, first = os.fstat(descriptor).st_size, os.read(descriptor, FIRST_BYTES)
        finally:
            os.close(descriptor)
    except OSError as error:
        return WrongFile(f'"{name}" cannot be read: {error.strerror}', "see who may read it")
    if size >= MOST:
        large = f'"{name}" has {size // 1_000_000:,} MB, too many to be shown'
        return WrongFile(large, "look at it with another program")
    sort = sort_of(first) or _drawn_or_written(first)
    if sort is None or not path.lower().endswith(sort.endings):
        what = "picture" if sort is None else f"{sort.word} by its name"
        return WrongFile(f'"{name}" is no {what}', "look what it is; bring the right one back")
    return ToShow(path, sort)


def why_not_shown(root: str, name: str) -> str:
    """Why the file cannot be shown, in a sentence; empty where it can."""
    found = to_show(root, name)
    return found.says if isinstance(found, WrongFile) else ""


def way_to(root: str, folder: str) -> str:
    """How an address in a page that lies in `folder` leads to the vehicle's folder `root`:
    "../van/"."""
    real = os.path.realpath(root)
    try:
        way = os.path.relpath(real, os.path.realpath(folder)).replace(os.sep, "/")
    except ValueError:  # on another drive of Windows
        return f"{Path(real).as_uri()}/"
    return f"{quote(os.fsencode(way))}/"


def _drawn_or_written(first: bytes) -> FileSort | None:
    if first.startswith(b"%PDF-"):
        return PAPER
    text = first.lstrip(b"\xef\xbb\xbf \t\r\n")
    return DRAWING if text.startswith((b"<svg", b"<?xml")) and b"<svg" in first else None
