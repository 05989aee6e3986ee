"""The sample project as the tests look at it: read once, never written."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime
from functools import cache
from pathlib import Path

from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import Act
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.sequence.graph import OrderOfWork
from crewboard.plan.plan import Plan

SAMPLE = Path(__file__).parents[2] / "sample_project"
AT = datetime(2026, 5, 2, 9)  # the moment at which the pictures and the guide look at it


@cache
def folder() -> Folder:
    return Folder(SAMPLE)


def plan() -> Plan:
    return folder().plan


def book() -> Logbook:
    return folder().logbook


@cache
def order() -> OrderOfWork:
    return OrderOfWork(plan())


@cache
def board() -> Board:
    """The sample as it stands at the fixed moment."""
    return assess(plan(), book(), AT, order())


def written(*said: tuple[datetime, Act]) -> Logbook:
    """A logbook that says only this; the ids are e0, e1, ..."""
    days: dict[date, list[Entry]] = {}
    for number, (at, act) in enumerate(said):
        days.setdefault(at.date(), []).append(Entry(f"e{number}", at, act, "mirela"))
    return Logbook({day: Day(day, days[day]) for day in sorted(days)})


def when(at: datetime, *said: tuple[datetime, Act], of: Plan | None = None) -> Board:
    """The sample's plan with a logbook of its own."""
    return assess(of or plan(), written(*said), at, None if of else order())


def with_finished(tasks: Iterable[str], on: date = date(2024, 1, 6)) -> Plan:
    """The plan in which these tasks, and no others, were finished before the logbook was kept.

    Everything is in stock, so that nothing but the order of work stands in the way. Those long
    finished have no hold left.
    """
    done = set(tasks)
    return plan()._replace(
        tasks={
            t.id: t._replace(finished=on if t.id in done else None, set_aside="")
            for t in plan().tasks.values()
        },
        supplies={s.id: s._replace(in_stock=True) for s in plan().supplies.values()},
    )


def work_of(*components: str) -> set[str]:
    """The tasks of these components, parts included."""
    inside = {part for each in components for part in plan().with_parts(each)}
    return {t.id for t in plan().tasks.values() if t.component in inside}
