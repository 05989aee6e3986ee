"""The folder that a call names, opened; the moment and the person that it speaks for."""

from __future__ import annotations

import os
from collections.abc import Callable
from datetime import date, datetime
from typing import TYPE_CHECKING, TypeVar

from crewboard.command.exits import Refused, WrongCall
from crewboard.command.typed import Call, Option, Word
from crewboard.wall_clock import real_now, shop_now

if TYPE_CHECKING:
    from crewboard.plan.as_typed import Today
    from crewboard.plan.plan import Plan
    from crewboard.workbench import Workbench

Value = TypeVar("Value")

DIR = Word("DIR", "the vehicle's folder")
TASK = Word(
    "TASK", "a task: its id, the end of its id, or words of its title; of a series glaze/1-3"
)
AT = Option("at", "the moment, such as 2026-05-02T09:00 or 09:00; otherwise now", "MOMENT")
JSON = Option("json", "as one JSON object")
BY = Option("by", "who writes this down; otherwise CREWBOARD_BY of the environment", "WHO")


def open_bench(call: Call) -> Workbench:
    """The folder on the workbench. Raises `Refused` where there is none to work with."""
    from crewboard.workbench import Workbench

    root = call.word("DIR")
    must_hold_a_vehicle(root)
    bench = Workbench(root)
    bench.wall = lambda: real_now(bench.plan)
    return bench


def folder_of(call: Call) -> str:
    """The folder that is named, whatever it holds. Raises `Refused` where there is none."""
    root = call.word("DIR")
    if not os.path.isdir(root):
        raise Refused(f'there is no folder "{root}"')
    return root


def must_hold_a_vehicle(root: str) -> None:
    """Raises `Refused` where the folder is none of a vehicle: nothing is written into it."""
    from crewboard.folder.read.files import DAYS, VEHICLE

    if not os.path.isdir(root):
        raise Refused(f'there is no folder "{root}"', "crewboard new makes one")
    if not os.path.lexists(os.path.join(root, VEHICLE)):
        hint = "crewboard new makes a vehicle's folder"
        if os.path.lexists(os.path.join(root, DAYS)):
            from crewboard.folder.read.copies import copy_beside

            copy = copy_beside(root, VEHICLE)
            hint = f"{copy} seems to be a copy of it: crewboard fold brings it there"
            hint = hint if copy else "bring it back from a copy (crewboard copies lists them)"
        raise Refused(f'there is no {VEHICLE} in "{root}"', hint)


def must_be_ours_to_write(root: str) -> None:
    """Raises `Refused` where the folder was written by a newer program: it is only shown."""
    from crewboard.folder.read.folder import Folder

    if Folder(root).newer:
        sentence = "this folder was written by a newer program and is only shown"
        raise Refused(sentence, "bring this program up to date")


def moment(call: Call, plan: Plan, option: str = "at") -> datetime:
    """The moment that `--at` gives, or now. Raises `WrongCall`."""
    typed = call.option(option)
    return parse_moment(typed, plan) if typed else shop_now(plan)


def parse_moment(typed: str, plan: Plan | None, day: date | None = None) -> datetime:
    """What `as_typed.moment` reads: "2026-05-02T09:00", "2 May 9:00", "09:00", "2 May".

    A time alone is one of `day`, otherwise of today. Without the plan only a date in figures with
    its time. Raises `WrongCall`.
    """
    from crewboard.plan import as_typed  # what is typed is read where something is typed

    as_of = today(plan) if plan is not None else as_typed.Today(date.min)
    as_of = as_of._replace(on=day) if day is not None else as_of
    return as_read(lambda: as_typed.moment(typed, as_of))


def today(plan: Plan) -> Today:
    """The shop's day, against which a typed date or time is read."""
    from crewboard.plan.as_typed import Today

    return Today(shop_now(plan).date(), plan.vehicle.work_days)


def parse_day(typed: str, plan: Plan) -> date:
    """ "2026-05-02" or "2 May". Raises `WrongCall`."""
    from crewboard.plan import as_typed

    return as_read(lambda: as_typed.day(typed, today(plan).on))


def parse_number(typed: str, thing: str) -> float:
    """A number as people type it, with a point or a comma. Raises `WrongCall`."""
    from crewboard.plan import as_typed

    try:
        return as_typed.hours(typed) if thing == "hours" else as_typed.number(typed)
    except as_typed.Unread as error:
        sentence = error.sentence.removesuffix(" of hours")
        raise WrongCall(f"{sentence} of {thing}", error.hint) from None


def as_read(read: Callable[[], Value]) -> Value:
    """What the reading gives. Raises `WrongCall` where it cannot."""
    from crewboard.plan.as_typed import Unread

    try:
        return read()
    except Unread as error:
        raise WrongCall(error.sentence, error.hint) from None


def written_by(call: Call, plan: Plan) -> str:
    """The id of the person who writes, empty where nobody was named."""
    from crewboard.command.naming import person

    typed = typed_writer(call)
    return person(plan, typed) if typed else ""


def typed_writer(call: Call) -> str:
    """Who writes, as it was typed or stands in the environment; empty where nobody was named."""
    return call.option("by") or os.environ.get("CREWBOARD_BY", "")
