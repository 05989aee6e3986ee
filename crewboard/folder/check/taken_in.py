"""Files that were taken in, against what was written down of them then: gone, or not the same any
more. Each is read from end to end, so this is asked only where somebody looks the folder over."""

from __future__ import annotations

import os
from collections.abc import Iterator
from typing import NamedTuple

from crewboard.folder.cannot import NotKept
from crewboard.folder.check.logbook import standing
from crewboard.folder.intake.copied import read_through
from crewboard.folder.read.fault import Remark
from crewboard.folder.read.files import day_path
from crewboard.folder.read.folder import Folder
from crewboard.folder.read.own_file import WrongFile, own_file
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.record.seen import TookIn
from crewboard.order.said import day_in_words

AGAIN = "take it in again, from the phone or from whom has a copy: crewboard take-in"


class FileAmiss(NamedTuple):
    """A file that is not as it was taken in: the line that says so, and a sentence."""

    day: Day
    entry: Entry
    file: str
    says: str
    gone: bool

    @property
    def mend(self) -> str:
        return AGAIN if self.gone else f"move it out of the folder and {AGAIN}"


def files_amiss(folder: Folder) -> Iterator[FileAmiss]:
    """Each file that was taken in and is gone, or whose bytes have another SHA-256 than then."""
    looked_at = set[tuple[str, str]]()
    for day in folder.logbook.days.values():
        for entry in standing(day):
            act = entry.act
            if isinstance(act, TookIn) and (act.file, act.hash) not in looked_at:
                looked_at.add((act.file, act.hash))
                path = own_file(os.fspath(folder.root), act.file)
                if isinstance(path, WrongFile):
                    yield FileAmiss(day, entry, act.file, path.says, gone=True)
                elif says := _changed(path, entry, act):
                    yield FileAmiss(day, entry, act.file, says, gone=False)


def _changed(path: str, entry: Entry, act: TookIn) -> str:
    """What is wrong with a file that is there; empty where it is as it was, or nobody can say."""
    if not act.hash:
        return ""
    try:
        same = read_through(path).sha256 == act.hash
    except NotKept as error:
        return f'"{act.file}": {error.sentence}'
    since = f"since it was taken in on {day_in_words(entry.at)}"
    return "" if same else f'"{act.file}" was changed {since}'


def changed_files(folder: Folder) -> Iterator[Remark]:
    """Those that are there and not the same; one that is gone is told where it is named."""
    for amiss in files_amiss(folder):
        if not amiss.gone:
            path = ("entries", amiss.day.last_wording(amiss.entry.id), "hash")
            yield Remark(day_path(amiss.day.date), path, "changed-file", amiss.says, amiss.mend)
