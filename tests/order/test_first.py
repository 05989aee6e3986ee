"""What goes first: the work whose waiting would cost the vehicle most."""

from __future__ import annotations

import random
import time as clock
from datetime import date, datetime, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from crewboard.logbook.acts import Begun, Finished
from crewboard.order.ahead.first import First, what_goes_first
from crewboard.plan.component import Component
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from tests.order import day_by_day
from tests.order.small_plans import FIRST_SATURDAY, board, hold, logbook, plan, random_tasks, task


def _first(of: Plan, name: str) -> First:
    return next(each for each in what_goes_first(board(of)) if each.task == name)


def test_an_hour_that_starts_a_month_outranks_a_long_task_that_nothing_waits_for() -> None:
    of = plan(
        [
            task("c/sand the floor", 14),
            task("c/bend", 1, hold=hold("bend set", "1 month")),
            task("c/fit", 7, after=("c/bend",)),
            task("c/paint", 7, after=("c/fit",)),
        ]
    )
    ranked = what_goes_first(board(of))
    assert [each.task for each in ranked] == ["c/bend", "c/sand the floor"]
    bend, sand = ranked
    # Bent on the 2nd: fitted on 6 June, painted on the 20th. Bent on the 16th: the month is over on
    # the 16th of June, so fitted on the 20th and painted on 4 July at 16:00.
    assert bend.delay == timedelta(days=14)
    assert (bend.behind, bend.lets_go, bend.finish_today) == (2, ("c/fit",), True)
    assert bend.says == (
        "starts a 1-month bend set; 2 tasks wait behind it; waiting makes the vehicle 2 weeks later"
    )
    assert sand.delay == timedelta()
    assert sand.says == "nothing waits behind it"


@settings(max_examples=50, deadline=None)
@given(seed=st.integers(0, 10**9))
def test_the_delay_is_what_a_walk_through_the_calendar_finds(seed: int) -> None:
    rnd = random.Random(seed)
    of = plan(random_tasks(rnd, rnd.randint(1, 12)))
    end = max(over for _, _, over in day_by_day.schedule(of, FIRST_SATURDAY).values())
    next_day = datetime(2026, 5, 16, 9)
    for each in what_goes_first(board(of)):
        pushed = day_by_day.schedule(of, FIRST_SATURDAY, {each.task: next_day})
        assert end + each.delay == max(over for _, _, over in pushed.values())


def test_between_work_days_waiting_means_to_leave_out_the_coming_one() -> None:
    of = plan([task("c/a", 7), task("c/b", 7, after=("c/a",))])
    [first] = what_goes_first(board(of, datetime(2026, 5, 5, 20)))
    # 16 May is left out: 6 June and 20 June instead of 16 May and 6 June.
    assert first.delay == timedelta(days=14)


def test_a_hold_is_to_run_till_the_next_work_day_only_where_the_day_is_long_enough() -> None:
    glue = hold("glue", "36 hours")
    of = plan(
        [
            task("c/short", 7, hold=glue),
            task("c/long", 8, hold=glue),
            task("c/two", 14, hold=glue, most_people=2),
            task("c/plain", 1),
            task("c/after", 1, after=("c/short", "c/long", "c/two", "c/plain")),
        ]
    )
    marked = {each.task: each.finish_today for each in what_goes_first(board(of))}
    assert marked == {"c/short": True, "c/long": False, "c/two": True, "c/plain": False}


def test_work_under_way_is_ranked_too_and_finished_work_is_not() -> None:
    of = plan([task("c/a"), task("c/b"), task("c/c", after=("c/b",))])
    log = logbook((FIRST_SATURDAY, Begun("c/a", ("ada",))), (FIRST_SATURDAY, Finished("c/b")))
    ranked = what_goes_first(board(of, datetime(2026, 5, 2, 10), log))
    assert {each.task for each in ranked} == {"c/a", "c/c"}


def test_a_date_that_waiting_would_break_comes_before_what_can_wait() -> None:
    of = plan(
        [
            task("c/tidy", 1),
            task("c/more", 1, after=("c/tidy",)),
            task("c/sign", 1, due=date(2026, 5, 10)),
            task("c/long", 70),
        ]
    )
    ranked = what_goes_first(board(of))
    assert [each.task for each in ranked] == ["c/long", "c/sign", "c/tidy"]
    assert ranked[1].for_date
    assert "must be finished by Sun 10 May 2026" in ranked[1].says


def test_what_is_let_go_is_seen_through_whole_components() -> None:
    parts = [Component("frame", "Frame"), Component("deck", "Deck", after=("frame",))]
    of = plan(
        [task("frame/weld"), task("deck/lay"), task("deck/caulk", after=("deck/lay",))], parts
    )
    assert _first(of, "frame/weld").lets_go == ("deck/lay",)
    both = plan([*of.tasks.values(), task("frame/grind")], parts)
    assert _first(both, "frame/weld").lets_go == ()
    assert _first(both, "frame/weld").behind == 2


def test_five_thousand_tasks_are_ranked_at_once() -> None:
    # The bound is wide: the machine may be busy with other checks.
    rnd = random.Random(5)
    tasks: list[Task] = []
    for number in range(5000):
        after: tuple[str, ...] = ()
        if number % 10:
            after = (tasks[rnd.randrange(number - number % 10, number)].id,)
        waits = hold("glue", "36 hours") if rnd.random() < 0.3 else None
        tasks.append(task(f"c{number // 100}/t{number}", 3, after=after, hold=waits))
    parts = [
        Component(f"c{n}", f"C{n}", after=(f"c{rnd.randrange(n)}",) if n else ()) for n in range(50)
    ]
    of = board(plan(tasks, parts))
    took = []
    for _ in range(3):
        start = clock.process_time()
        what_goes_first(of)
        took.append(clock.process_time() - start)
    assert min(took) < 0.5
