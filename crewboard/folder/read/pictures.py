"""The pictures and recordings that lie in the folder, whether an entry names them or not."""

from __future__ import annotations

import os
from collections.abc import Iterator
from typing import NamedTuple

from crewboard.folder.disk.names import trouble


class LyingFile(NamedTuple):
    """A file, by its path from the folder, and when it was last written, in seconds."""

    path: str
    written: float


def files_under(root: str | os.PathLike[str], place: str) -> Iterator[LyingFile]:
    """What lies in `place` ("pictures/") and the folders in it. Links are not followed, and what
    cannot be looked at or has a name that not every system can hold is passed over."""
    ahead = [place]
    while ahead:
        prefix = ahead.pop()
        try:
            with os.scandir(os.path.join(root, prefix)) as entries:
                for entry in entries:
                    path = prefix + entry.name
                    if entry.name.startswith(".") or trouble(path):
                        continue
                    if entry.is_dir(follow_symlinks=False):
                        ahead.append(f"{path}/")
                    elif entry.is_file(follow_symlinks=False):
                        yield LyingFile(path, entry.stat(follow_symlinks=False).st_mtime)
        except OSError:
            continue
