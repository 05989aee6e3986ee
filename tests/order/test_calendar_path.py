"""The critical path with waiting, against a slow scheduler and against networkx."""

from __future__ import annotations

import random
from datetime import date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import networkx
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from crewboard.logbook.acts import Begun, Finished, HoursWorked, Ordered, SetAside
from crewboard.order.ahead.calendar_path import CalendarPath, calendar_path
from crewboard.plan.clock import ShopClock
from crewboard.plan.component import Component
from crewboard.plan.duration import parse_duration
from crewboard.plan.supply import Supply
from crewboard.plan.task import Task
from crewboard.plan.workdays import Opening, WorkDays, parse_rule
from tests.order import day_by_day
from tests.order.small_plans import (
    EVERY_MINUTE,
    FIRST_SATURDAY,
    TWICE_A_MONTH,
    board,
    hold,
    logbook,
    plan,
    random_tasks,
    task,
)

nx: Any = networkx
WEEKLY = WorkDays((parse_rule("saturday"), parse_rule("wednesday")), Opening(time(9), time(16)))
# With an evening on each Saturday: the shop opens twice that day.
EVENINGS = WEEKLY._replace(
    also=tuple(
        (date(2026, 5, 2) + timedelta(weeks=week), Opening(time(18), time(20)))
        for week in range(60)
    )
)


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 10**9), days=st.sampled_from([TWICE_A_MONTH, WEEKLY, EVENINGS]))
def test_earliest_times_are_those_of_a_walk_through_the_calendar(seed: int, days: WorkDays) -> None:
    rnd = random.Random(seed)
    of = plan(random_tasks(rnd, rnd.randint(1, 14)), work_days=days)
    now = datetime(2026, 5, rnd.randint(1, 28), rnd.choice((7, 9, 12, 15, 18)))
    path = calendar_path(board(of, now))
    slow = day_by_day.schedule(of, now)
    for name, (start, finish, over) in slow.items():
        times = path.of_task(name)
        assert times is not None
        assert (times.start, times.finish, times.clear) == (start, finish, over)
    assert path.finish == max(over for _, _, over in slow.values())


@settings(max_examples=80, deadline=None)
@given(seed=st.integers(0, 10**9), days=st.sampled_from([WEEKLY, EVENINGS]))
@example(seed=243, days=WEEKLY)  # what asks for a look must be over while the shop is open
def test_a_task_may_wait_till_its_latest_start_and_not_longer(seed: int, days: WorkDays) -> None:
    rnd = random.Random(seed)
    of = plan(random_tasks(rnd, rnd.randint(2, 9)), work_days=days)
    path = calendar_path(board(of))
    end = path.finish
    name = rnd.choice(list(of.tasks))
    times = path.of_task(name)
    assert times is not None

    def end_when_pushed(to: datetime) -> datetime:
        pushed = day_by_day.schedule(of, FIRST_SATURDAY, {name: to})
        return max(over for _, _, over in pushed.values())

    assert end_when_pushed(times.latest_start) == end
    assert end_when_pushed(times.latest_start + timedelta(minutes=30)) > end


@settings(max_examples=150, deadline=None)
@given(seed=st.integers(0, 10**9))
def test_without_holds_the_working_time_is_the_longest_path(seed: int) -> None:
    # networkx's dag_longest_path_length is the outside check.
    rnd = random.Random(seed)
    of = plan(random_tasks(rnd, rnd.randint(1, 40), holds=False), work_days=EVERY_MINUTE)
    path = calendar_path(board(of, datetime(2026, 5, 2)))
    graph: Any = nx.DiGraph()
    for each in of.tasks.values():
        assert each.estimate is not None
        graph.add_edge(each.id, f"{each.id} end", weight=round(each.estimate.likely * 60))
        graph.add_edge("start", each.id, weight=0)
        for earlier in each.after:
            graph.add_edge(f"{earlier} end", each.id, weight=0)
    longest = nx.dag_longest_path_length(graph)
    assert path.time.worked_by(path.end) == longest
    for name in of.tasks:
        ends = graph.subgraph(nx.ancestors(graph, f"{name} end") | {f"{name} end"})
        assert path.time.worked_by(path.done[name]) == nx.dag_longest_path_length(ends)
        through = nx.dag_longest_path_length(ends) + nx.dag_longest_path_length(
            graph.subgraph(nx.descendants(graph, f"{name} end") | {f"{name} end"})
        )
        assert path.slack(name) == longest - through
    on_chain = path.chain()
    assert sum(path.work[name] for name in on_chain) == longest


def _weeks(**rows: tuple[int, str]) -> list[Task]:
    """Activities in working days of one hour: name=(days, letters of predecessors)."""
    return [
        task(f"c/{name}", days, after=tuple(f"c/{b}" for b in before))
        for name, (days, before) in rows.items()
    ]


