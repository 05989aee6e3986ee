"""What the short names of components, tasks and people may look like."""

from __future__ import annotations

import re
from collections.abc import Container

_ID = re.compile(r"\w[\w-]*")
HINT = "use letters, digits and hyphens, such as body-frame"


def is_id(text: str) -> bool:
    """Letters, digits, hyphens and underscores, beginning with a letter or digit."""
    return _ID.fullmatch(text) is not None


def id_from(name: str, taken: Container[str] = (), most: int = 32) -> str:
    """A short name made from a longer one: "Lay the boards [M8]" gives "lay-the-boards-m8"."""
    words = re.findall(r"\w+", name.lower()) or ["new"]
    short = words[0][:most]
    for word in words[1:]:
        if len(short) + 1 + len(word) > most:
            break
        short += f"-{word}"
    short = short.lstrip("_") or "new"
    number, free = 2, short
    while free in taken:
        free, number = f"{short}-{number}", number + 1
    return free
