"""`crewboard new`: a folder for a vehicle."""

from __future__ import annotations

import os
from datetime import time

from crewboard.command.exits import Exit
from crewboard.command.opened import Refused
from crewboard.command.typed import Call, Command, Option, Word, WrongCall


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
    call.out.lines(written)
    call.out.talk(f"Open it with: crewboard {call.word('DIR')}")
    return Exit.FINE


def _called_as(folder: str) -> str:
    """ "Our bus" for a folder called our-bus."""
    name = os.path.basename(os.path.abspath(folder)).replace("-", " ").replace("_", " ").strip()
    return name[:1].upper() + name[1:]


def _time(said: str, otherwise: time) -> time:
    try:
        return time.fromisoformat(said) if said else otherwise
    except ValueError:
        raise WrongCall(f'"{said}" is not a time of day', "write 09:00") from None


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
