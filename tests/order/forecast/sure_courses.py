"""Courses in which nothing is left to chance."""

from __future__ import annotations

from copy import copy
from datetime import datetime
from random import Random

from crewboard.order.board import Board
from crewboard.order.forecast.course import play
from crewboard.order.forecast.days import WorkDayTable
from crewboard.order.forecast.model import Attendance, Delays, Model, Pace, Person
from crewboard.order.forecast.remaining import remaining
from crewboard.plan.plan import Plan
from crewboard.plan.volunteer import Volunteer
from tests.order.small_plans import board


def sure(of: Plan | Board, people: int = 1) -> Model:
    """The job with everybody always there, the estimates exact and nothing ever late."""
    crew = [Volunteer(f"p{n}", f"P{n}") for n in range(people)]
    on = copy(of) if isinstance(of, Board) else board(of)
    on.plan = on.plan._replace(crew={v.id: v for v in crew})
    everybody = Attendance(tuple(Person(v.id, 1, 0) for v in crew), sure=True)
    return remaining(
        on, attendance_as=everybody, pace_as=Pace(), delays_as=Delays(sure=True), strays=0.0
    )


def finish_of(model: Model) -> datetime:
    """When the one course ends that such a job can take."""
    table = WorkDayTable(model)
    return table.time.moment(play(model, table, Random(1)).finish)
