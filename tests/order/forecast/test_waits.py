"""Where the time goes on the chain that sets the date. Work days are 2 and 16 May, 6 June ..., 9 to
16; the courses are sure, so each span is known beforehand."""

from __future__ import annotations

from random import Random

import pytest

from crewboard.order.forecast.course import play
from crewboard.order.forecast.days import WorkDayTable
from crewboard.order.forecast.forecast import model_of
from crewboard.order.forecast.waits import LONGEST, waited
from crewboard.plan.duration import parse_duration
from crewboard.plan.supply import Supply
from crewboard.plan.volunteer import Volunteer
from tests.order.forecast.sure_courses import sure
from tests.order.small_plans import board, hold, plan, task

CREW = [Volunteer(f"p{n}", f"P{n}") for n in range(4)]


def test_a_hold_is_waited_for_and_named() -> None:
    """2 May 9:00 to 11:00 the bend; it is free at 11:00 on 22 May; fitted on 6 June at 9:00."""
    bend = task("c/bend", 2, hold=hold("bend set", "20 days", "time"), most_people=1)
    of = plan([bend, task("c/fit", 2, after=("c/bend",), most_people=1)])
    found = waited(sure(of), 3, 1)
    assert found.days == pytest.approx(35 + 2 / 24)
    assert found.spent["work"] == pytest.approx(4 / 24)
    assert found.spent["hold"] == pytest.approx(20)
    assert found.spent["people"] == pytest.approx(15 - 4 / 24 + 2 / 24)  # the next work day
    assert (found.tasks, found.work_days) == (2, 2)
    assert [(wait.spent, wait.task) for wait in found.longest] == [
        ("hold", "c/bend"),
        ("people", "c/fit"),
    ]


def test_a_delivery_is_waited_for_and_named() -> None:
    glass = Supply("glass", "Glass", lead_time=parse_duration("30 days"))
    of = plan([task("c/glaze", 2, supplies=("glass",), most_people=1)], supplies=[glass])
    found = waited(sure(of), 2, 1)
    # Ordered on 2 May at 9:00, here on 1 June; glazed on 6 June at 9:00.
    assert found.spent["delivery"] == pytest.approx(30)
    assert found.longest[0][:2] == ("delivery", "c/glaze")
    assert found.spent["people"] == pytest.approx(5)


def test_work_that_waits_for_the_only_pair_of_hands_waits_for_people() -> None:
    """Two tasks of seven hours for one person: the second begins on the second work day."""
    of = plan([task("c/a", 7, most_people=1), task("d/b", 7, most_people=1)])
    found = waited(sure(of), 2, 1)
    assert found.spent["people"] == pytest.approx(14 - 7 / 24)
    assert found.spent["work"] == pytest.approx(14 / 24)
    two = waited(sure(of, people=2), 2, 1)
    assert "people" not in two.spent


def test_the_spans_of_the_courses_add_up_to_all_of_their_time() -> None:
    bends = [
        task(f"c/t{n}", (4, 8, 20), hold=hold("glue", "9 days") if n % 2 else None)
        for n in range(12)
    ]
    chained = [one._replace(after=(f"c/t{n - 3}",) if n > 2 else ()) for n, one in enumerate(bends)]
    model = model_of(board(plan(chained, crew=CREW)))._replace(finds=None)
    table = WorkDayTable(model)
    ends = [play(model, table, Random(f"7/{number}")).finish - table.now for number in range(25)]
    found = waited(model, 25, 7)
    assert found.days == pytest.approx(sum(ends) / 25 / 1440, abs=0.01)
    assert sum(found.spent.values()) == pytest.approx(found.days)
    assert len(found.longest) == LONGEST
    lengths = [wait.days for wait in found.longest]
    assert lengths == sorted(lengths, reverse=True)


def test_what_turns_up_has_a_span_of_its_own() -> None:
    model = model_of(board(plan([task(f"c/t{n}", (4, 8, 20)) for n in range(30)], crew=CREW)))
    assert "found" in waited(model, 20, 1).spent
    assert "found" not in waited(model._replace(finds=None), 20, 1).spent


def test_watching_can_be_stopped_and_nothing_can_be_watched_in_no_run() -> None:
    model = sure(plan([task("c/a", 7)]))
    asked: list[int] = []

    def stop(done: int, _of: int) -> bool:
        asked.append(done)
        return False

    assert waited(model, 500, 1, stop).days > 0
    assert asked == [20]
    with pytest.raises(ValueError, match="no run"):
        waited(model, 0, 1)
