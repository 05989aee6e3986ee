"""Work that must not be left half done and fits no day is named, with what keeps it out."""

from __future__ import annotations

from datetime import date, datetime

import pytest

from crewboard.logbook.acts import Expected
from crewboard.order.programme.no_day import finds_no_day
from crewboard.order.programme.programme import make
from crewboard.plan.task import Task
from crewboard.plan.volunteer import Certificate, Volunteer
from crewboard.plan.workdays import WorkDays, parse_rule
from tests.order.day_plan.random_days import HAZARDS
from tests.order.small_plans import board, logbook, plan, task

HOT_WORK = Certificate("hot work", date(2027, 5, 2))
ADA = Volunteer("ada", "Ada Test", adult=True, certificates=(HOT_WORK,))
TOM = Volunteer("tom", "Tom Test", adult=True)
SATURDAYS = WorkDays((parse_rule("saturday"),))  # from nine to four: seven hours


def _named(*tasks: Task, away: str = "") -> list[tuple[str, str, int]]:
    of = plan(tasks, crew=[ADA, TOM], work_days=SATURDAYS, hazards=HAZARDS)
    days = (datetime(2026, 5, day, 8) for day in (2, 9))
    log = logbook(*((day, Expected(away, False)) for day in days if away))
    return [(one.task, one.why, one.minutes) for one in finds_no_day(make(board(of, log=log), 2))]


@pytest.mark.parametrize("hours", [14, 14.5])
def test_what_is_longer_than_a_day_in_one_go_is_named_and_what_just_fits_is_not(
    hours: float,
) -> None:
    named = _named(task("c/go", hours, in_one_go=True, most_people=2))
    assert named == ([] if hours == 14 else [("c/go", "long", 0)])


def test_what_need_not_be_done_in_one_go_is_not_named() -> None:
    assert _named(task("c/long", 90)) == []


@pytest.mark.parametrize(
    ("hours", "named"),
    [(12, []), (12.5, [("c/heat", "clock", 60)]), (14.5, [("c/heat", "long", 60)])],
)
def test_the_clock_before_closing_is_named_where_all_would_fit_without_it(
    hours: float, named: list[tuple[str, str, int]]
) -> None:
    # An invented sheet: two people, and an hour's watch that ends before the shop closes at four.
    assert _named(task("c/heat", hours, hazards=("hot",), most_people=2)) == named


def test_of_three_that_each_take_a_day_the_third_has_no_room_beside_the_others() -> None:
    named = _named(*(task(f"c/{n}", 14, in_one_go=True) for n in (1, 2, 3)))
    assert [why for _, why, _ in named] == ["beside"]


def test_who_comes_counts_and_whoever_is_lacking_is_asked_for_in_its_place() -> None:
    alone = task("c/alone", 7.5, in_one_go=True)
    assert _named(alone, away="tom") == [("c/alone", "long", 0)]
    both = task("c/both", 2, in_one_go=True, least_people=2)
    assert _named(both, away="tom") == []


def test_what_waits_for_work_that_is_not_done_in_these_days_is_not_named() -> None:
    first = task("c/first", 90)
    assert _named(first, task("c/then", 30, in_one_go=True, after=("c/first",))) == []