def _one_hour_days(rules: str) -> WorkDays:
    return WorkDays(tuple(parse_rule(r) for r in rules.split()), Opening(time(9), time(10)))


def _slacks(path: CalendarPath) -> dict[str, float]:
    return {name.removeprefix("c/"): path.slack(name) / 60 for name in path.work}


def test_a_weekday_calendar_gives_the_textbook_dates() -> None:
    # Winston, Operations Research, example 12.5 (slides): 20 working days, so that work that
    # starts on Monday 1 June ends on Friday 26 June; float C 8, F 1, I 8.
    days = _one_hour_days("monday tuesday wednesday thursday friday")
    of = plan(
        _weeks(
            A=(4, ""), B=(4, "A"), C=(11, ""), D=(3, "B"), E=(4, "D"),
            F=(3, "D"), G=(4, "D"), H=(3, "EFG"), I=(1, "BC"), J=(2, "H"),
        ),
        work_days=days,
    )  # fmt: skip
    path = calendar_path(board(of, datetime(2026, 6, 1, 9)))  # a Monday
    assert path.finish == datetime(2026, 6, 26, 10)
    slacks = _slacks(path)
    assert (slacks["C"], slacks["F"], slacks["I"]) == (8, 1, 8)


def test_nine_activities_have_the_floats_of_the_textbook() -> None:
    # Hendrickson, Project Management for Construction, nine-activity example: ACFI = 30;
    # float B 9, D 11, E 1, G 1, H 4.
    days = _one_hour_days("monday tuesday wednesday thursday friday saturday sunday")
    of = plan(
        _weeks(
            A=(4, ""), B=(3, ""), C=(8, "A"), D=(7, "A"), E=(9, "BC"), F=(12, "BC"),
            G=(2, "DE"), H=(5, "DE"), I=(6, "FG"),
        ),
        work_days=days,
    )  # fmt: skip
    path = calendar_path(board(of, datetime(2026, 6, 1, 9)))
    assert path.time.worked_by(path.end) == 30 * 60
    assert path.chain() == ["c/A", "c/C", "c/F", "c/I"]
    expected = {"A": 0, "B": 9, "C": 0, "D": 11, "E": 1, "F": 0, "G": 1, "H": 4, "I": 0}
    assert _slacks(path) == expected


def test_a_lag_after_a_finish_is_kept_on_the_calendar() -> None:
    # NAVEDTRA 14233 (US Navy 1995), text to fig. 2-13: a concrete cure is a lag, early finish +
    # lag = early start of what follows. Here 3 days' work, then a cure of 7 days.
    days = _one_hour_days("monday tuesday wednesday thursday friday saturday sunday")
    of = plan(
        [
            task("c/pour", 3, hold=hold("cure", "7 days")),
            task("c/frame", 1, after=("c/pour",)),
        ],
        work_days=days,
    )
    path = calendar_path(board(of, datetime(2026, 6, 1, 9)))
    frame = path.of_task("c/frame")
    assert frame is not None
    assert path.of_task("c/pour").finish == datetime(2026, 6, 3, 10)  # type: ignore[union-attr]
    # The cure is over on the 10th at closing time, so that the work begins the next morning.
    assert frame.start == datetime(2026, 6, 11, 9)


def test_a_bend_sets_through_days_without_work() -> None:
    of = plan(
        [task("c/bend", 2, hold=hold("bend set", "1 month")), task("c/fit", after=("c/bend",))]
    )
    path = calendar_path(board(of))
    # Bent by 11:00 on 2 May, so the month is over on 2 June; the crew next meets on 6 June.
    assert path.of_task("c/fit").start == datetime(2026, 6, 6, 9)  # type: ignore[union-attr]


def test_a_hold_over_a_change_of_the_clocks_is_not_cut_short() -> None:
    # Clocks in Central Europe go forward an hour in the night to 29 March 2026 (EU directive
    # 2000/84/EC): 24 hours after 16:00 on Saturday it is 17:00 on Sunday.
    of = plan([task("c/a", 7, hold=hold("dry", "24 hours"))], work_days=WEEKLY)
    of = of._replace(clock=ShopClock(ZoneInfo("Europe/Berlin")))
    path = calendar_path(board(of, datetime(2026, 3, 28, 9)))
    assert path.finish == datetime(2026, 3, 29, 17)


def test_work_may_start_during_a_hold_where_the_plan_says_so() -> None:
    bend = task("c/bend", 2, hold=hold("bend set", "1 month"))
    of = plan([bend, task("c/fit", during=("c/bend",))])
    fit = calendar_path(board(of)).of_task("c/fit")
    assert fit is not None
    assert fit.start == datetime(2026, 5, 2, 11)


