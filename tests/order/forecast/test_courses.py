"""One course of the job: without chance the deterministic schedule, with it repeatable."""

from __future__ import annotations

import os
import random
from datetime import datetime
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crewboard.logbook.acts import Finished, HoursWorked
from crewboard.order.ahead.calendar_path import calendar_path
from crewboard.order.ahead.effort import hours_left, usual_hours
from crewboard.order.forecast.course import play
from crewboard.order.forecast.days import WorkDayTable
from crewboard.order.forecast.draws import draw
from crewboard.order.forecast.model import Attendance, Delays, Model, Pace, Person
from crewboard.order.forecast.pert_table import MODES, pert_table, table_number
from crewboard.order.forecast.remaining import remaining
from crewboard.order.forecast.runs import Cores, play_many
from crewboard.plan.component import Component
from crewboard.plan.volunteer import Volunteer
from tests.order.forecast import one_person
from tests.order.forecast.sure_courses import finish_of, sure
from tests.order.small_plans import FIRST_SATURDAY, board, hold, logbook, plan, random_tasks, task


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 10**9))
def test_without_chance_a_chain_ends_when_the_critical_path_does(seed: int) -> None:
    tasks = random_tasks(random.Random(seed), 12)
    links = zip(tasks, [None, *tasks], strict=False)
    of = plan([t._replace(after=(b.id,) if b else (), during=()) for t, b in links])
    assert finish_of(sure(of)) == calendar_path(board(of)).finish


@pytest.mark.parametrize("hours", [(6, 10, 20), None], ids=["estimated", "not estimated"])
@pytest.mark.parametrize("slow", [0.0, 0.7])
def test_work_that_overran_is_played_as_the_overruns_of_the_log_say(
    hours: tuple[float, float, float] | None, slow: float
) -> None:
    """Nobody said how much is left, in one play as in the other: the work path's own figure, and
    the pace of the crew, which the overruns have in them, not a second time."""
    of = plan([task("c/a", hours), task("c/b", 10)])
    said = [(FIRST_SATURDAY, HoursWorked("p0", 12, "c/a")), (FIRST_SATURDAY, Finished("c/b"))]
    said.insert(1, (FIRST_SATURDAY, HoursWorked("p0", 18, "c/b")))
    on = board(of, datetime(2026, 5, 3), logbook(*said))
    crew = Attendance((Person("p0", 1, 0),), sure=True)
    model = remaining(on, attendance_as=crew, pace_as=Pace(slow), delays_as=Delays(sure=True))
    left = hours_left(on["c/a"], usual_hours(of))
    assert left == pytest.approx(6 if hours else 2.5)
    plays = [draw(model, WorkDayTable(model), Random(n)).left[0] for n in range(5)]
    assert plays == pytest.approx([left * 60] * 5)


@settings(max_examples=80, deadline=None)
@given(seed=st.integers(0, 10**9))
def test_without_chance_one_person_works_the_deterministic_schedule(seed: int) -> None:
    rnd = random.Random(seed)
    of = plan(random_tasks(rnd, rnd.randint(1, 14)))
    model = sure(of)
    assert finish_of(model) == one_person.finish(of, FIRST_SATURDAY, model.tasks)


def test_enough_people_make_the_critical_path() -> None:
    for seed in range(30):
        of = plan(random_tasks(random.Random(seed), 12))
        alone = of._replace(tasks={t.id: t._replace(most_people=1) for t in of.tasks.values()})
        assert finish_of(sure(alone, people=12)) == calendar_path(board(alone)).finish


def test_more_hands_join_in_where_they_are_of_use() -> None:
    of = plan([task("c/a", 14, most_people=2)])
    assert finish_of(sure(of, people=2)) == datetime(2026, 5, 2, 16)
    assert finish_of(sure(of, people=1)) == datetime(2026, 5, 16, 16)


def test_a_component_left_alone_is_not_touched_while_the_hold_runs() -> None:
    cure = hold("cure", "20 days", leave_alone=True)
    of = plan([task("c/pour", 1, hold=cure), task("c/other", 7), task("d/else", 1)])
    model = sure(of, people=1)
    # Poured first (it begins the longest wait): the other waits till 6 June.
    assert model.tasks[0] == "c/pour"
    assert finish_of(model) == datetime(2026, 6, 6, 16)


