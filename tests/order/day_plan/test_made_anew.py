"""A day planned anew while work is under way."""

from __future__ import annotations

from datetime import datetime, time, timedelta

from crewboard.logbook.acts import Begun, Finished, SignIn
from crewboard.order.board import Board
from crewboard.order.day_plan.plan_day import plan_day
from crewboard.order.day_plan.proposal import Fixed, Placed, Wish
from crewboard.plan.duration import parse_duration
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from crewboard.plan.volunteer import Certificate, Volunteer
from tests.order.day_plan.random_days import HOT
from tests.order.day_plan.test_jigs_room_following import EFFORTS, WISH, planned, shop, why
from tests.order.small_plans import FIRST_SATURDAY, board, hold, logbook, task

TEN = FIRST_SATURDAY + timedelta(hours=1)
POUR = task("c/pour", 9, title="Pour", most_people=2, in_one_go=True)
URGENT = task("c/urgent", 2, title="Urgent", least_people=3)


def under_way(of: Plan, *begun: Begun | Finished, at: datetime = TEN) -> Board:
    here = [(FIRST_SATURDAY, SignIn(who)) for who in WISH.people]
    return board(of, at, logbook(*here, *((FIRST_SATURDAY, act) for act in begun)))


def of_task(on: Board, name: str, effort: float, wish: Wish = WISH) -> Placed:
    return next(p for p in planned(on, effort, wish).placed if p.task == name)


def pressing(*tasks: Task) -> Plan:
    """A shop in which much waits behind the urgent work."""
    behind = [task(f"c/behind{number}", 20, after=("c/urgent",)) for number in range(5)]
    return shop(*tasks, URGENT, *behind)


@EFFORTS
def test_whoever_is_on_work_in_one_go_stays_until_it_is_whole(effort: float) -> None:
    pour = of_task(under_way(pressing(POUR), Begun("c/pour", ("ada", "tom"))), "c/pour", effort)
    assert (set(pour.people), pour.start, pour.finishes) == ({"ada", "tom"}, TEN, True)


@EFFORTS
def test_a_lead_s_wish_for_other_work_or_another_hour_waits_for_it(effort: float) -> None:
    on = under_way(pressing(POUR), Begun("c/pour", ("ada", "tom")))
    fixed = (Fixed("c/urgent", ("ada",), time(10)), Fixed("c/pour", (), time(13)))
    day_plan = plan_day(on, WISH._replace(fixed=fixed), effort)
    (pour,) = [p for p in day_plan.placed if p.task == "c/pour"]
    assert (set(pour.people), pour.start) == ({"ada", "tom"}, TEN)
    assert why(day_plan, "c/urgent")


@EFFORTS
def test_it_goes_on_where_it_is_too_long_or_nothing_can_follow_it_in_time(effort: float) -> None:
    pour = POUR._replace(estimate=task("c/long", 40).estimate)
    on = under_way(pressing(pour), Begun("c/pour", ("ada", "tom")))
    assert of_task(on, "c/pour", effort).end.time() == time(16)
    soon = task("c/trowel", 1, after=("c/pour",), within={"c/pour": parse_duration("1 hour")})
    for trowel in (soon._replace(skills=("plaster",)), soon._replace(hazards=("hot",))):
        on = under_way(pressing(POUR, trowel), Begun("c/pour", ("ada", "tom")))
        plan = plan_day(on, WISH, effort)
        assert next(p for p in plan.placed if p.task == "c/pour").finishes


@EFFORTS
def test_two_jobs_in_one_go_go_on_in_a_place_that_has_room_for_one(effort: float) -> None:
    pours = [POUR._replace(id=f"c/pour{who}", place="yard") for who in ("ada", "tom")]
    other = task("c/other", 1, place="yard")
    begun = [Begun(f"c/pour{who}", (who,)) for who in ("ada", "tom")]
    placed = plan_day(under_way(shop(*pours, other), *begun), WISH, effort).placed
    assert {p.task for p in placed if p.start == TEN} == {"c/pourada", "c/pourtom"}
    assert all(p.start >= placed[0].end for p in placed if p.task == "c/other")


@EFFORTS
def test_hot_work_goes_on_with_those_on_it_until_it_must_end_for_its_watch(effort: float) -> None:
    paper = (Certificate("hot work", datetime(2027, 1, 1).date()),)
    crew = {who: Volunteer(who, who.title(), (), paper, adult=True) for who in WISH.people}
    weld = task("c/weld", 12, title="Weld", hazards=("hot",), most_people=3)
    of = pressing(weld)._replace(crew=crew, hazards={"hot": HOT})
    going_on = of_task(under_way(of, Begun("c/weld", ("ada", "tom"))), "c/weld", effort)
    assert (set(going_on.people), going_on.start) in (
        ({"ada", "tom"}, TEN),
        ({"ada", "tom", "kim"}, TEN),
    )
    assert going_on.end.time() <= time(15)
    assert going_on.finishes or set(going_on.people) == {"ada", "tom"}


@EFFORTS
def test_work_of_nobody_named_keeps_its_room(effort: float) -> None:
    of = shop(task("c/sand", 20, place="tent"), task("c/wax", 1, place="tent"), tent=1)
    day_plan = planned(under_way(of, Begun("c/sand", ())), effort)
    assert "c/wax" not in {p.task for p in day_plan.placed}


@EFFORTS
def test_work_begun_before_its_turn_is_not_planned_into_the_hold_before_it(effort: float) -> None:
    glue = task("c/glue", 2, least_people=2, hold=hold("glue", "36 hours"))
    on = under_way(shop(glue, task("c/plane", 2, after=("c/glue",))), Begun("c/plane", ()))
    ends = {p.task: (p.start, p.end) for p in planned(on, effort).placed}
    assert "c/plane" not in ends or "c/glue" not in ends or ends["c/plane"][1] <= ends["c/glue"][0]


@EFFORTS
def test_work_that_is_finished_lets_its_people_go(effort: float) -> None:
    on = under_way(pressing(POUR), Begun("c/pour", ("ada", "tom")), Finished("c/pour"))
    assert of_task(on, "c/urgent", effort).start == TEN
