"""The figures behind the dates, against a crew whose days are known."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from typing import Any

import pytest

from crewboard.logbook.acts import Arrived, Begun, Finished, HoursWorked, Ordered, SignIn
from crewboard.order.board import Board
from crewboard.order.forecast.figures import figures
from crewboard.order.forecast.finish import Growth
from crewboard.order.forecast.forecast import forecast
from crewboard.paper.plain import plain_lines
from crewboard.plan.supply import Supply
from crewboard.plan.volunteer import Volunteer
from crewboard.telling.forecast_figures import figure_lines
from tests.order.small_plans import board, logbook, plan, task

CREW = [Volunteer(f"p{n}", f"P{n} Test") for n in range(4)]
START = date(2025, 1, 4)
DAYS = 20


def _shop() -> Board:
    """Three of four come on each of 20 work days of 7 hours; each day a task of 10 hours takes them
    15, five each."""
    done = [task(f"c/d{n}", 10) for n in range(DAYS)]
    left = [task(f"c/t{n}", (5, 10, 20), title=f"Task {n}") for n in range(12)]
    weld = task("c/weld", (5, 10, 20), title="Weld it", skills=("welding",), after=("c/t0",))
    of = plan([*done, *left, weld], crew=CREW)
    on = list(of.vehicle.work_days.coming(START))[: DAYS + 1]
    said: list[tuple[datetime, Any]] = []
    for number, day in enumerate(on[:DAYS]):
        opens = datetime.combine(day, time(9))
        said += [(opens, SignIn(f"p{n}")) for n in range(3)]
        said.append((opens, Begun(f"c/d{number}", ("p0",))))
        worked = [HoursWorked(f"p{n}", 5.0, f"c/d{number}") for n in range(3)]
        said += [(opens + timedelta(hours=5), one) for one in worked]
        said.append((opens + timedelta(hours=6), Finished(f"c/d{number}")))
    return board(of, datetime.combine(on[DAYS], time(7)), logbook(*said))


def test_the_figures_are_those_of_the_crew() -> None:
    on = _shop()
    found = figures(on, forecast(on, 40), 20)
    assert found.left == (130, 65, 260)  # 13 tasks of 5 to 20 hours, likely 10
    assert found.paced == DAYS
    assert found.pace.low < found.pace.middle < found.pace.high
    assert found.pace.middle == pytest.approx(1.5, abs=0.1)  # shrunk a little
    assert found.share.middle == pytest.approx(5 / 7, abs=0.03)
    assert (found.people, found.held, found.dropped) == (3, DAYS, 0)
    assert [(each.who, each.days, each.of) for each in found.came] == [
        ("p0", 20, 20),
        ("p1", 20, 20),
        ("p2", 20, 20),
        ("p3", 0, 20),
    ]
    assert (found.day, found.days) == (7, 24)
    # three people, seven hours, five sevenths of them, two days a month
    assert found.in_a_month == pytest.approx(30, abs=1.5)
    assert found.waited.days > 30


def test_they_are_told_in_words_without_an_id() -> None:
    on = _shop()
    outlook = forecast(on, 40)._replace(growth=Growth(START, 20, 4, 200.0, 50.0, 0.2, 0.1, 0.35, 3))
    text = " ".join(
        " ".join(plain_lines(figure_lines(on, outlook, figures(on, outlook, 20)), 80)).split()
    )
    for says in (
        "work left: 130 h by the estimates; 65 h if all is quick, 260 h if nothing is.",
        "from 20 finished tasks with hours",
        "of the time in the shop goes into tasks (80 %: ",
        "3.0 came on each of 20 work days in the past year; no season stands out.",
        "P0 Test 20 of 20; P1 Test 20 of 20; P2 Test 20 of 20; P3 Test 0 of 20.",
        "with 24 work days of 7 h in the coming year",
        "The plan has grown by 25 % since Jan 2025: 4 tasks (50 h) turned up.",
        "For every 10 h that are done, 2.0 h turn up (80 %: 1.0 to 3.5).",
        "Of 3 tasks nothing says when they came.",
        "deliveries: they are taken to need 1.11 times as long as promised.",
        "to the end go, on average",
        "What the dates suppose",
        'somebody is found for "Weld it": nobody in the crew has the skill welding',
    ):
        assert says in text
    assert "c/" not in text


def test_deliveries_that_came_are_counted_and_those_that_came_late() -> None:
    said: list[tuple[datetime, Any]] = []
    for number, took in enumerate((10, 20, 30)):  # promised after 20 days
        at = datetime(2025, 1, 4, 9)
        said.append((at, Ordered(f"s{number}", at.date() + timedelta(days=20))))
        said.append((at + timedelta(days=took), Arrived(f"s{number}")))
    supplies = [Supply(f"s{n}", f"S{n}") for n in range(3)]
    of = plan([task("c/a", 10)], crew=CREW, supplies=supplies)
    on = board(of, datetime(2026, 1, 3, 8), logbook(*said))
    outlook = forecast(on, 20)
    found = figures(on, outlook, 5)
    assert (found.delivered, found.came_late) == (3, 1)
    text = " ".join(plain_lines(figure_lines(on, outlook, found), 200))
    assert "deliveries: 1 of 3 deliveries came late; they are taken to need" in text


def test_a_wait_names_what_the_work_asks_for() -> None:
    """One person, two tasks in the tent that has room for one: the second waits, for months."""
    tent = [
        task(f"c/t{n}", 60, title=f"Coat {n}", place="paint tent", skills=("painting",))
        for n in range(2)
    ]
    on = board(plan(tent, crew=[Volunteer("ada", "Ada", ("painting",))], places=("paint tent",)))
    outlook = forecast(on, 20)
    lines = plain_lines(figure_lines(on, outlook, figures(on, outlook, 20)), 200)
    waits = [line for line in lines if "it asks for painting" in line]
    assert any('people or room in the paint tent for "Coat' in line for line in waits)


def test_where_too_little_is_known_no_figure_is_made_up() -> None:
    on = board(plan([task("c/a", (5, 10, 20), skills=("welding",))], crew=CREW))
    text = " ".join(plain_lines(figure_lines(on, forecast(on, 20), None), 80))
    assert "5 to 20 h of work are left by the estimates" in text
    assert "nobody in the crew has the skill welding" in text
    assert "%" not in text
