"""The plan for a day: sound under every rule, as good as can be proven, and said in words."""

from __future__ import annotations

import builtins
from datetime import date, datetime, time
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crewboard.logbook.acts import Expected, SignIn
from crewboard.order.day_plan.jobs import shop_day
from crewboard.order.day_plan.plain_rule import by_plain_rule
from crewboard.order.day_plan.plan_day import plan_day
from crewboard.order.day_plan.proposal import DayPlan, Fixed, Wish
from crewboard.order.day_plan.shortlist import shortlist
from crewboard.order.day_plan.worth import worth
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from crewboard.plan.volunteer import Certificate, Volunteer
from tests.order.day_plan.feasible import violations
from tests.order.day_plan.random_days import HAZARDS, random_day
from tests.order.safety.workshop import begin_refusals
from tests.order.small_plans import FIRST_SATURDAY, board, hold, logbook, plan, task

PAPERS = (Certificate("hot work", date(2027, 1, 31)),)
ADA = Volunteer("ada", "Ada Test", ("welding",), PAPERS, lead=True, adult=True)
TOM = Volunteer("tom", "Tom Test", ("joinery",), adult=True)
KIM = Volunteer("kim", "Kim Test", adult=False, needs_beside="ada")


def _plan(*tasks: Task) -> Plan:
    return plan(tasks, crew=[ADA, TOM, KIM], hazards=HAZARDS)


def _day(of: Plan, wish: Wish = Wish(("ada", "tom", "kim")), effort: float = 0) -> DayPlan:  # noqa: B008
    return plan_day(board(of), wish, effort)


@settings(max_examples=120, deadline=None)
@given(seed=st.integers(0, 10**9))
def test_the_plain_rule_keeps_every_rule(seed: int) -> None:
    on, wish = random_day(seed)
    day = plan_day(on, wish, effort=0)
    assert violations(on, wish, day) == []
    assert day.value <= day.bound


@settings(max_examples=12, deadline=None)
@given(seed=st.integers(0, 10**9))
def test_the_solver_keeps_every_rule_and_is_no_worse_than_the_plain_rule(seed: int) -> None:
    pytest.importorskip("ortools")
    on, wish = random_day(seed)
    plain = plan_day(on, wish, effort=0)
    day = plan_day(on, wish, effort=0.5)
    assert violations(on, wish, day) == []
    assert plain.value <= day.value <= day.bound <= max(plain.bound, day.bound)


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 10**9))
def test_the_safety_rules_find_nothing_against_who_is_planned(seed: int) -> None:
    # The rules that refuse a beginning were written by another hand than the plan for the day.
    on, wish = random_day(seed)
    for each in plan_day(on, wish, effort=0).placed:
        codes = {refusal.code for refusal in begin_refusals(on, each.task, each.people)}
        assert not codes & {"under-18", "certificate"}


def test_the_checker_finds_what_is_wrong() -> None:
    # A checker that finds nothing proves nothing: spoil a sound plan in one way after another.
    of = _plan(
        task("c/weld", 2, skills=("welding",), hazards=("hot",), most_people=2),
        task("c/plane", 2, place="bench"),
        task("c/saw", 2, place="bench", hazards=("saw",)),
    )
    on, wish = board(of), Wish(("ada", "tom", "kim"))
    sound = plan_day(on, wish, effort=0)
    assert violations(on, wish, sound) == []
    weld = next(p for p in sound.placed if p.task == "c/weld")

    def wrong(**other: Any) -> list[str]:
        return violations(on, wish, sound._replace(placed=(weld._replace(**other),)))

    assert any("skill" in each for each in wrong(people=("tom", "kim")))
    assert any("under-18" in each for each in wrong(people=("ada", "kim")))
    assert any("2 people" in each for each in wrong(people=("ada",)))
    late = {"start": datetime(2026, 5, 2, 15), "end": datetime(2026, 5, 2, 16)}
    assert any("fire watch" in each for each in wrong(**late))
    early = {"start": datetime(2026, 5, 2, 8), "end": datetime(2026, 5, 2, 10)}
    assert any("open hours" in each for each in wrong(**early))
    short = {"start": datetime(2026, 5, 2, 9), "end": datetime(2026, 5, 2, 9, 30)}
    assert any("not finished" in each for each in wrong(**short))
    both = tuple(p._replace(start=weld.start, end=weld.end, people=("tom",)) for p in sound.placed)
    says = violations(on, wish, sound._replace(placed=both))
    assert any("two tasks at" in each for each in says)
    assert any("tasks are in bench" in each for each in says)


def test_hot_work_ends_early_enough_for_its_fire_watch() -> None:
    too_long = _plan(task("c/weld", 40, hazards=("hot",), most_people=2))
    assert _day(too_long).placed == ()  # it would not be done before its watch has to begin
    of = _plan(task("c/weld", 12, hazards=("hot",), most_people=2))
    [weld] = _day(of).placed
    assert weld.end == datetime(2026, 5, 2, 15)  # closes at 16:00, the watch is an hour
    assert set(weld.people) == {"ada", "tom"}  # Kim is under 18


