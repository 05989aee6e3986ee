"""Where a plan of the day was taken over, the first day of the programme is that plan."""

from __future__ import annotations

from datetime import datetime, time, timedelta

from hypothesis import given
from hypothesis import strategies as st

from crewboard.logbook.acts import Act, Begun, Expected, Planned, SignIn, SignOut
from crewboard.order.assess import assess
from crewboard.order.day_plan.plan_day import plan_day
from crewboard.order.day_plan.proposal import Wish
from crewboard.order.day_plan.taken_over import taking_over
from crewboard.order.programme.programme import DayOfWork, make, programme
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from crewboard.plan.volunteer import Volunteer
from crewboard.plan.workdays import WorkDays, parse_rule
from tests.long_form import cases
from tests.order.day_plan.random_days import random_day
from tests.order.day_plan.test_taken_over import with_also
from tests.order.small_plans import FIRST_SATURDAY, hold, logbook, plan, task

NINE = FIRST_SATURDAY
ADA = Volunteer("ada", "Ada Test", adult=True)
TOM = Volunteer("tom", "Tom Test", adult=True)
SATURDAYS = WorkDays((parse_rule("saturday"),))


@cases(30, 1000)
@given(seed=st.integers(0, 10**9))
def test_the_first_day_is_the_plan_as_it_was_taken_over(seed: int) -> None:
    on, _ = random_day(seed)
    found = plan_day(on, Wish(), effort=0)
    if not found.placed:
        return
    first = programme(with_also(on, taking_over(on, found, "ada")), 3).days[0]
    assert (first.planned_at, first.otherwise) == (on.at, ())
    planned = {(p.task, frozenset(p.people), p.start, p.end, p.finishes) for p in found.placed}
    told = {(t.task, frozenset(t.people), t.start, t.end, t.finishes) for t in first.turns}
    assert planned <= told
    behind_its_back = {on[task].state for task, *_ in told - planned}
    assert behind_its_back <= {"under way"}


def _plan(*tasks: Task) -> Plan:
    return plan(tasks, crew=[ADA, TOM], work_days=SATURDAYS)


def _planned(name: str, *who: str, since: int, until: int, what: str = "") -> Planned:
    of = "" if what else f"c/{name}"
    return Planned(who, time(since), time(until), of, what=what, taking="1 09:00 ada")


def _days(of: Plan, *acts: Act, at: datetime = NINE) -> tuple[DayOfWork, ...]:
    early = [(NINE - timedelta(minutes=30), SignIn(who)) for who in ("ada", "tom")]
    return programme(assess(of, logbook(*early, *((NINE, act) for act in acts)), at), 2).days


def _told(day: DayOfWork) -> list[tuple[str, tuple[str, ...], int, int]]:
    return [(t.task, t.people, t.start.hour, t.end.hour) for t in day.turns]


PLANNED = (_planned("b", "tom", since=9, until=11), _planned("a", "tom", since=11, until=13))


def test_what_the_plan_has_is_told_and_the_rest_is_planned_behind_it() -> None:
    of = _plan(task("c/a", 2), task("c/b", 4, most_people=1), task("c/c", 1))
    sweep = _planned("", "ada", since=13, until=14, what="sweep")
    first, second = _days(of, *PLANNED, sweep)
    assert _told(first) == [("c/b", ("tom",), 9, 11), ("c/a", ("tom",), 11, 13)]
    assert [(job.what, job.people) for job in first.small] == [("sweep", ("ada",))]
    assert first.idle == ()
    assert {turn.task for turn in second.turns} == {"c/a", "c/b", "c/c"}


def test_between_two_half_hours_the_plan_still_stands_and_what_is_over_does_not() -> None:
    of = _plan(task("c/a", 2), task("c/b", 2))
    begun = Begun("c/b", ("tom",))
    for at, left in (
        (NINE.replace(hour=10, minute=10), ["c/b", "c/a"]),
        (NINE.replace(hour=10, minute=50), ["c/b", "c/a"]),
    ):
        first = _days(of, begun, *PLANNED, at=at)[0]
        assert [turn.task for turn in first.turns] == left
    late = _days(of, begun, *PLANNED, at=NINE.replace(hour=13))[0]
    assert late.otherwise == ()
    assert "c/b" in {turn.task for turn in late.turns}  # somebody is on it yet


def test_who_has_left_does_nothing_more_and_the_plan_is_to_be_made_anew() -> None:
    of = _plan(task("c/a", 2), task("c/b", 2))
    first = _days(of, *PLANNED, SignOut("tom"), at=NINE.replace(minute=5))[0]
    assert first.otherwise == ("c/b", "c/a")
    assert all("tom" not in turn.people for turn in first.turns)


def test_what_has_come_to_wait_for_a_hold_is_done_on_the_day_after_it() -> None:
    of = _plan(
        task("c/b", 2, hold=hold("glue", "36 hours", "time")), task("c/a", 2, after=("c/b",))
    )
    first, second = _days(of, PLANNED[0]._replace(finishes=True), PLANNED[1])
    assert _told(first) == [("c/b", ("tom",), 9, 11)]
    assert first.otherwise == ("c/a",)
    assert [turn.task for turn in second.turns] == ["c/a"]


def test_the_plan_of_one_day_is_not_that_of_another() -> None:
    of = _plan(task("c/a", 2), task("c/b", 2))
    week_later = NINE + timedelta(days=7)
    comes = [(week_later - timedelta(hours=1), Expected("ada"))]
    log = logbook(*((NINE, act) for act in PLANNED), *comes)
    assert make(assess(of, log, week_later), 1).programme.days[0].planned_at is None
