"""What turns up in the courses: how much, when, and what it does to the dates."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crewboard.order.forecast.course import play
from crewboard.order.forecast.days import WorkDayTable
from crewboard.order.forecast.finds import turn_up
from crewboard.order.forecast.forecast import forecast, model_of
from crewboard.order.forecast.gamma import Gamma
from crewboard.order.forecast.growth import MOST
from crewboard.order.forecast.model import Finds, Model
from crewboard.order.forecast.runs import play_many
from tests.order.day_plan.random_days import random_crew
from tests.order.forecast.sure_courses import sure
from tests.order.forecast.test_soonest import random_job
from tests.order.small_plans import EVERY_MINUTE, board, plan, task

SURELY = 1e9


def turning_up(model: Model, rate: float, sizes: tuple[float, ...] = (60.0,)) -> Model:
    """The model where exactly so much is believed to turn up."""
    count = len(model.tasks)
    finds = Finds(Gamma(rate * SURELY, SURELY, MOST), (1.0,) * count, (600.0,) * count, sizes)
    return model._replace(finds=finds)


@settings(max_examples=25, deadline=None)
@given(seed=st.integers(0, 10**9))
def test_where_nothing_turns_up_the_dates_are_those_of_the_plan(seed: int) -> None:
    model = model_of(random_job(seed))
    nothing = model.finds and model.finds._replace(factors=(0.0,) * len(model.tasks))
    played = play_many(model._replace(finds=nothing), 20, 3)
    assert played == play_many(model._replace(finds=None), 20, 3)
    assert (played.planned, played.planned_ended) == (played.finish, played.ended)


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 10**9), rate=st.floats(0.05, 0.7))
def test_what_turns_up_makes_no_course_and_no_component_earlier(seed: int, rate: float) -> None:
    model = model_of(random_job(seed))
    grown = play_many(turning_up(model, rate, (30.0, 240.0)), 20, 3)
    plain = play_many(model._replace(finds=None), 20, 3)
    assert grown.planned == plain.finish
    assert all(a >= b for a, b in zip(grown.finish, plain.finish, strict=True))
    for later, sooner in zip(grown.closings, plain.closings, strict=True):
        assert all(a >= b for a, b in zip(later, sooner, strict=True))
    assert all(grown.soonest <= finish for finish in (*grown.finish, *grown.planned))


def test_both_dates_are_told_and_the_headline_is_the_one_with_what_turns_up() -> None:
    crew = random_crew(Random(1), 3)
    found = forecast(board(plan([task(f"c/t{n}", 9.0) for n in range(20)], crew=crew)), runs=200)
    assert found.vehicle.likely is not None
    assert found.as_planned.likely is not None
    assert found.as_planned.likely < found.vehicle.likely
    assert found.soonest <= min(day for day in found.courses if day is not None)


@pytest.mark.parametrize("rate", [0.1, 0.3, 0.6])
def test_found_work_turns_up_found_work(rate: float) -> None:
    """Of each hour r hours, of these r * r, and so on: r / (1 - r) in all (a geometric series)."""
    on = board(plan([task(f"c/t{n}", 10.0) for n in range(20)]))
    model, chance = turning_up(sure(on), rate, (30.0, 90.0)), Random(2)
    found = sum(sum(turn_up(model, chance).values()) for _ in range(1500))
    assert found / (1500 * 20 * 600) == pytest.approx(rate / (1 - rate), rel=0.06)


def test_where_a_course_draws_the_highest_rate_it_ends() -> None:
    on = board(plan([task(f"c/t{n}", 10.0) for n in range(30)]))
    model = sure(on)
    finds = Finds(Gamma(1e4, 1.0, MOST), (50.0,) * 30, (60_000.0,) * 30, (1.0, 5000.0))
    found = turn_up(model._replace(finds=finds), Random(1))
    assert 0 < sum(found.values()) < 30 * 60_000 * 10


def test_what_a_task_turns_up_comes_before_what_waits_for_it() -> None:
    """One person, one hour each: what turned up behind the first stands before the second."""
    on = board(plan([task("c/a", 1.0), task("c/b", 1.0, after=("c/a",))], work_days=EVERY_MINUTE))
    model = sure(on)
    first = model.tasks.index("c/a")
    factors = tuple(1.0 if n == first else 0.0 for n in range(2))
    finds = Finds(Gamma(0.5 * SURELY, SURELY, MOST), factors, (600.0, 600.0), (60.0,))
    grown = model._replace(finds=finds)
    more = [turn_up(grown, _of_course(n)).get(first, 0.0) for n in range(20)]
    table = WorkDayTable(grown)
    for number in range(20):
        if more[number] < 12 * 60:  # else it is not done on the first day
            course = play(grown, table, Random(number))
            assert course.finish == course.planned + round(more[number])
    assert any(0 < minutes < 12 * 60 for minutes in more)


def _of_course(number: int) -> Random:
    """The chance by which that course's finds are drawn: the second that it gives out."""
    chance = Random(number)
    chance.getrandbits(60)
    return Random(chance.getrandbits(60))


def test_a_component_that_turns_up_more_is_later_by_it() -> None:
    on = board(plan([task(f"{c}/t{n}", 5.0) for c in "ab" for n in range(10)]))
    model = sure(on)
    factors = tuple(1.0 if name.startswith("a/") else 0.0 for name in model.tasks)
    chance = Random(5)
    finds = Finds(Gamma(0.4 * SURELY, SURELY, MOST), factors, (300.0,) * 20, (120.0,))
    found = turn_up(model._replace(finds=finds), chance)
    assert found
    assert all(model.tasks[each].startswith("a/") for each in found)
