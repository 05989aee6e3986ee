"""The earliest possible finish is one that no run undercuts."""

from __future__ import annotations

from datetime import date, timedelta
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crewboard.order.ahead.calendar_path import calendar_path
from crewboard.order.board import Board
from crewboard.order.forecast.days import WorkDayTable
from crewboard.order.forecast.draws import draw
from crewboard.order.forecast.finds import turn_up
from crewboard.order.forecast.forecast import forecast, model_of
from crewboard.order.forecast.people_free import with_people_free
from crewboard.order.forecast.playing import MOST_DAYS, Playing
from crewboard.plan.duration import parse_duration
from crewboard.plan.supply import Supply
from tests.bench.forecast_calibration import on_the_way
from tests.bench.invented_crew import InventedCrew
from tests.bench.other_crews import OTHERS
from tests.bench.worlds import KINDS, WORLDS
from tests.order.day_plan.random_days import random_crew
from tests.order.small_plans import FIRST_SATURDAY, board, plan, random_tasks, task


def random_job(seed: int) -> Board:
    """Tasks with holds, some that have room for more hands, some that wait for a delivery."""
    rnd = Random(seed)
    low = rnd.choice((0.1, 0.5, 1.0))
    tasks = [
        each._replace(
            estimate=each.estimate and each.estimate._replace(low=each.estimate.low * low),
            most_people=rnd.choice((None, 1, 3)),
            supplies=("oak",) if rnd.random() < 0.2 else (),
        )
        for each in random_tasks(rnd, rnd.randint(1, 12))
    ]
    oak = Supply("oak", "Oak", lead_time=parse_duration("6 weeks"))
    return board(plan(tasks, crew=random_crew(rnd, rnd.randint(1, 6)), supplies=[oak]))


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 10**9), chance=st.integers(0, 1000))
def test_no_run_ends_before_the_soonest_of_all(seed: int, chance: int) -> None:
    found = forecast(random_job(seed), runs=25, seed=chance)
    ended = [day for day in found.courses if day is not None]
    assert found.soonest >= FIRST_SATURDAY.date()
    assert all(found.soonest <= day for day in ended)


@pytest.mark.parametrize("kind", [*KINDS, *OTHERS])
def test_no_course_of_any_invented_world_undercuts_its_bound(kind: str) -> None:
    """The bound before it is held to what was played: course by course, with and without what
    turns up."""
    crew = OTHERS.get(kind, InventedCrew)
    model = model_of(on_the_way(3, KINDS.get(kind, WORLDS[0]), crew)[1])
    table = WorkDayTable(model)
    for number in range(8):
        drawn = draw(model, table, Random(number))
        bound = with_people_free(model, table, drawn, MOST_DAYS)
        for found in ({}, turn_up(model, Random(number))):
            course = Playing(model, table, drawn, found).run(0)
            assert course.ended
            assert bound <= course.finish + 1  # a minute, for rounding


def test_a_run_may_be_quicker_than_the_likely_hours_and_not_than_the_soonest_of_all(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("crewboard.order.forecast.forecast.WITHOUT_CHANCE", 60)
    # Hours that may be far fewer than is likely: the path of the likely hours is no bound.
    of = plan([task(f"c/t{n}", (1, 60, 61)) for n in range(3)], crew=random_crew(Random(1), 5))
    on = board(of)
    found = forecast(on, runs=60)
    assert min(day for day in found.courses if day) < calendar_path(on).finish.date()
    assert found.soonest <= min(day for day in found.courses if day)


def test_holds_and_deliveries_are_in_the_soonest_of_all() -> None:
    oak = Supply("oak", "Oak", due=date(2026, 9, 1), ordered=date(2026, 4, 1))
    on = board(
        plan(
            [task("c/a", 1, supplies=("oak",))],
            crew=random_crew(Random(1), 3),
            supplies=[oak],
        )
    )
    found = forecast(on, runs=20)
    assert found.soonest > FIRST_SATURDAY.date() + timedelta(days=60)