def test_what_is_due_for_a_look_is_clear_when_the_shop_is_open() -> None:
    of = plan([task("c/glue", hold=hold("glue", "1 day")), task("c/fit", after=("c/glue",))])
    log = logbook((datetime(2026, 5, 2, 12), Finished("c/glue")))
    fit = calendar_path(board(of, datetime(2026, 5, 10, 12), log)).of_task("c/fit")
    assert fit is not None
    assert fit.start == datetime(2026, 5, 16, 9)


def test_an_inspection_is_taken_to_be_over_when_the_crew_next_meets() -> None:
    of = plan([task("c/wire", hold=hold("inspection")), task("c/close", after=("c/wire",))])
    close = calendar_path(board(of)).of_task("c/close")
    assert close is not None
    assert close.start == datetime(2026, 5, 16, 9)


@pytest.mark.parametrize(
    ("supply", "start"),
    [
        (Supply("oak", "Oak", due=date(2026, 6, 1)), datetime(2026, 6, 6, 9)),
        (Supply("oak", "Oak", lead_time=parse_duration("6 weeks")), datetime(2026, 6, 20, 9)),
        (Supply("oak", "Oak", due=date(2026, 4, 1)), datetime(2026, 5, 16, 9)),
        (Supply("oak", "Oak"), datetime(2026, 5, 16, 9)),
        (Supply("oak", "Oak", in_stock=True), datetime(2026, 5, 2, 9)),
    ],
)
def test_work_waits_for_a_delivery(supply: Supply, start: datetime) -> None:
    # Six weeks from 2 May is 13 June; the crew next meets on the 20th. What is overdue or has no
    # date is hoped for at the next work day.
    of = plan([task("c/plane", supplies=("oak",))], supplies=[supply])
    plane = calendar_path(board(of)).of_task("c/plane")
    assert plane is not None
    assert plane.start == start


def test_the_date_promised_in_the_logbook_counts() -> None:
    of = plan([task("c/plane", supplies=("oak",))], supplies=[Supply("oak", "Oak")])
    log = logbook((FIRST_SATURDAY, Ordered("oak", date(2026, 7, 1))))
    plane = calendar_path(board(of, datetime(2026, 5, 2, 10), log)).of_task("c/plane")
    assert plane is not None
    assert plane.start == datetime(2026, 7, 4, 9)


def test_a_fixed_date_holds_a_task_back_and_a_due_date_takes_its_slack() -> None:
    of = plan(
        [
            task("c/tent", not_before=date(2026, 6, 1)),
            task("c/show", 20, due=date(2026, 5, 10)),
            task("c/long", 100),
        ]
    )
    path = calendar_path(board(of))
    assert path.of_task("c/tent").start == datetime(2026, 6, 6, 9)  # type: ignore[union-attr]
    assert path.late_for_due() == ["c/show"]
    assert path.slack("c/show") < 0


def test_hours_logged_shorten_what_is_left() -> None:
    of = plan([task("c/plane", 6)])
    log = logbook(
        (FIRST_SATURDAY, Begun("c/plane", ("ada",))),
        (datetime(2026, 5, 2, 13), HoursWorked("ada", 4, "c/plane")),
    )
    path = calendar_path(board(of, datetime(2026, 5, 2, 13), log))
    assert path.finish == datetime(2026, 5, 2, 15)


def test_what_stands_behind_a_task_set_aside_is_told() -> None:
    of = plan([task("c/a", 9), task("c/b", after=("c/a",)), task("c/other")])
    log = logbook((FIRST_SATURDAY, SetAside("c/a", "no wood")))
    path = calendar_path(board(of, datetime(2026, 5, 2, 10), log))
    assert path.blocked == {"c/a", "c/b", "c>"}
    assert path.finish == datetime(2026, 5, 2, 11)


def test_a_component_has_the_times_of_its_parts() -> None:
    parts = [
        Component("roof", "Roof", after=("frame",)),
        Component("roof/arches", "Arches", part_of="roof"),
        Component("frame", "Frame"),
    ]
    of = plan(
        [
            task("frame/weld", 3),
            task("roof/bend", 2, component="roof/arches", hold=hold("bend set", "1 month")),
            task("roof/seal", 1),
        ],
        parts,
    )
    path = calendar_path(board(of))
    roof = path.of_component("roof")
    assert roof is not None
    assert (roof.start, roof.clear) == (datetime(2026, 5, 2, 12), datetime(2026, 6, 6, 9))
    assert path.of_component("roof/arches").start == datetime(2026, 5, 2, 12)  # type: ignore[union-attr]


def test_a_calendar_without_work_days_is_taken_to_be_weekly_and_said() -> None:
    path = calendar_path(board(plan([task("c/a", 3)], work_days=WorkDays())))
    assert path.time.assumed_from is not None
    assert path.finish > FIRST_SATURDAY


def test_absurdly_long_work_ends_somewhere() -> None:
    path = calendar_path(board(plan([task("c/a", 10.0**9, hold=hold("cure", "99 years"))])))
    assert path.finish.year > 2100
