"""What turns up in the courses: how much, when, and what it does to the dates."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crewboard.logbook.acts import SignIn
from crewboard.order.board import Board
from crewboard.order.forecast.course import play
from crewboard.order.forecast.days import WorkDayTable
from crewboard.order.forecast.finds import TurnedUp, turn_up
from crewboard.order.forecast.forecast import forecast, model_of
from crewboard.order.forecast.gamma import Gamma
from crewboard.order.forecast.growth import MOST
from crewboard.order.forecast.model import Finds, FoundKind, Model
from crewboard.order.forecast.runs import play_many
from crewboard.plan.duration import parse_duration
from crewboard.plan.supply import Supply
from crewboard.plan.volunteer import Volunteer
from tests.order.day_plan.random_days import random_crew
from tests.order.forecast.sure_courses import sure
from tests.order.forecast.test_soonest import random_job
from tests.order.small_plans import EVERY_MINUTE, board, hold, logbook, plan, task

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
    found = sum(_minutes(turn_up(model, chance)) for _ in range(1500))
    assert found / (1500 * 20 * 600) == pytest.approx(rate / (1 - rate), rel=0.06)


def test_where_a_course_draws_the_highest_rate_it_ends() -> None:
    on = board(plan([task(f"c/t{n}", 10.0) for n in range(30)]))
    model = sure(on)
    finds = Finds(Gamma(1e4, 1.0, MOST), (50.0,) * 30, (60_000.0,) * 30, (1.0, 5000.0))
    found = turn_up(model._replace(finds=finds), Random(1))
    assert 0 < _minutes(found) < 30 * 60_000 * 10


def test_what_a_task_turns_up_comes_before_what_waits_for_it() -> None:
    """One person, one hour each: what turned up behind the first stands before the second."""
    on = board(plan([task("c/a", 1.0), task("c/b", 1.0, after=("c/a",))], work_days=EVERY_MINUTE))
    model = sure(on)
    first = model.tasks.index("c/a")
    factors = tuple(1.0 if n == first else 0.0 for n in range(2))
    finds = Finds(Gamma(0.5 * SURELY, SURELY, MOST), factors, (600.0, 600.0), (60.0,))
    grown = model._replace(finds=finds)
    turned_up = [turn_up(grown, _of_course(n)) for n in range(20)]
    more = [each[first].minutes if first in each else 0.0 for each in turned_up]
    table = WorkDayTable(grown)
    for number in range(20):
        if more[number] < 12 * 60:  # else it is not done on the first day
            course = play(grown, table, Random(number))
            assert course.finish == course.planned + round(more[number])
    assert any(0 < minutes < 12 * 60 for minutes in more)


def _minutes(found: dict[int, TurnedUp]) -> float:
    return sum(each.minutes for each in found.values())


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


# --- of what kind it is --------------------------------------------------------------------------

FIRST_DAYS = [date(2026, 1, 3), date(2026, 1, 17), date(2026, 2, 7)]


def with_found_work() -> Board:
    """Six planned tasks in each of two components. In the roof something that only Ada may glue
    was found three times, once with tacks ordered for it; in the frame nothing that sets was."""
    first, later, weeks = FIRST_DAYS[0], date(2026, 4, 4), hold("glue", "3 weeks")
    some = [task(f"{c}/p{n}", 4, added=first) for c in ("roof", "frame") for n in range(6)]
    some += [
        task(
            *(f"roof/f{n}", 2),
            added=later + timedelta(n),
            hold=weeks,
            skills=("gluing",),
            supplies=("resin",) if n else ("tacks",),
        )
        for n in range(3)
    ]
    some += [task(f"frame/f{n}", 2, added=later + timedelta(n)) for n in range(3)]
    supplies = [
        Supply("resin", "Resin", lead_time=parse_duration("5 weeks")),
        Supply("tacks", "Tacks", lead_time=parse_duration("2 weeks")),
    ]
    crew = [Volunteer("ada", "Ada", ("gluing",)), Volunteer("tom", "Tom")]
    came = [(datetime.combine(day, time(9)), SignIn("ada")) for day in FIRST_DAYS]
    return board(plan(some, crew=crew, supplies=supplies), log=logbook(*came))


def test_what_turns_up_is_like_what_turned_up_there_before_all() -> None:
    model = model_of(with_found_work())
    assert model.finds is not None
    of = {name: model.finds.kinds[n] for n, name in enumerate(model.tasks)}
    setting = [sum(kind.hold is not None for kind in of[n]) / 64 for n in ("roof/p1", "frame/p1")]
    # Its own three, the other's three as if two, all that was planned as if two.
    assert setting == pytest.approx([3 / 7, 2 / 7], abs=1 / 64)
    ada = 1 << [person.id for person in model.attendance.people].index("ada")
    assert {kind.covers for kind in of["roof/p1"] if kind.hold is not None} == {(ada,)}
    # The resin, which other work asks for too, is in the shop.
    assert {kind.lead for kind in of["roof/p1"]} == {0, 14 * 24 * 60}


def test_what_sets_behind_found_work_and_what_is_ordered_for_it_come_on_top() -> None:
    on = board(plan([task("c/a", 1.0)], work_days=EVERY_MINUTE))
    model = turning_up(sure(on), 0.5, (60.0,))
    ends = {}
    for name, kind in (
        ("plain", FoundKind(1, 1, ())),
        ("sets", FoundKind(1, 1, (), parse_duration("5 days"))),
        ("ordered", FoundKind(1, 1, (), lead=3 * 1440)),
    ):
        assert model.finds is not None
        finds = model.finds._replace(kinds=((kind,),))
        ends[name] = play(
            model._replace(finds=finds), WorkDayTable(model), Random(_turns_something_up(model))
        ).finish
    assert ends["sets"] - ends["plain"] == 5 * 1440
    assert ends["ordered"] - ends["plain"] == 3 * 1440


def test_found_work_waits_for_whoever_may_do_it() -> None:
    """Two in the crew, of whom only the second may do what turns up, and she never comes."""
    on = board(plan([task("c/a", 1.0)], work_days=EVERY_MINUTE))
    model = sure(on, 2)
    model = turning_up(model, 0.5)
    assert model.finds is not None
    number = _turns_something_up(model)
    for allowed, ends in ((0b01, True), (0b100, False)):
        finds = model.finds._replace(kinds=((FoundKind(allowed, 1, ()),),))
        course = play(model._replace(finds=finds), WorkDayTable(model), Random(number))
        assert course.ended == ends
        assert course.planned_ended


def _turns_something_up(model: Model) -> int:
    return next(n for n in range(99) if turn_up(model, _of_course(n)))
