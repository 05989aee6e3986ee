"""The day plan, the ranking and `begin` give one answer to "may they?"."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from crewboard.logbook.acts import SignIn
from crewboard.order.ahead.first import what_goes_first
from crewboard.order.board import Board
from crewboard.order.day_plan.plan_day import plan_day
from crewboard.order.day_plan.proposal import DayPlan
from crewboard.order.may.ask import against_doing
from crewboard.order.may.day import PeopleOfTheDay
from crewboard.order.may.in_one_go import hands_of
from crewboard.order.may.party import usual_roles
from crewboard.plan.task import Task
from tests.order.day_plan.living import Living
from tests.order.day_plan.random_days import random_day


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 10**9))
def test_whoever_the_plain_rule_places_may_begin_at_that_moment(seed: int) -> None:
    on, wish = random_day(seed)
    assert Living(on, plan_day(on, wish, effort=0)).live() == []


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 10**9), hour=st.integers(9, 15))
@example(seed=6223814, hour=10)
@example(seed=4005, hour=12)
@example(seed=900528, hour=12)
@example(seed=659, hour=10)
@example(seed=960, hour=10)
def test_a_plan_made_anew_in_the_middle_of_the_day_may_be_begun_too(seed: int, hour: int) -> None:
    on, wish = random_day(seed)
    now = on.at.replace(hour=hour, minute=10)
    morning = Living(on, plan_day(on, wish, effort=0))
    morning.live(until=now)
    later = morning.board(max(now, on.at))
    assert Living(later, plan_day(later, effort=0)).live() == []


@settings(max_examples=10, deadline=None)
@given(seed=st.integers(0, 10**9))
def test_whoever_the_solver_places_may_begin_at_that_moment(seed: int) -> None:
    pytest.importorskip("ortools")
    on, wish = random_day(seed)
    assert Living(on, plan_day(on, wish, effort=0.2)).live() == []


@pytest.mark.parametrize("seed", [1000, 1001])
def test_nor_is_anybody_refused_on_a_day_with_more_work_than_the_solver_is_given(seed: int) -> None:
    pytest.importorskip("ortools")
    on, wish = random_day(seed, people=15, ready=40)
    assert Living(on, plan_day(on, wish, effort=0.2)).live() == []


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 10**9), here=st.integers(1, 5))
@example(seed=8434, here=5)
@example(seed=476, here=3)
def test_the_ranking_tells_exactly_what_some_of_those_here_may_begin(seed: int, here: int) -> None:
    on, _ = random_day(seed, people=7, ready=6)
    morning = Living(on, plan_day(on, effort=0))
    for who in list(on.plan.crew)[:here]:
        morning.say(on.at, SignIn(who))
    board = morning.board(on.at)
    plan = plan_day(board, effort=0)

    def may_begin(task: str, crew: tuple[str, ...]) -> bool:
        return only_ends_late(board, plan, task, crew)

    for first in what_goes_first(board):
        task = board.plan.tasks[first.task]
        crew = PeopleOfTheDay(board).crew_for(task)
        some = crews(board, task)
        if first.against:
            assert not any(may_begin(task.id, crew) for crew in some)
        elif task.in_one_go:  # the smallest crew may be too few to end before closing
            assert any(may_begin(task.id, crew) for crew in some)
        else:
            assert crew is not None
            assert may_begin(task.id, crew)


def crews(board: Board, task: Task) -> list[tuple[str, ...]]:
    """Of work in one go no more people than it can make use of, or its sheets ask for: the ranking
    counts on no others."""
    here = [visit.who for visit in board.present]
    asked = max((board.plan.hazards[name].people for name in task.hazards), default=0)
    most = max(asked, hands_of(task, len(here))) if task.in_one_go else len(here)
    return [some for size in range(1, most + 1) for some in combinations(here, size)]


def only_ends_late(board: Board, plan: DayPlan, task: str, crew: tuple[str, ...]) -> bool:
    """Whether `begin` takes them once everything that can be signed is signed, and a lead has said
    how work that is long ends in time: the day plan places only what does."""
    roles = usual_roles(board, task, crew)
    against = against_doing(board, task, *roles)
    signing = Living(board, plan)
    signing.sign_before(board.at, task, crew)
    later = against_doing(signing.board(board.at), task, *roles)
    codes = ({o.code for o in against} - {"unsigned"}) | {o.code for o in later}
    return codes <= {"ends-late"}
