"""The day's copy, made before the first write of a day; an entry counts more than a copy."""

from __future__ import annotations

import os
from datetime import date
from typing import NamedTuple

from crewboard.folder.cannot import NotKept
from crewboard.folder.disk.archive import NewCopy, daily_copy, drop

NO_COPY = "the day's copy of the folder was not made: "
_MOST_NAMED = 5


class FirstCopy(NamedTuple):
    """The copy that a write made first, if it was the first of the day, and what is to be said of
    it."""

    made: NewCopy | None = None
    remarks: tuple[str, ...] = ()

    def given_up(self) -> bool:
        """Take it away again, for the room it took; whether there was one."""
        if self.made is not None:
            drop(self.made.copy)
        return self.made is not None


def copied_first(root: str | os.PathLike[str], today: date, keep_days: int) -> FirstCopy:
    """Keep the folder as it is, where the day has no copy yet; what hinders it is a remark.

    `today` is that of the real clock. With `keep_days` 0 the crew does without copies.
    """
    try:
        made = daily_copy(root, today, keep_days=keep_days) if keep_days else None
    except NotKept as error:
        return FirstCopy(remarks=(NO_COPY + error.sentence,))
    remark = f"not in the day's copy of the folder: {skipped_in(made)}" if made else ""
    return FirstCopy(made, (remark,) if made and made.skipped else ())


def skipped_in(made: NewCopy) -> str:
    """What could not be read when the copy was made, in words; empty where all could."""
    skipped = [f"{name} ({why})" for name, why in sorted(made.skipped.items())]
    others = len(skipped) - _MOST_NAMED
    return ", ".join(skipped[:_MOST_NAMED]) + (f" and {others} more" if others > 0 else "")
