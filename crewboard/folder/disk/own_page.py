"""A page of ours beside the folder or wherever a person asked for it: made anew, and no file of
anybody else's ever written over."""

from __future__ import annotations

import os
from contextlib import suppress

from crewboard.folder.disk.new_file import write_new
from crewboard.folder.disk.part import name_for_part

_HEAD = 400  # bytes of a page in which its mark stands


def put_page(path: str | os.PathLike[str], text: str, mark: str) -> None:
    """Put the page in its place in one step: who reads finds the old page or the new.

    Raises FileExistsError where something stands there that does not have the `mark` of ours in
    its head, OSError with the path where the disk will not have it.
    """
    target = os.path.realpath(path)
    if not os.path.lexists(target):
        write_new(target, text)
        return
    if not _is_ours(target, mark):
        raise FileExistsError(17, "this file is no page of ours", os.fspath(path))
    part = name_for_part(os.path.dirname(target))
    try:
        write_new(part, text)
        os.replace(part, target)
    except OSError as error:
        with suppress(OSError):
            os.unlink(part)
        raise OSError(error.errno, error.strerror, os.fspath(path)) from error


def _is_ours(path: str, mark: str) -> bool:
    """Whether it is a plain file with our mark. Raises OSError."""
    if not os.path.isfile(path):
        return False
    with open(path, "rb") as file:
        return f'name="generator" content="{mark}"'.encode() in file.read(_HEAD)
