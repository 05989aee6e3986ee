"""The copies of the plan's files that lie in an open folder."""

from __future__ import annotations

import os

from crewboard.folder.read.copies import copies_in
from crewboard.folder.read.folder import Folder


def plan_copies(folder: Folder) -> dict[str, str]:
    """Copies of the plan's files: path -> the path of the file that it is a copy of."""
    return copies_in(os.fspath(folder.root), folder.component_files)
