"""A small invented body in memory, and its record written line by line."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime, timedelta

from crewboard.fabric.fabric import Fabric, fabric_of
from crewboard.logbook.acts import Act
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.plan.component import Component
from crewboard.plan.piece import Piece
from crewboard.plan.plan import Plan
from crewboard.plan.vehicle import Vehicle

START = datetime(2026, 5, 2, 9)
LATER = datetime(2026, 12, 1)


def piece(name: str, as_found: str = "original", **more: object) -> Piece:
    """ "roof/arches/1": a piece of the component in front of the first "/"."""
    component = name.partition("/")[0]
    several = name.rpartition("/")[0] if name.count("/") > 1 else ""
    return Piece(name, name, component, several, as_found=as_found, **more)  # type: ignore[arg-type]


def body(*pieces: Piece) -> Plan:
    components = {one.component: Component(one.component, one.component) for one in pieces}
    known = {one.id: one for one in pieces}
    return Plan(Vehicle("Plank Wagon"), components, {}, {}, {}, {}, pieces=known)


def entries(*acts: Act, apart: timedelta = timedelta(hours=1)) -> list[Entry]:
    """The acts one after the other, with ids a, b, c ..."""
    return [Entry(f"e{n}", START + n * apart, act, "ada") for n, act in enumerate(acts)]


def logbook(lines: Iterable[Entry]) -> Logbook:
    days: dict[date, list[Entry]] = {}
    for entry in lines:
        days.setdefault(entry.at.date(), []).append(entry)
    return Logbook({day: Day(day, of_it) for day, of_it in sorted(days.items())})


def record(plan: Plan, *acts: Act) -> Fabric:
    return fabric_of(plan, logbook(entries(*acts)), LATER)