def test_skills_and_places_are_used_by_one_job_at_a_time() -> None:
    crew = {"w": Volunteer("w", "W", ("welding",)), "h": Volunteer("h", "H")}
    welds = [task(f"c/w{n}", 7, skills=("welding",), most_people=1) for n in range(3)]
    benches = [task(f"c/b{n}", 7, place="bench", most_people=1) for n in range(3)]
    for jobs in (welds, benches):
        on = board(plan(jobs)._replace(crew=crew))
        both = Attendance((Person("h", 1, 0), Person("w", 1, 0)), sure=True)
        model = remaining(
            on, attendance_as=both, pace_as=Pace(), delays_as=Delays(sure=True), strays=0.0
        )
        assert finish_of(model) == datetime(2026, 6, 6, 16)


def test_the_chain_of_a_course_holds_what_set_itsfinish_of() -> None:
    of = plan([task("c/a", 7), task("c/b", 7, after=("c/a",)), task("d/short", 1)])
    model = sure(of, people=2)
    chain = play(model, WorkDayTable(model), Random(1)).chain
    assert [model.tasks[n] for n in chain] == ["c/a", "c/b"]


def test_whoever_waits_for_people_is_held_up_by_the_work_before() -> None:
    of = plan([task("c/a", 7), task("d/b", 3)])
    model = sure(of, people=1)
    chain = play(model, WorkDayTable(model), Random(1)).chain
    assert [model.tasks[n] for n in chain] == ["c/a", "d/b"]


@pytest.mark.parametrize("number", [0, 7, 32, 50, MODES])
def test_the_table_of_the_pert_beta_has_its_mean_and_variance(number: int) -> None:
    # The beta with this mode and PERT's mean has the variance (m - low)(high - m) / 7 (beta
    # distribution with alpha + beta = 6; any statistics textbook).
    table = pert_table(number)
    mean = sum(table) / len(table)
    expected = (4 * number / MODES + 1) / 6
    assert mean == pytest.approx(expected, abs=1e-3)
    variance = sum((x - mean) ** 2 for x in table) / len(table)
    assert variance == pytest.approx(expected * (1 - expected) / 7, rel=0.01)
    assert list(table) == sorted(table)


def test_each_estimate_has_a_table_for_its_mode() -> None:
    assert table_number(2, 4, 10) == 16
    assert table_number(2, 2, 10) == 0
    assert table_number(5, 5, 5) == 32


def _uncertain() -> Model:
    crew = [Volunteer(f"p{n}", f"P{n}") for n in range(4)]
    tasks = random_tasks(random.Random(3), 30)
    return remaining(board(plan(tasks, crew=crew)))


def test_the_same_seed_gives_the_same_courses_on_any_number_of_cores() -> None:
    model = _uncertain()
    alone = play_many(model, 90, seed=7)
    with Cores(2) as cores:
        assert play_many(model, 90, seed=7, cores=cores) == alone
    assert play_many(model, 90, seed=8).finish != alone.finish
    assert play_many(model, 40, seed=7).finish == alone.finish[:40]


def test_courses_of_a_process_that_died_are_played_here() -> None:
    model = _uncertain()
    with Cores(2) as cores:
        assert cores._pool is not None
        cores._pool.submit(os._exit, 1)  # dies while it is asked, or before
        assert play_many(model, 200, seed=7, cores=cores) == play_many(model, 200, seed=7)


def test_a_run_can_be_stopped_and_gives_what_it_has() -> None:
    told: list[tuple[int, int]] = []

    def stop_at_once(done: int, of: int) -> bool:
        told.append((done, of))
        return False

    runs = play_many(_uncertain(), 400, seed=1, progress=stop_at_once)
    assert runs.stopped
    assert told == [(40, 400)]
    assert len(runs.finish) == 40


def test_components_may_come_after_each_other_many_deep() -> None:
    parts = [Component(f"c{n}", "", after=(f"c{n - 1}",) if n else ()) for n in range(800)]
    of = plan([task("c799/last", 3)], parts)
    assert finish_of(sure(of)) == datetime(2026, 5, 2, 12)


def test_without_anybody_no_course_ends() -> None:
    runs = play_many(remaining(board(plan([task("c/a")]))), 3, seed=1)
    assert runs.ended == (False, False, False)


def test_a_task_set_aside_on_a_component_left_alone_holds_up_no_course() -> None:
    glue = hold("glue", "2 days", leave_alone=True)
    tasks = [task("x/a", hold=glue), task("x/b", set_aside="no wood"), task("x/c")]
    of = plan(tasks)
    model = sure(of, people=2)
    numbers = {name: n for n, name in enumerate(model.tasks)}
    waits = set(model.work[numbers["x/a"]].blocks) - {numbers["x/a"]}
    assert waits == {numbers["x/c"]}
    assert finish_of(model) > FIRST_SATURDAY
