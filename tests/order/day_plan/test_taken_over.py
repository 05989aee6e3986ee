"""The plan that the day runs by: what was taken over last, and that nothing rests on it."""

from __future__ import annotations

from datetime import datetime, time, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from crewboard.logbook.acts import Act, Begun, Finished, Planned, SignIn, TakenBack
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.day_plan.plan_day import plan_day
from crewboard.order.day_plan.taken_over import (
    next_by_plan,
    now_by_plan,
    planned_for,
    planned_lines,
    rests_on,
    running_plan,
    taking_over,
)
from crewboard.order.safety.left_open import days_left_open
from crewboard.plan.volunteer import Volunteer
from tests.order.day_plan.random_days import full_day, random_day
from tests.order.safety.workshop import begin_refusals
from tests.order.small_plans import FIRST_SATURDAY, logbook, plan, task

CREW = [Volunteer("ada", "Ada Test", adult=True), Volunteer("tom", "Tom Test", adult=True)]
OF = plan([task("c/a", 4), task("c/b", 2), task("c/late", 2)], crew=CREW)
NINE = FIRST_SATURDAY


def planned(name: str, *who: str, since: int, until: int, taking: str = "1 09:00 ada") -> Planned:
    return Planned(who, time(since), time(until), f"c/{name}", taking=taking)


def at(hour: int, minute: int, *acts: Act) -> Board:
    """The board of that time, with these acts written at nine."""
    moment = NINE.replace(hour=hour, minute=minute)
    return assess(OF, logbook(*((NINE, act) for act in acts)), moment)


def with_also(on: Board, acts: list[Planned]) -> Board:
    """The same board with these lines written down at its moment."""
    day = on.at.date()
    days = dict(on.logbook.days)
    entries = [*(days[day].entries if day in days else ())]
    entries += [Entry(f"plan{number}", on.at, act, "ada") for number, act in enumerate(acts)]
    days[day] = Day(day, entries)
    return assess(on.plan, Logbook(days), on.at)


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 10**9))
def test_what_was_taken_over_is_what_the_day_runs_by(seed: int) -> None:
    on, wish = full_day(seed)
    found = plan_day(on, wish, effort=0)
    running = running_plan(with_also(on, taking_over(on, found, "ada")))
    if not (found.placed or found.small):
        assert running is None
        return
    assert running is not None
    assert (running.by, running.at) == ("ada", on.at)
    assert sorted(p._replace(watched_until=None) for p in found.placed) == sorted(running.placed)


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 10**9))
def test_a_plan_changes_nothing_of_the_board_and_authorises_nothing(seed: int) -> None:
    # Separate code asks what stands against a begin, with and without the plan that names it.
    on, wish = random_day(seed)
    found = plan_day(on, wish, effort=0)
    ran = with_also(on, taking_over(on, found, "ada"))
    assert dict(ran.standings) == dict(on.standings)
    assert (dict(ran.holds), ran.present) == (dict(on.holds), on.present)
    for each in found.placed:
        assert begin_refusals(ran, each.task, each.people) == begin_refusals(
            on, each.task, each.people
        )


def test_of_several_the_one_taken_over_last_counts_and_taking_it_back_brings_the_one_before() -> (
    None
):
    first = planned("a", "ada", "tom", since=9, until=12)
    second = planned("b", "tom", since=9, until=10, taking="2 09:40 ada")
    running = running_plan(at(10, 0, first, second))
    assert running is not None
    assert [each.task for each in running.placed] == ["c/b"]
    assert running.entries == ("e1",)
    back = running_plan(at(10, 0, first, second, TakenBack("e1")))
    assert back is not None
    assert [each.task for each in back.placed] == ["c/a"]
    assert running_plan(at(10, 0, first, second, TakenBack("e1"), TakenBack("e0"))) is None


