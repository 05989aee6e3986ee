"""Files that can be read and say nothing: what a power cut, a full disk or a sync leaves."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from crewboard.folder.read.files import Role

MARK = b"\xef\xbb\xbf"  # of the byte order
HINT = "bring it back from a copy (crewboard copies lists them), or delete the file"


class Nothing(NamedTuple):
    """That a file says nothing, as the last three fields of a fault."""

    code: str
    sentence: str
    hint: str = HINT


def says_nothing(role: Role, data: bytes, values: Mapping[str, Any]) -> Nothing | None:
    """Why the file is as good as lost; None where something can be in it.

    The lists of people, supplies and hazards may have nobody and nothing in them yet, as long as
    somebody wrote a line. A day has its `[entries]`, or at least the times at which it opens.
    """
    if values:
        whole = role != "day" or isinstance(values.get("entries"), dict) or "opens" in values
        return None if whole else Nothing("no-entries", "this day's file has no [entries]")
    if role in ("crew", "supplies", "hazards") and data.removeprefix(MARK).strip():
        return None
    if role in ("other", "stray"):
        return None
    return Nothing("empty", "nothing stands in the file" if data.strip() else "the file is empty")
