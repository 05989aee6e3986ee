"""`crewboard copies` and `crewboard restore`: the daily copies of the folder."""

from __future__ import annotations

import os
from datetime import datetime

from crewboard.command.exits import Exit
from crewboard.command.opened import DIR, Refused, must_be_ours_to_write
from crewboard.command.typed import Call, Command, Option, Word
from crewboard.folder.cannot import ChangedMeanwhile, NotKept
from crewboard.folder.disk.archive import DailyCopy, compare, copies_of
from crewboard.folder.disk.archive import restore as bring_back
from crewboard.order.said import how_many


def _copies(call: Call) -> Exit:
    found = copies_of(_root(call))
    for each in found:
        size = os.path.getsize(each.path) / 1000
        call.out.line(f"{_name(each):<24} {size:8.0f} KB")
    if not found:
        call.out.talk("There is no copy yet: the first entry of a day makes one.")
    return Exit.FINE


def _restore(call: Call) -> Exit:
    root = _root(call)
    path = _chosen(root, call.word("COPY"))
    if call.given("do-it"):
        must_be_ours_to_write(root)
    try:
        difference = compare(path, root)
        for mark, paths in (
            ("comes back", difference.missing),
            ("gets its old text back", difference.changed),
            (
                "is newer and goes" if call.given("exact") else "is newer and stays",
                difference.newer,
            ),
        ):
            call.out.lines(f"{each}: {mark}" for each in paths)
        if not call.given("do-it"):
            call.out.talk("Nothing was changed. To restore: --do-it")
            return Exit.FINE
        return _do_it(call, root, path)
    except NotKept as error:
        raise Refused(error.sentence, error.hint, Exit.DISK) from None


def _do_it(call: Call, root: str, path: str) -> Exit:
    from crewboard.folder.disk.lock import folder_lock

    try:
        with folder_lock(root):
            made = bring_back(path, root, datetime.now(), exact=call.given("exact"))
    except ChangedMeanwhile as error:
        raise Refused(f"{error.path} is being changed by another program", "try again") from None
    call.out.talk(f'How it was before is kept as "{_name(made.copy)}".')
    if made.left_out:
        call.out.talk(f"{how_many(len(made.left_out), 'large file')} not in that copy.")
    return Exit.FINE


def _root(call: Call) -> str:
    root = call.word("DIR")
    if not os.path.isdir(root):
        raise Refused(f'there is no folder "{root}"')
    return root


def _name(copy: DailyCopy) -> str:
    return os.path.basename(copy.path).removesuffix(".zip")


def _chosen(root: str, said: str) -> str:
    """The copy of that name or day, or an archive by its path."""
    named = {_name(each): each.path for each in copies_of(root)}
    if said.removesuffix(".zip") in named:
        return named[said.removesuffix(".zip")]
    if os.path.isfile(said):
        return said
    from crewboard.folder.read.fault import nearest

    raise Refused(f'there is no copy "{said}"', nearest(said, named))


copies = Command(
    _copies,
    "Lists the daily copies of the folder. The first entry of a day makes one; vehicle.toml says "
    "for how many days they are kept (copies_days).",
    (DIR,),
    (),
    ("crewboard copies .",),
)
restore = Command(
    _restore,
    "Shows what a daily copy would change, and with --do-it brings it back. How the folder was "
    "before is kept as a copy of its own.",
    (DIR, Word("COPY", "a copy as crewboard copies lists it, or an archive's path")),
    (
        Option("do-it", "restore"),
        Option("exact", "also take away TOML files that the copy does not have"),
    ),
    ("crewboard restore . 2026-05-02", "crewboard restore . 2026-05-02 --do-it"),
)
