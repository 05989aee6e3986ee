"""The commands that look after the folder: `new`, `plan-keys`.

What one of them alone needs is imported when it is called.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from datetime import time

from crewboard.command.exits import Exit, Refused
from crewboard.command.opened import JSON, as_read
from crewboard.command.typed import Call, Command, Option, Word


def _new(call: Call) -> Exit:
    from crewboard.folder.cannot import CannotSpell, NotKept
    from crewboard.folder.edit.new import NewVehicle, new_folder

    if not call.options and not os.path.lexists(os.path.join(call.word("DIR"), "vehicle.toml")):
        from crewboard.command.screens import has_terminal

        if has_terminal():
            return _ask_on_the_screen(call.word("DIR"))
    usual = NewVehicle(call.option("name").strip() or _called_as(call.word("DIR")))
    asked = usual._replace(
        what=call.option("what"),
        work_days=call.every("every") or usual.work_days,
        opens=_time(call.option("opens"), usual.opens),
        closes=_time(call.option("closes"), usual.closes),
        people=call.every("people"),
        components=call.every("components") or usual.components,
        adults=call.given("all-adults"),
        jurisdiction=call.option("jurisdiction"),
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


def _ask_on_the_screen(root: str) -> Exit:
    """The first form asks what the options would have said; where it is left, nothing is made."""
    from crewboard.command.screens import screens_over
    from crewboard.folder.cannot import NotKept
    from crewboard.folder.edit.new import make_root

    there = os.path.lexists(root)
    try:
        make_root(os.path.realpath(root))
    except NotKept as error:
        raise Refused(error.sentence, error.hint) from None
    ended = screens_over(root)
    if not there:
        with suppress(OSError):  # files are in it: it stays
            os.rmdir(root)
    return ended


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
    "screens. Files that are there already stay as they are. Without options, in a terminal, the "
    "screens open and ask for the rest.",
    (Word("DIR", "the new folder"),),
    (
        Option("name", "what the vehicle is called; otherwise as the folder", "NAME"),
        Option("what", "what it is, in a few words", "TEXT"),
        Option("every", 'when the crew meets: "first saturday" "wednesday"', "DAYS", many=True),
        Option("opens", "when the shop opens, such as 09:00", "TIME"),
        Option("closes", "when it closes", "TIME"),
        Option("people", "names of the crew; the first of them leads", "NAME", many=True),
        Option("all-adults", "all of these people are 18 or older"),
        Option("jurisdiction", "whose law the hazard sheets show first: US, GB, EU", "LAW"),
        Option("components", "main components, such as frame deck roof", "NAME", many=True),
    ),
    (
        "crewboard new our-bus",
        'crewboard new our-bus --name "Our bus" --every "first saturday" "third saturday"',
        'crewboard new our-bus --people "Ada Holt" "Tom Reed" --all-adults --components frame',
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


plan_keys = Command(
    _plan_keys,
    "Lists what can be said in the plan's files: each key, how its value is written, and what it "
    "says. NAME stands for a short name of your own choice.",
    (Word("FILE", "vehicle, crew, supplies, components or hazards", optional=True),),
    (JSON,),
    ("crewboard plan-keys", "crewboard plan-keys components"),
)
