"""A day with jigs, places with room, work in one go and work that must follow soon."""

from __future__ import annotations

from datetime import datetime, time, timedelta
from typing import Any

import pytest

from crewboard.logbook.acts import Begun, Finished
from crewboard.order.board import Board
from crewboard.order.day_plan.plan_day import plan_day
from crewboard.order.day_plan.proposal import DayPlan, Fixed, Wish
from crewboard.plan.duration import parse_duration
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from crewboard.plan.vehicle import Jig
from crewboard.plan.volunteer import Volunteer
from tests.order.day_plan.feasible import violations
from tests.order.small_plans import FIRST_SATURDAY, board, hold, logbook, plan, task

CREW = tuple(Volunteer(name, name.title(), adult=True) for name in ("ada", "tom", "kim"))
WISH = Wish(("ada", "tom", "kim"))
EFFORTS = pytest.mark.parametrize("effort", [0, 0.2], ids=["plain rule", "solver"])


def shop(*tasks: Task, forms: int = 1, **room: int) -> Plan:
    of = plan(tasks, crew=CREW)
    jigs = {"form": Jig("form", "Bending form", forms)}
    here = of.vehicle.shop._replace(room=room)
    return of._replace(vehicle=of.vehicle._replace(jigs=jigs, shop=here))


def planned(on: Board, effort: float, wish: Wish = WISH) -> DayPlan:
    day_plan = plan_day(on, wish, effort)
    assert violations(on, wish, day_plan) == []
    return day_plan


def why(day_plan: DayPlan, name: str) -> str:
    return next(left.why for left in day_plan.not_placed if left.task == name)


def bend(number: int, **more: Any) -> Task:
    return task(f"c/bend{number}", 1, title=f"Bend {number}", most_people=1, uses=("form",), **more)


@EFFORTS
def test_two_bends_are_never_planned_on_one_form(effort: float) -> None:
    sets = hold("bend set", "2 days")
    on = board(shop(bend(1, hold=sets), bend(2, hold=sets)))
    day_plan = planned(on, effort)
    (first,) = day_plan.placed
    other = "c/bend2" if first.task == "c/bend1" else "c/bend1"
    title = on.plan.tasks[first.task].title
    assert why(day_plan, other) == f'Bending form: taken by "{title}"'
    assert (
        len(planned(board(shop(bend(1, hold=sets), bend(2, hold=sets), forms=2)), effort).placed)
        == 2
    )


@EFFORTS
def test_work_without_a_hold_gives_the_form_back_when_it_is_finished(effort: float) -> None:
    placed = planned(board(shop(bend(1), bend(2))), effort).placed
    assert [p.finishes for p in placed] == [True, True]
    assert placed[0].end <= placed[1].start


@EFFORTS
def test_the_form_stays_with_work_under_way_also_where_nobody_goes_on_with_it(
    effort: float,
) -> None:
    of = shop(bend(1, skills=("steam",)), bend(2))
    of = of._replace(crew={**of.crew, "ida": Volunteer("ida", "Ida", ("steam",), adult=True)})
    on = board(of, log=logbook((FIRST_SATURDAY - timedelta(days=7), Begun("c/bend1", ("ida",)))))
    assert on["c/bend2"].jigs == ("form",)
    assert "c/bend2" not in {p.task for p in planned(on, effort).placed}


@EFFORTS
def test_a_place_takes_as_many_jobs_as_it_has_room_for(effort: float) -> None:
    jobs = [task(f"c/t{n}", 7, place="tent", most_people=1) for n in range(3)]
    assert len(planned(board(shop(*jobs)), effort).placed) == 1
    assert len(planned(board(shop(*jobs, tent=2)), effort).placed) == 2


@EFFORTS
def test_work_in_one_go_is_planned_whole_or_not_at_all(effort: float) -> None:
    pour = task("c/pour", 9, title="Pour", most_people=1, in_one_go=True)
    day_plan = planned(board(shop(pour)), effort)
    assert day_plan.placed == ()
    assert why(day_plan, "c/pour") == (
        "it must not be left half done, and the day is too short for it"
    )
    (placed,) = planned(board(shop(pour._replace(most_people=2))), effort).placed
    assert placed.finishes
    assert len(placed.people) == 2


BLAST = task("c/blast", 3, title="Blast", most_people=1)


def prime(span: str, **more: Any) -> Task:
    soon = {"c/blast": parse_duration(span)}
    return task("c/prime", 1, title="Prime", after=("c/blast",), within=soon, **more)


@EFFORTS
def test_what_is_blasted_is_primed_the_same_day(effort: float) -> None:
    others = [task(f"d/t{n}", 4, most_people=1) for n in range(5)]
    on = board(shop(BLAST, prime("2 hours", most_people=1), *others))
    placed = {p.task: p for p in planned(on, effort).placed}
    assert "c/blast" in placed
    if placed["c/blast"].finishes:
        late = placed["c/prime"].start - placed["c/blast"].end
        assert late <= timedelta(hours=2)


@EFFORTS
def test_what_could_not_be_primed_the_same_day_is_not_blasted_to_the_end(effort: float) -> None:
    on = board(shop(BLAST._replace(in_one_go=True), prime("4 hours", skills=("spraying",))))
    day_plan = planned(on, effort)
    assert day_plan.placed == ()
    assert why(day_plan, "c/blast") == '"Prime" has to be begun within 4 hours after it'
    # With weeks of time the priming can wait for whoever can do it.
    on = board(shop(BLAST._replace(in_one_go=True), prime("3 weeks", skills=("spraying",))))
    assert [p.task for p in planned(on, effort).placed] == ["c/blast"]


@EFFORTS
def test_what_was_blasted_this_morning_is_primed_by_its_time(effort: float) -> None:
    blasted = logbook(
        (FIRST_SATURDAY, Begun("c/blast", ("ada",))), (FIRST_SATURDAY, Finished("c/blast"))
    )
    jobs = [task(f"d/t{n}", 7, hold=hold("cure", "1 month"), most_people=1) for n in range(5)]
    on = board(shop(BLAST, prime("3 hours"), *jobs), datetime(2026, 5, 2, 10), blasted)
    placed = {p.task: p for p in planned(on, effort).placed}
    assert placed["c/prime"].start <= datetime(2026, 5, 2, 12)
    too_late = Wish(WISH.people, (Fixed("c/prime", start=time(13)),))
    assert why(planned(on, effort, too_late), "c/prime") == "it has to be begun by 12:00"
