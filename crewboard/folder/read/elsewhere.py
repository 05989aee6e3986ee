"""One day of another vehicle's folder that shares the crew: looked at, never written.

Of that folder only its vehicle.toml, its crew.toml and the file of the day are read.
"""

from __future__ import annotations

import os
from datetime import date
from typing import Any, NamedTuple

from crewboard.folder.disk.read import read_at_most
from crewboard.folder.disk.watch import Trace
from crewboard.folder.read.files import CREW, VEHICLE, day_path
from crewboard.folder.read.one_file import read_bytes
from crewboard.logbook.day import Day
from crewboard.logbook.logbook import Logbook
from crewboard.order.hours.elsewhere import DayElsewhere, day_of_another
from crewboard.plan.plan import Plan
from crewboard.plan.vehicle import Vehicle


class Elsewhere(NamedTuple):
    """What the other vehicles' folders tell of a day, and a sentence for each that cannot be
    read, by its place in `shares_crew_with`."""

    days: tuple[DayElsewhere, ...] = ()
    unread: tuple[tuple[int, str], ...] = ()


def elsewhere_on(root: str, paths: tuple[str, ...], day: date) -> Elsewhere:
    """The day as the folders of other vehicles have it; the paths are from the folder's root."""
    days: list[DayElsewhere] = []
    unread: list[tuple[int, str]] = []
    for number, path in enumerate(paths):
        try:
            days.append(_day(root, path, day))
        except _NotThere as error:
            unread.append((number, str(error)))
    return Elsewhere(tuple(days), tuple(unread))


class _NotThere(Exception):
    """The other folder, or what is wanted of it, cannot be read; the message says why."""


def _day(root: str, path: str, day: date) -> DayElsewhere:
    folder = os.path.join(root, os.path.expanduser(path))
    named = f'the other vehicle\'s folder "{path}"'
    try:
        if not os.path.isdir(folder):
            raise _NotThere(f"{named} is not there, or is no folder")
        if os.path.samefile(folder, root):
            raise _NotThere(f"{named} is this folder itself")
    except (OSError, ValueError) as error:
        raise _NotThere(f"{named} cannot be read: {_why(error)}") from None
    vehicle = _read(folder, VEHICLE, named)
    if vehicle is None:
        raise _NotThere(f"{named} is no vehicle's: it has no {VEHICLE}")
    crew = _read(folder, CREW, named) or {}
    of_day = _read(folder, day_path(day), named)
    plan = Plan(vehicle if isinstance(vehicle, Vehicle) else Vehicle(path), {}, {}, crew, {}, {})
    return day_of_another(plan, Logbook({day: of_day} if isinstance(of_day, Day) else {}), day)


def _read(folder: str, file: str, named: str) -> Any:
    """What a file of the other folder says; None where there is none."""
    path = os.path.join(folder, *file.split("/"))
    try:
        data = read_at_most(path, folder)
    except (OSError, ValueError) as error:
        raise _NotThere(f"{file} of {named} cannot be read: {_why(error)}") from None
    if data is None:
        return None
    read = read_bytes(file, Trace(0, len(data), 0), data)
    if read.value is None:
        raise _NotThere(f"{file} of {named} is broken: crewboard check {os.path.dirname(path)}")
    return read.value


def _why(error: Exception) -> str:
    return (error.strerror if isinstance(error, OSError) else None) or str(error)
