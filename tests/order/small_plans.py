"""Plans made in a few lines for the checks of the order of work."""

from __future__ import annotations

import random
from collections.abc import Iterable
from datetime import datetime, time
from typing import Any

from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.plan.component import Component
from crewboard.plan.duration import parse_duration
from crewboard.plan.hazard import Hazard
from crewboard.plan.hold import KINDS, Hold, HoldKind
from crewboard.plan.plan import Plan
from crewboard.plan.supply import Supply
from crewboard.plan.task import Estimate, Task
from crewboard.plan.vehicle import Shop, Vehicle
from crewboard.plan.volunteer import Volunteer
from crewboard.plan.workdays import MeetingRule, Opening, WorkDays, parse_rule

TWICE_A_MONTH = WorkDays((parse_rule("first saturday"), parse_rule("third saturday")))
EVERY_MINUTE = WorkDays(tuple(MeetingRule(day) for day in range(7)), Opening(time(0), time(23, 59)))
FIRST_SATURDAY = datetime(2026, 5, 2, 9)  # the shop just opens


def hold(kind: HoldKind, lasts: str = "", release: str = "", leave_alone: bool = False) -> Hold:
    return Hold(
        kind,
        parse_duration(lasts) if lasts else None,
        release or KINDS[kind].release,  # type: ignore[arg-type]
        leave_alone,
    )


def task(name: str, hours: float | tuple[float, float, float] | None = 1.0, **more: Any) -> Task:
    """A task "component/name"; hours are person-hours, one number for a sure estimate."""
    estimate = None
    if hours is not None:
        three = hours if isinstance(hours, tuple) else (hours, hours, hours)
        estimate = Estimate(*three)
    component = more.pop("component", name.partition("/")[0])
    return Task(name, more.pop("title", name), component, estimate=estimate, **more)


def plan(
    tasks: Iterable[Task],
    components: Iterable[Component] = (),
    work_days: WorkDays = TWICE_A_MONTH,
    crew: Iterable[Volunteer] = (),
    supplies: Iterable[Supply] = (),
    hazards: Iterable[Hazard] = (),
    places: tuple[str, ...] = (),
) -> Plan:
    """The plan of these; components that only tasks name are made up."""
    all_tasks = {t.id: t for t in tasks}
    known = {c.id: c for c in components}
    for each in all_tasks.values():
        known.setdefault(each.component, Component(each.component, each.component))
    vehicle = Vehicle("A vehicle", work_days=work_days, shop=Shop(places=places))
    return Plan(
        vehicle,
        known,
        all_tasks,
        {v.id: v for v in crew},
        {s.id: s for s in supplies},
        {h.id: h for h in hazards},
    )


def logbook(*said: tuple[datetime, Any]) -> Logbook:
    """A logbook of (moment, act) pairs; the ids are e0, e1, ..."""
    days: dict[Any, list[Entry]] = {}
    for number, (at, act) in enumerate(said):
        days.setdefault(at.date(), []).append(Entry(f"e{number}", at, act))
    return Logbook({day: Day(day, days[day]) for day in sorted(days)})


def board(of: Plan, at: datetime = FIRST_SATURDAY, log: Logbook | None = None) -> Board:
    return assess(of, log or Logbook(), at)


def random_tasks(rnd: random.Random, count: int, holds: bool = True) -> list[Task]:
    """Tasks in half hours that come after earlier ones, some with holds."""
    spans = ("90 min", "36 hours", "3 days", "2 weeks", "1 month", "2 months 3 days")
    found: list[Task] = []
    for number in range(count):
        names = [t.id for t in found]
        after = tuple(rnd.sample(names, min(len(names), rnd.choice((0, 1, 1, 2, 3)))))
        during = tuple(each for each in after if holds and rnd.random() < 0.15)
        waits = None
        if holds and rnd.random() < 0.4:
            waits = hold("glue", rnd.choice(spans), rnd.choice(("look", "time")))
        hours = rnd.choice((0.5, 1, 2.5, 6, 7, 10.5, 20))
        found.append(task(f"c/t{number}", hours, after=after, during=during, hold=waits))
    return found