def test_a_hold_that_should_run_is_started_before_what_can_wait() -> None:
    of = _plan(
        task("c/tidy", 7),
        task("c/glue", 2, hold=hold("glue", "36 hours")),
        task("c/fit", 7, after=("c/glue",)),
    )
    day = plan_day(board(of), Wish(("tom",)), 0)
    assert (day.placed[0].task, day.placed[0].finishes) == ("c/glue", True)


def test_what_a_job_lets_go_may_follow_on_the_same_day() -> None:
    of = _plan(task("c/a", 2), task("c/b", 2, after=("c/a",)))
    day = plan_day(board(of), Wish(("tom",)), 0)
    assert [each.task for each in day.placed] == ["c/a", "c/b"]
    assert day.placed[0].end <= day.placed[1].start


def test_who_needs_somebody_beside_them_is_not_left_alone() -> None:
    of = _plan(task("c/a", 7, most_people=1), task("c/b", 7, most_people=1))
    day = _day(of)
    assert day.idle == ("kim",)
    alone = plan_day(board(of), Wish(("tom", "kim")), 0)
    assert any("needs another beside" in each for each in alone.remarks)


def test_what_could_not_be_placed_says_why() -> None:
    of = _plan(
        task("c/wire", skills=("electrics",)),
        task("c/lift", least_people=5),
        task("c/weld", hazards=("hot",)),
    )
    says = {each.task: each.why for each in plan_day(board(of), Wish(("tom", "kim")), 0).not_placed}
    assert says == {
        "c/wire": "nobody in the crew has the skill electrics",
        "c/lift": "it needs 5 people: only 3 in the crew may do it",
        "c/weld": 'none of these people has the certificate "hot work" in date',
    }


def test_the_lead_fixes_a_part_and_asks_again() -> None:
    of = _plan(task("c/a", 3), task("c/b", 3), task("c/c", 3))
    wish = Wish(
        ("ada", "tom"),
        fixed=(Fixed("c/c", ("tom",), time(13), only=True),),
        left_out=("c/a",),
        apart=(("ada", "c/b"),),
    )
    for effort in (0, 0.5):
        day = plan_day(board(of), wish, effort)
        found = {each.task: (each.people, each.start.time()) for each in day.placed}
        assert found["c/c"] == (("tom",), time(13))
        assert found["c/b"][0] == ("tom",)
        assert "c/a" not in found


def test_the_day_is_planned_for_who_is_here_or_said_they_come() -> None:
    of = _plan(task("c/a", 30))
    log = logbook(
        (datetime(2026, 5, 2, 8), Expected("tom")), (datetime(2026, 5, 2, 9), SignIn("ada"))
    )
    assert plan_day(board(of, FIRST_SATURDAY, log), effort=0).people == ("ada", "tom")
    early = logbook((datetime(2026, 5, 2, 8), Expected("tom", coming=False)))
    assert plan_day(board(of, FIRST_SATURDAY, early), effort=0).people == ("ada", "kim")


def test_without_the_solver_the_plain_rule_plans_and_says_so(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    real = builtins.__import__

    def without(name: str, *rest: Any) -> Any:
        if name.startswith("ortools"):
            raise ImportError(name)
        return real(name, *rest)

    monkeypatch.setattr(builtins, "__import__", without)
    day = _day(_plan(task("c/a", 3)), effort=1)
    assert day.by == "plain rule"
    assert [each.task for each in day.placed] == ["c/a"]
    assert any("not installed" in each for each in day.remarks)
    assert any("plain rule was used" in each for each in day.remarks)


def test_dangers_in_the_plan_bring_the_caution_with_them() -> None:
    plain = _day(_plan(task("c/a", 3)))
    dangerous = _day(_plan(task("c/a", 3, hazards=("saw",))))
    assert not any("authorises nothing" in each for each in plain.remarks)
    assert any("authorises nothing" in each for each in dangerous.remarks)


def test_a_small_day_is_proven_best() -> None:
    pytest.importorskip("ortools")
    of = _plan(task("c/a", 3), task("c/b", 5), task("c/c", 2, place="bench"))
    day = plan_day(board(of), Wish(("ada", "tom")), 5)
    assert (day.by, day.gap) == ("solver", 0.0)


def test_when_the_shop_is_about_to_close_nothing_is_planned() -> None:
    day = plan_day(board(_plan(task("c/a")), datetime(2026, 5, 2, 15, 50)), Wish(("tom",)), 0)
    assert day.placed == ()
    assert day.not_placed[0].why == "the shop closes before anything could be begun"


def test_a_shortlist_fills_the_day_twice_over_and_keeps_what_the_plan_has() -> None:
    on, wish = random_day(1003, people=15, ready=40)
    day = shop_day(on, wish)
    known = by_plain_rule(day)
    short = shortlist(day, known)
    assert not short.whole
    assert {slot.job for slot in known} <= set(short.numbers)
    assert short.outside(short.inside(known)) == known
    assert worth(short.day, short.inside(known)) == worth(day, known)
    assert sum(job.need for job in short.day.jobs) >= 2 * len(day.people) * day.blocks
    for job, number in zip(short.day.jobs, short.numbers, strict=True):
        assert [short.numbers[n] for n in job.after] == list(day.jobs[number].after)
