"""Saving entries outside the folder, when the folder's drive will not take them."""

from __future__ import annotations

import os
from collections.abc import Sequence
from datetime import datetime
from typing import NamedTuple

from crewboard.workbench import Said


class Saved(NamedTuple):
    """Whether it was kept, and a sentence that says so."""

    kept: bool
    sentence: str


def save(path: str, said: Sequence[Said], by: str, now: datetime) -> Saved:
    """Write the entries as the day's file would hold them into a new file at `path`."""
    from crewboard.folder.read.day_file import entry_fields
    from crewboard.folder.toml.append import SystemDice, entry_line, new_day, new_id
    from crewboard.logbook.entry import Entry

    taken: set[str] = set()
    lines: list[str] = []
    for each in said:
        entry_id = new_id(SystemDice(), taken)
        taken.add(entry_id)
        written = None if abs((now - each.at).total_seconds()) < 60 else now
        entry = Entry(entry_id, each.at, each.insisted, by, written, each.replaces)
        lines.append(entry_line(entry_id, entry_fields(entry)))
    text = new_day(said[0].file_day) + "".join(f"{line}\n" for line in lines).encode()
    target = os.path.expanduser(path)
    try:
        with open(target, "xb") as file:
            file.write(text)
    except FileExistsError:
        return Saved(False, f"{path} exists already; nothing was written over it")
    except (OSError, ValueError) as error:
        return Saved(False, f"{path} cannot be written: {error}")
    return Saved(True, f"kept, to be folded in when the drive is well: {path}")
