"""The past tells how quick the crew is; work that was found on the way tells nothing of that."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from math import log
from typing import Any

import pytest

from crewboard.logbook.acts import Begun, Finished, HoursWorked, SignIn
from crewboard.order.board import Board
from crewboard.order.forecast.forecast import model_of
from crewboard.order.forecast.growth import growth_of
from crewboard.plan.volunteer import Volunteer
from crewboard.plan.workdays import WorkDays, parse_rule
from tests.order.small_plans import board, logbook, plan, task

WEEKLY = WorkDays((parse_rule("saturday"),))
FIRST = date(2025, 1, 4)
CREW = [Volunteer(f"p{n}", f"P{n}") for n in range(3)]


def _history(days: int, found_every: int, per_day: int = 2, idle: int = 0) -> Board:
    """Three people do two tasks of nine hours a day, as estimated; every so many of the tasks came
    into the plan on the work day before. `idle`: after each day so many without anything done."""
    saturdays = list(WEEKLY.coming(FIRST))[: days * (1 + idle) + 1]
    tasks, said = [task(f"c/t{n}", (6, 9, 12), added=FIRST) for n in range(20)], []
    number = 0
    for place, day in enumerate(saturdays[:-1]):
        opens = datetime.combine(day, time(9))
        said += [(opens, SignIn(v.id)) for v in CREW]
        if place % (1 + idle):
            continue
        for _ in range(per_day):
            came = saturdays[place - 1] if found_every and number % found_every == 2 else FIRST
            tasks.append(task(f"c/d{number}", (6, 9, 12), added=max(came, FIRST)))
            said += _done(opens, f"c/d{number}")
            number += 1
    said.sort(key=lambda line: line[0])
    return board(
        plan(tasks, crew=CREW, work_days=WEEKLY),
        datetime.combine(saturdays[-1], time(8)),
        logbook(*said),
    )


def _done(opens: datetime, name: str) -> list[tuple[datetime, Any]]:
    worked = [(opens + timedelta(hours=6), HoursWorked(v.id, 3.0, name)) for v in CREW]
    return [(opens, Begun(name, ("p0",))), *worked, (opens + timedelta(hours=6), Finished(name))]


def test_found_work_is_growth_and_not_slowness() -> None:
    plain, grown = _history(12, 0), _history(12, 3)
    assert growth_of(plain).found == 0
    assert growth_of(grown).found >= 5
    assert growth_of(grown).rate > 2 * growth_of(plain).rate
    paces = model_of(plain).pace, model_of(grown).pace
    assert paces[0].mean == paces[1].mean
    assert paces[1].stretch == pytest.approx(paces[0].stretch, abs=0.1)


def test_a_crew_that_is_idle_between_is_slower_than_the_rules_say() -> None:
    busy, idle = (model_of(_history(12, 0, idle=n)).pace.stretch for n in (0, 1))
    assert idle > busy + 0.3


def test_who_has_left_did_their_part_of_the_past() -> None:
    """That there are fewer now makes nobody quicker."""
    on = _history(12, 0)
    left = [v._replace(left=on.at.date() - timedelta(days=3)) for v in CREW[1:]]
    gone = board(on.plan._replace(crew={v.id: v for v in (CREW[0], *left)}), on.at, on.logbook)
    assert len(model_of(gone).attendance.people) == 1
    assert model_of(gone).pace.stretch == pytest.approx(model_of(on).pace.stretch, abs=0.1)


def test_a_calendar_with_fewer_days_than_there_were_makes_nobody_quicker() -> None:
    """The crew met every Saturday, and its plan says now that it meets on every other."""
    on = _history(12, 0)
    fewer = WorkDays((parse_rule("first saturday"), parse_rule("third saturday")))
    rarer = board(
        on.plan._replace(vehicle=on.plan.vehicle._replace(work_days=fewer)), on.at, on.logbook
    )
    model = model_of(rarer)
    took = model.pace.stretch + log(1 + model.attendance.takes_place.extra)
    assert took == pytest.approx(model_of(on).pace.stretch, abs=0.1)