def test_the_eleventh_plan_of_a_day_comes_after_the_second() -> None:
    lines = [planned("a", "ada", since=9, until=12, taking=f"{n} 09:00 ada") for n in (2, 11)]
    on = at(9, 30, *lines)
    running = running_plan(on)
    assert running is not None
    assert running.entries == ("e1",)
    found = plan_day(on, effort=0)
    assert {act.taking.split()[0] for act in taking_over(on, found, "tom")} == {"12"}


def test_two_clones_that_each_took_one_over_agree_on_one_of_them_and_never_mix_them() -> None:
    mine = planned("a", "ada", since=9, until=12, taking="1 09:00 ada")
    theirs = planned("b", "tom", since=9, until=11, taking="1 09:00 tom")
    one, two = running_plan(at(9, 30, mine, theirs)), running_plan(at(9, 30, theirs, mine))
    assert one is not None
    assert two is not None
    assert one.placed == two.placed
    assert len(one.placed) == 1


def test_a_line_typed_by_hand_with_an_odd_mark_is_still_a_line_of_a_plan() -> None:
    running = running_plan(at(9, 30, planned("a", "ada", since=9, until=12, taking="9" * 6000)))
    assert running is not None
    assert [each.task for each in running.placed] == ["c/a"]


def test_a_task_that_the_plan_does_not_know_any_more_is_passed_over() -> None:
    running = running_plan(at(9, 30, planned("gone", "ada", since=9, until=12)))
    assert running is not None
    assert running.placed == ()


def test_now_and_next_by_the_plan() -> None:
    lines = (
        planned("a", "ada", "tom", since=9, until=12),
        planned("b", "tom", since=12, until=14),
        planned("late", "ada", since=13, until=15),
        Planned(("tom",), time(15), time(16), what="sweep", taking="1 09:00 ada"),
    )
    on = at(10, 0, *lines)
    running = running_plan(on)
    assert running is not None
    assert [turn.task for turn in now_by_plan(on, running)] == ["c/a"]
    coming = next_by_plan(on, running)
    assert [(turn.task, turn.start.hour) for turn in coming] == [("c/b", 12), ("c/late", 13)]
    later = at(14, 30, *lines)
    assert [turn.task for turn in now_by_plan(later, running)] == ["c/late"]
    assert [turn.what for turn in next_by_plan(later, running)] == ["sweep"]


def test_what_is_done_or_over_is_neither_now_nor_offered() -> None:
    line = planned("a", "ada", "tom", since=9, until=12)
    going = at(10, 0, line)
    placed = planned_for(going, "c/a")
    assert placed is not None
    assert placed.people == ("ada", "tom")
    assert planned_for(going, "c/b") is None
    done = at(10, 0, line, Begun("c/a", ("ada",)), Finished("c/a"))
    running = running_plan(done)
    assert running is not None
    assert now_by_plan(done, running) == []
    assert planned_for(done, "c/a") is None
    assert planned_for(at(12, 0, line), "c/a") is None


def test_the_plan_of_another_day_does_not_count() -> None:
    line = planned("a", "ada", since=9, until=12)
    log = logbook((NINE, line))
    assert running_plan(assess(OF, log, NINE + timedelta(days=14))) is None
    assert list(planned_lines(assess(OF, log, datetime(2026, 5, 2, 8)))) == []


def test_time_alone_asks_for_no_other_plan_and_whoever_comes_or_begins_does() -> None:
    line = planned("a", "ada", since=9, until=12)
    still = rests_on(at(9, 0, line))
    assert rests_on(at(9, 30, line)) == still
    assert rests_on(at(9, 30, line, SignIn("tom"))) != still
    assert rests_on(at(9, 30, line, Begun("c/a", ("ada",)))) != still


def test_the_plan_alone_makes_no_day_of_work() -> None:
    log = logbook((NINE, planned("a", "ada", since=9, until=12)))
    on = assess(OF, log, NINE + timedelta(days=14))
    assert days_left_open(on.plan, on.logbook, on.at.date()) == []
