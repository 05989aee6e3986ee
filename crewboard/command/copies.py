"""The daily copies: `copies` lists them, `restore` brings one back."""

from __future__ import annotations

import os
from contextlib import suppress
from datetime import datetime
from typing import TYPE_CHECKING

from crewboard.command.exits import Exit, Refused
from crewboard.command.keeping import refused_by_the_disk
from crewboard.command.opened import DIR, folder_of, must_be_ours_to_write
from crewboard.command.typed import Call, Command, Option, Word

LAST = "last"  # typed for the newest copy

if TYPE_CHECKING:
    from crewboard.folder.disk.archive import DailyCopy, NewCopy


def _copies(call: Call) -> Exit:
    from crewboard.folder.disk.archive import copies_of

    kept = copies_of(folder_of(call))
    for copy in kept:
        with suppress(FileNotFoundError):  # dropped just now
            size = os.path.getsize(copy.path) / 1000
            call.out.line(f"{_name(copy):<24} {size:8.0f} KB")
    if not kept:
        call.out.talk("There is no copy yet: the first entry of a day makes one.")
    return Exit.FINE


def _restore(call: Call) -> Exit:
    root = folder_of(call)
    path = _chosen(root, call.word("COPY"))
    if call.given("do-it"):
        must_be_ours_to_write(root)
    with refused_by_the_disk():
        lines = _difference(path, root, exact=call.given("exact"))
        if not call.given("do-it"):
            call.out.lines(lines)
            call.out.talk("Nothing was changed. To restore: --do-it")
            return Exit.FINE
        made = _brought_back(path, root, exact=call.given("exact"))
    call.out.keeps(lines)
    call.out.talk(f'How it was before is kept as "{_name(made.copy)}".')
    if made.skipped:
        from crewboard.folder.disk.first_write import skipped_in

        call.out.talk(f"Not in that copy: {skipped_in(made)}.")
    return Exit.FINE


def _difference(path: str, root: str, *, exact: bool) -> list[str]:
    """What bringing the copy back changes, file by file."""
    from crewboard.folder.disk.restore import compare

    difference = compare(path, root)
    marks = {
        "comes back": difference.missing,
        "gets its old text back": difference.changed,
        f"is newer and {'goes' if exact else 'stays'}": difference.newer,
        "is gone or changed, and copies only list it": difference.lost,
        "stays as it is: only text is brought back": difference.passed_over,
    }
    return [f"{file}: {mark}" for mark, files in marks.items() for file in files]


def _brought_back(path: str, root: str, *, exact: bool) -> NewCopy:
    from crewboard.folder.disk.lock import folder_lock
    from crewboard.folder.disk.restore import restore as bring_back

    with folder_lock(root):
        return bring_back(path, root, datetime.now(), exact=exact)


def _name(copy: DailyCopy) -> str:
    return os.path.basename(copy.path).removesuffix(".zip")


def _chosen(root: str, typed: str) -> str:
    """The copy of that name or day, the last one, or an archive by its path."""
    from crewboard.folder.disk.archive import copies_of

    named = {_name(copy): copy.path for copy in copies_of(root)}
    if typed.removesuffix(".zip") in named:
        return named[typed.removesuffix(".zip")]
    if typed == LAST and named:
        return list(named.values())[-1]
    if os.path.isfile(typed):
        return typed
    from crewboard.folder.read.fault import nearest

    raise Refused(f'there is no copy "{typed}"', nearest(typed, named))


copies = Command(
    _copies,
    "Lists the daily copies of the folder: its TOML and small texts, with a list of the pictures. "
    "The first entry of a day makes one; vehicle.toml says how many are kept, and for how many "
    "days at least (copies_days).",
    (DIR,),
    (),
    ("crewboard copies .",),
)
restore = Command(
    _restore,
    "Shows what a daily copy would change, and with --do-it brings it back: text only, in the "
    "vehicle's own folders. How the folder was before is kept as a copy of its own.",
    (DIR, Word("COPY", "a copy as crewboard copies lists it, or last, or an archive's path")),
    (
        Option("do-it", "restore"),
        Option("exact", "also delete TOML files that the copy does not have"),
    ),
    ("crewboard restore . last", "crewboard restore . last --do-it"),
)
