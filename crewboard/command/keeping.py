"""The commands that look after the folder: `new`, `plan-keys`, `copies`, `restore`.

What one of them alone needs is imported when it is called.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime, time
from typing import TYPE_CHECKING

from crewboard.command.exits import Exit, Refused
from crewboard.command.opened import DIR, JSON, as_read, folder_of, must_be_ours_to_write
from crewboard.command.typed import Call, Command, Option, Word
from crewboard.order.said import how_many

if TYPE_CHECKING:
    from crewboard.folder.disk.archive import DailyCopy, NewCopy


def _new(call: Call) -> Exit:
    from crewboard.folder.cannot import CannotSpell, NotKept
    from crewboard.folder.edit.new import NewVehicle, new_folder

    usual = NewVehicle(call.option("name").strip() or _called_as(call.word("DIR")))
    asked = usual._replace(
        what=call.option("what"),
        work_days=call.every("every") or usual.work_days,
        opens=_time(call.option("opens"), usual.opens),
        closes=_time(call.option("closes"), usual.closes),
        people=call.every("people"),
        components=call.every("components") or usual.components,
    )
    try:
        written = new_folder(call.word("DIR"), asked)
    except NotKept as error:
        raise Refused(error.sentence, error.hint) from None
    except CannotSpell as error:
        raise Refused(error.sentence) from None
    call.out.keeps(written)
    call.out.talk(f"Open it with: crewboard {call.word('DIR')}")
    return Exit.FINE


def _called_as(folder: str) -> str:
    """ "Our bus" for a folder called our-bus."""
    name = os.path.basename(os.path.abspath(folder)).replace("-", " ").replace("_", " ").strip()
    return name[:1].upper() + name[1:]


def _time(typed: str, otherwise: time) -> time:
    from crewboard.plan import as_typed

    return as_read(lambda: as_typed.clock(typed)) if typed else otherwise


def _plan_keys(call: Call) -> Exit:
    from crewboard.folder.read.fault import nearest
    from crewboard.folder.read.keys import FILES

    asked = call.word("FILE").removesuffix(".toml")
    names = {file.removesuffix(".toml").removesuffix("/NAME"): file for file in FILES}
    if asked and asked not in names:
        raise Refused(f'there is no file "{asked}" of the plan', nearest(asked, names))
    chosen = {names[asked]: FILES[names[asked]]} if asked else FILES
    if call.given("json"):
        from crewboard.command.json_form import form_of

        call.out.json(
            form_of("plan-keys", files=[{"file": f, "keys": keys} for f, keys in chosen.items()])
        )
        return Exit.FINE
    for file, keys in chosen.items():
        call.out.line(file)
        for key in keys:
            call.out.line(f"  {key.key} = {key.value}")
            call.out.line(f"      {key.says}")
    return Exit.FINE


new = Command(
    _new,
    "Makes a folder for a vehicle: a few small files, to be read and changed by hand or on the "
    "screens. Files that are there already stay as they are.",
    (Word("DIR", "the new folder"),),
    (
        Option("name", "what the vehicle is called; otherwise as the folder", "NAME"),
        Option("what", "what it is, in a few words", "TEXT"),
        Option("every", 'when the crew meets: "first saturday" "wednesday"', "DAYS", many=True),
        Option("opens", "when the shop opens, such as 09:00", "TIME"),
        Option("closes", "when it closes", "TIME"),
        Option("people", "names of the crew; the first of them leads", "NAME", many=True),
        Option("components", "main components, such as frame deck roof", "NAME", many=True),
    ),
    (
        "crewboard new our-bus",
        'crewboard new our-bus --name "Our bus" --every "first saturday" "third saturday"',
        'crewboard new our-bus --name "Our bus" --people "Ada Holt" "Tom Reed" --components frame',
    ),
)


@contextmanager
def refused_by_the_disk() -> Iterator[None]:
    """Raises `Refused` where the disk does not take it, or another program comes between."""
    from crewboard.folder.cannot import CannotFold, ChangedMeanwhile, NotKept

    try:
        yield
    except CannotFold as error:
        raise Refused(error.sentence) from None
    except NotKept as error:
        raise Refused(error.sentence, error.hint, Exit.DISK) from None
    except ChangedMeanwhile as error:
        raise Refused(f"{error.path} is being changed by another program", "try again") from None


def _copies(call: Call) -> Exit:
    from crewboard.folder.disk.archive import copies_of

    kept = copies_of(folder_of(call))
    for copy in kept:
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
    if made.left_out:
        call.out.talk(f"{how_many(len(made.left_out), 'large file')} not in that copy.")
    return Exit.FINE


def _difference(path: str, root: str, *, exact: bool) -> list[str]:
    """What bringing the copy back changes, file by file."""
    from crewboard.folder.disk.archive import compare

    difference = compare(path, root)
    marks = {
        "comes back": difference.missing,
        "gets its old text back": difference.changed,
        f"is newer and {'goes' if exact else 'stays'}": difference.newer,
    }
    return [f"{file}: {mark}" for mark, files in marks.items() for file in files]


def _brought_back(path: str, root: str, *, exact: bool) -> NewCopy:
    from crewboard.folder.disk.archive import restore as bring_back
    from crewboard.folder.disk.lock import folder_lock

    with folder_lock(root):
        return bring_back(path, root, datetime.now(), exact=exact)


def _name(copy: DailyCopy) -> str:
    return os.path.basename(copy.path).removesuffix(".zip")


def _chosen(root: str, typed: str) -> str:
    """The copy of that name or day, or an archive by its path."""
    from crewboard.folder.disk.archive import copies_of

    named = {_name(copy): copy.path for copy in copies_of(root)}
    if typed.removesuffix(".zip") in named:
        return named[typed.removesuffix(".zip")]
    if os.path.isfile(typed):
        return typed
    from crewboard.folder.read.fault import nearest

    raise Refused(f'there is no copy "{typed}"', nearest(typed, named))


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
plan_keys = Command(
    _plan_keys,
    "Lists what can be said in the plan's files: each key, how its value is written, and what it "
    "says. NAME stands for a short name of your own choice.",
    (Word("FILE", "vehicle, crew, supplies, components or hazards", optional=True),),
    (JSON,),
    ("crewboard plan-keys", "crewboard plan-keys components"),
)
