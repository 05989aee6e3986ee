"""The folder that a call names, opened; the moment and the person that it speaks for."""

from __future__ import annotations

import os
from contextlib import suppress
from datetime import date, datetime, time
from typing import TYPE_CHECKING

from crewboard.command.exits import Exit
from crewboard.command.typed import Call, Option, Word, WrongCall
from crewboard.wall_clock import shop_now

if TYPE_CHECKING:
    from crewboard.plan.plan import Plan
    from crewboard.workbench import Workbench

DIR = Word("DIR", "the vehicle's folder")
AT = Option("at", "the moment, such as 2026-05-02T09:00 or 09:00; otherwise now", "MOMENT")
JSON = Option("json", "as one JSON object")
BY = Option("by", "who writes this down; otherwise CREWBOARD_BY of the environment", "WHO")


class Refused(Exception):
    """What was asked is not done: the reason, and how to mend it."""

    def __init__(self, says: str, mend: str = "", exit_code: Exit = Exit.REFUSED) -> None:
        super().__init__(f"{says}; {mend}" if mend else says)
        self.exit = exit_code


def open_bench(call: Call) -> Workbench:
    """The folder on the workbench. Raises `Refused` where there is none to work with."""
    from crewboard.workbench import Workbench

    root = call.word("DIR")
    must_hold_a_vehicle(root)
    return Workbench(root)


def must_hold_a_vehicle(root: str) -> None:
    """Raises `Refused` where the folder is none of a vehicle: nothing is written into it."""
    from crewboard.folder.read.files import VEHICLE

    if not os.path.isdir(root):
        raise Refused(f'there is no folder "{root}"', "crewboard new makes one")
    if not os.path.lexists(os.path.join(root, VEHICLE)):
        hint = "crewboard new makes a vehicle's folder"
        raise Refused(f'there is no {VEHICLE} in "{root}"', hint)


def must_be_ours_to_write(root: str) -> None:
    """Raises `Refused` where the folder was written by a newer program: it is only shown."""
    from crewboard.folder.read.folder import Folder

    if Folder(root).newer:
        says = "this folder was written by a newer program and is only shown"
        raise Refused(says, "bring this program up to date")


def moment(call: Call, plan: Plan, option: str = "at") -> datetime:
    """The moment that `--at` gives, or now. Raises `WrongCall`."""
    said = call.option(option)
    return parse_moment(said, plan) if said else shop_now(plan)


def parse_moment(said: str, plan: Plan | None) -> datetime:
    """ "2026-05-02T09:00", "2026-05-02 09:00", "09:00" (today), or a day: when the shop opens.

    The last two need the plan. Raises `WrongCall`.
    """
    if plan is not None:
        with suppress(ValueError):
            return datetime.combine(shop_now(plan).date(), time.fromisoformat(said))
        with suppress(ValueError):
            day, usual = date.fromisoformat(said), plan.vehicle.work_days
            return datetime.combine(day, (usual.hours_on(day) or usual.hours).opens)
    try:
        found = datetime.fromisoformat(said)
    except ValueError:
        hint = "write 2026-05-02T09:00, 2026-05-02 or 09:00"
        raise WrongCall(f'"{said}" is not a moment', hint) from None
    if found.tzinfo is not None:
        raise WrongCall(f'"{said}" has an offset from UTC', "write what the shop's clock shows")
    return found.replace(microsecond=0)


def parse_day(said: str) -> date:
    """ "2026-05-02". Raises `WrongCall`."""
    try:
        return date.fromisoformat(said)
    except ValueError:
        raise WrongCall(f'"{said}" is not a day', "write 2026-05-02") from None


def parse_number(said: str, thing: str) -> float:
    """A number as people type it, with a point or a comma. Raises `WrongCall`."""
    try:
        number = float(said.replace(",", "."))
    except ValueError:
        raise WrongCall(f'"{said}" is not a number of {thing}', "write 3 or 3.5") from None
    if number != number or number in (float("inf"), float("-inf")):
        raise WrongCall(f'"{said}" is not a number of {thing}', "write 3 or 3.5")
    return number


def written_by(call: Call, plan: Plan) -> str:
    """The id of the person who writes, empty where nobody was named."""
    from crewboard.command.naming import person

    said = call.option("by") or os.environ.get("CREWBOARD_BY", "")
    return person(plan, said) if said else ""
