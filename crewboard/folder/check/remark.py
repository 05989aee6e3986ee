"""What a look over the whole folder finds, before its place in the text was looked up."""

from __future__ import annotations

from typing import NamedTuple

from crewboard.folder.read.fault import KeyPath


class Remark(NamedTuple):
    """A mistake or a question, at a key of a file (path relative to the folder)."""

    file: str
    path: KeyPath
    code: str
    sentence: str
    hint: str = ""
