"""A small day written in a few lines, and a plan as one would write it on a board:

    "09:00-12:00 plane: ada, tom"

A day opens at nine and closes at four. Each is planned by the plain rule and by the solver, checked
by separate code, and lived: nobody is refused what the plan has them begin.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime, time, timedelta
from typing import NamedTuple

from crewboard.logbook.acts import Act, Begun, Expected, Finished, SignIn
from crewboard.order.board import Board
from crewboard.order.day_plan.plan_day import plan_day
from crewboard.order.day_plan.proposal import DayPlan, Placed, SmallJob, Wish
from crewboard.plan.hazard import Hazard
from crewboard.plan.task import Task
from crewboard.plan.vehicle import Break
from crewboard.plan.volunteer import Volunteer
from tests.order.day_plan.feasible import violations
from tests.order.day_plan.living import Living
from tests.order.small_plans import FIRST_SATURDAY, board, logbook, plan

EFFORTS = (0.0, 0.5)  # the plain rule, the solver


class SmallDay(NamedTuple):
    """What there is to do, who is there, and what the shop's files say."""

    tasks: Sequence[Task]
    people: Sequence[Volunteer]
    breaks: Sequence[Break] = ()
    small_jobs: Sequence[str] = ()
    room: Mapping[str, int] = {}
    hazards: Sequence[Hazard] = ()
    said: Sequence[tuple[datetime, Act]] = ()
    at: datetime = FIRST_SATURDAY

    def board(self) -> Board:
        of = plan(self.tasks, crew=self.people, hazards=self.hazards)
        shop = of.vehicle.shop._replace(
            breaks=tuple(self.breaks), small_jobs=tuple(self.small_jobs), room=self.room
        )
        of = of._replace(vehicle=of.vehicle._replace(shop=shop))
        return board(of, self.at, logbook(*self.said) if self.said else None)

    def planned(
        self, effort: float, running: Sequence[Placed] = (), small: Sequence[SmallJob] = ()
    ) -> DayPlan:
        on, wish = self.board(), Wish(tuple(each.id for each in self.people))
        found = plan_day(on, wish, effort, running, small)
        assert violations(on, wish, found, running) == []
        assert Living(on, found).live() == []
        return found


def somebody(name: str, *skills: str, **more: object) -> Volunteer:
    return Volunteer(name, name.title(), skills, adult=True, **more)  # type: ignore[arg-type]


def at(hour: int, minute: int = 0) -> datetime:
    return FIRST_SATURDAY.replace(hour=hour, minute=minute)


def written(found: DayPlan) -> list[str]:
    """The plan, a line a task and small job, by the hour."""
    lines = [_line(p.start, p.end, p.task.partition("/")[2], p.people) for p in found.placed]
    return sorted(lines + [_line(s.start, s.end, s.what, s.people) for s in found.small])


def _line(start: datetime, end: datetime, what: str, people: Iterable[str]) -> str:
    return f"{start:%H:%M}-{end:%H:%M} {what}: {', '.join(sorted(people))}"


def comes(
    who: str, arrives: time | None = None, leaves: time | None = None
) -> tuple[datetime, Act]:
    return FIRST_SATURDAY - timedelta(hours=2), Expected(who, True, arrives, leaves)


def begun(task: str, *crew: str) -> list[tuple[datetime, Act]]:
    """They came at nine and are on it."""
    return [*((FIRST_SATURDAY, SignIn(who)) for who in crew), (FIRST_SATURDAY, Begun(task, crew))]


def done(task: str, hours_ago: float) -> list[tuple[datetime, Act]]:
    when = FIRST_SATURDAY - timedelta(hours=hours_ago)
    return [(when, Begun(task, ())), (when, Finished(task))]
