"""Where the page on the wall is to be kept: asked for once, on this computer.

`.crewboard/wall` has a line for each computer: its digits, and behind a tab the path of the page.
"""

from __future__ import annotations

import os

from crewboard.folder.disk.known import OURS
from crewboard.folder.disk.part import name_for_part, this_computer
from crewboard.folder.disk.read import read_file

_PATH = os.path.join(OURS, "wall")


def wall_asked(root: str | os.PathLike[str]) -> str:
    """The path of the page to keep on this computer; empty where nobody asked."""
    return _asked(root).get(this_computer(), "")


def ask_for_wall(root: str | os.PathLike[str], path: str) -> None:
    """Remember the path; an empty one to keep the page no more. Raises OSError."""
    asked = _asked(root)
    asked[this_computer()] = path
    text = "".join(f"{computer}\t{page}\n" for computer, page in asked.items() if page)
    place = os.path.join(root, _PATH)
    os.makedirs(os.path.dirname(place), exist_ok=True)
    part = name_for_part(os.path.dirname(place))
    with open(part, "xb") as file:
        file.write(os.fsencode(text))
    os.replace(part, place)


def _asked(root: str | os.PathLike[str]) -> dict[str, str]:
    try:
        text = os.fsdecode(read_file(os.path.join(root, _PATH)) or b"")
    except OSError:
        return {}
    lines = (line.partition("\t") for line in text.splitlines())
    return {computer: page for computer, _, page in lines if page.endswith((".html", ".htm"))}
