"""Courses of work on pieces: enough of several, jigs, room in a place, work in one go."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from crewboard.logbook.acts import Act, Begun, Finished, PieceFailed, TookPlace
from crewboard.order.ahead.calendar_path import calendar_path
from crewboard.order.ahead.first import what_goes_first
from crewboard.order.board import Board
from crewboard.order.forecast.forecast import forecast
from crewboard.order.sequence.links import closing
from crewboard.plan.duration import parse_duration
from crewboard.plan.hold import Hold
from crewboard.plan.piece import Piece
from crewboard.plan.plan import Plan
from crewboard.plan.series import Series, written_out
from crewboard.plan.task import Task
from crewboard.plan.vehicle import Jig
from tests.order.forecast.sure_courses import finish_of, sure
from tests.order.small_plans import FIRST_SATURDAY, board, hold, logbook, plan, task

# Work days are 2 and 16 May, 6 and 20 June ..., 9:00 to 16:00.


def arches(count: int, spares: int = 0) -> dict[str, Piece]:
    return {
        f"c/arch/{n}": Piece(f"c/arch/{n}", f"Arch {n}", "c", "c/arch", n, spare=n > count)
        for n in range(1, count + spares + 1)
    }


def of_arches(*tasks: Task, count: int = 3, spares: int = 0, **vehicle: Any) -> Plan:
    """The plan in which tasks marked with `each` are done to every arch."""
    pieces = arches(count, spares)
    every: dict[str, Task] = {}
    series: dict[str, Series] = {}
    for one in tasks:
        if one.each:
            series[one.id], members = written_out(one, pieces.values())
            every |= members
        else:
            every[one.id] = one
    of = plan(every.values())
    shop = of.vehicle.shop._replace(room=vehicle.pop("room", {}))
    car = of.vehicle._replace(shop=shop, **vehicle)
    return of._replace(pieces=pieces, series=series, vehicle=car)


EACH = ("arches",)
FORM = {"form": Jig("form", "Bending form")}
SET = hold("bend set", "20 days", "time")


def bend(**more: Any) -> Task:
    return task("c/bend", 1, each=EACH, most_people=1, **more)


def test_two_of_three_are_enough_for_what_follows() -> None:
    glue = task("c/fit", 7, each=EACH, most_people=1)
    follows = task("d/battens", 7, after=("c/fit",), most_people=1)
    waits = of_arches(glue, follows)
    goes_on = of_arches(glue, follows._replace(enough={"c/fit": 2}))
    # One person: four days one after the other, or the battens before the third arch.
    assert finish_of(sure(waits)) == datetime(2026, 6, 20, 16)
    # Two people: two arches on the first day; then the third beside the battens.
    assert finish_of(sure(waits, people=2)) == datetime(2026, 6, 6, 16)
    assert finish_of(sure(goes_on, people=2)) == datetime(2026, 5, 16, 16)


@st.composite
def plans_with_enough(draw: st.DrawFn) -> Plan:
    count = draw(st.integers(1, 4))
    holds: st.SearchStrategy[Hold | None] = st.sampled_from(
        (None, hold("glue", "36 hours", "time"), hold("dry", "12 days", "time"))
    )
    tasks: list[Task] = []
    for number in range(draw(st.integers(1, 5))):
        names = [t.id for t in tasks]
        after = (
            tuple(draw(st.lists(st.sampled_from(names), max_size=2, unique=True))) if names else ()
        )
        several = {t.id for t in tasks if t.each} & {*after}
        enough = {
            name: draw(st.integers(1, count)) for name in sorted(several) if draw(st.booleans())
        }
        during = draw(st.integers(0, 4)) == 0
        tasks.append(
            task(
                f"c/t{number}",
                draw(st.sampled_from((0.5, 3, 7, 12))),
                after=() if during else tuple(sorted(after)),
                during=tuple(sorted(after)) if during else (),
                each=EACH if draw(st.booleans()) else (),
                enough=enough,
                hold=draw(holds),
                most_people=1,
            )
        )
    return of_arches(*tasks, count=count, spares=draw(st.integers(0, 1)))


@st.composite
def part_way(draw: st.DrawFn) -> Board:
    """Some of the work finished, now and then a piece failed."""
    of = draw(plans_with_enough())
    said: list[tuple[datetime, Act]] = []
    at = FIRST_SATURDAY
    for name in draw(st.lists(st.sampled_from(sorted(of.tasks)), max_size=4, unique=True)):
        at += timedelta(hours=draw(st.integers(1, 100)))
        said.append((at, Finished(name)))
    if draw(st.booleans()):
        said.append((at, PieceFailed("c/arch/1")))
        if "c/arch/5" in of.pieces or draw(st.booleans()):
            spares = [piece.id for piece in of.pieces.values() if piece.spare]
            said += [(at, TookPlace(spare, "c/arch/1")) for spare in spares]
    return board(of, at + timedelta(minutes=5), logbook(*said))


@settings(max_examples=150, deadline=None)
@given(part_way())
def test_with_enough_people_a_course_is_as_long_as_the_calendar_path(on: Board) -> None:
    path = calendar_path(on)
    model = sure(on, people=20)
    # A piece is left alone by other work while a hold runs on it: the path does not know of that.
    model = model._replace(work=tuple(work._replace(blocks=()) for work in model.work))
    if model.tasks:
        last = max(path.clear[name] for name in (*model.tasks, closing("c")))
        assert finish_of(model) == path.time.moment(last)
    for first in what_goes_first(on, path):
        assert first.slack >= timedelta() or first.delay >= timedelta()


def test_what_failed_and_what_is_spare_is_not_waited_for() -> None:
    """Six arches and a spare: nobody is asked to make the spare, so nothing waits for it."""
    of = of_arches(bend(), task("c/canvas", 1, after=("c/bend",)), spares=1)
    on = board(of)
    path = calendar_path(on)
    assert "c/canvas" not in path.blocked
    assert not any("set aside" in remark for remark in forecast(on, runs=1).remarks)
    failed = board(of, log=logbook((FIRST_SATURDAY, PieceFailed("c/arch/1"))))
    assert "c/canvas" in calendar_path(failed).blocked
    said = [(FIRST_SATURDAY, PieceFailed("c/arch/1"))]
    said.append((FIRST_SATURDAY, TookPlace("c/arch/4", "c/arch/1")))  # type: ignore[arg-type]
    replaced = board(of, log=logbook(*said))
    assert "c/canvas" not in calendar_path(replaced).blocked


def test_the_second_bend_waits_until_the_form_is_free() -> None:
    of = of_arches(bend(uses=("form",), hold=SET), jigs=FORM, count=2)
    without = of_arches(bend(hold=SET), count=2)
    # Bent on 2 May and set on the 22nd; the form is free on 6 June.
    assert finish_of(sure(without)) == datetime(2026, 5, 22, 11)
    assert finish_of(sure(of)) == datetime(2026, 6, 26, 10)
    two = of._replace(vehicle=of.vehicle._replace(jigs={"form": Jig("form", "Form", 2)}))
    assert finish_of(sure(two)) == datetime(2026, 5, 22, 11)


def test_a_form_that_is_taken_now_is_free_when_its_hold_is_over() -> None:
    of = of_arches(bend(uses=("form",), hold=SET), jigs=FORM, count=2)
    begun = (FIRST_SATURDAY, Begun("c/bend/arch/1", ("p0",)))
    at = FIRST_SATURDAY + timedelta(hours=1)
    finished = board(of, at, logbook(begun, (at, Finished("c/bend/arch/1"))))
    assert finish_of(sure(finished)) == datetime(2026, 6, 26, 10)
    under_way = board(of, at, logbook(begun))
    assert finish_of(sure(under_way)) == datetime(2026, 6, 26, 10)


def test_a_form_on_which_a_piece_failed_is_free() -> None:
    of = of_arches(bend(uses=("form",), hold=SET), jigs=FORM, count=2)
    at = FIRST_SATURDAY + timedelta(hours=1)
    begun = (FIRST_SATURDAY, Begun("c/bend/arch/1", ("p0",)))
    on = board(of, at, logbook(begun, (at, PieceFailed("c/arch/1"))))
    assert on["c/bend/arch/2"].state == "ready"
    assert finish_of(sure(on)) == datetime(2026, 5, 22, 11)


def test_a_place_has_room_for_as_many_jobs_as_the_plan_says() -> None:
    jobs = [task(f"c/t{n}", 7, place="tent", most_people=1) for n in range(3)]
    assert finish_of(sure(of_arches(*jobs), people=3)) == datetime(2026, 6, 6, 16)
    two = of_arches(*jobs, room={"tent": 2})
    assert finish_of(sure(two, people=3)) == datetime(2026, 5, 16, 16)


def test_work_in_one_go_is_begun_only_where_all_of_it_fits_the_day() -> None:
    small, whole = task("c/a", 3, most_people=1), task("c/b", 5, most_people=1, after=("c/a",))
    assert finish_of(sure(plan([small, whole]))) == datetime(2026, 5, 16, 10)
    in_one_go = plan([small, whole._replace(in_one_go=True)])
    assert finish_of(sure(in_one_go)) == datetime(2026, 5, 16, 14)


def test_more_hands_are_taken_where_work_in_one_go_needs_them_to_fit() -> None:
    jobs = [task("c/a", 12, most_people=2, in_one_go=True), task("c/b", 7, most_people=1)]
    assert finish_of(sure(plan(jobs), people=2)) <= datetime(2026, 5, 16, 16)


def test_work_in_one_go_that_fits_no_day_is_begun_all_the_same() -> None:
    assert finish_of(sure(plan([task("c/a", 10, most_people=1, in_one_go=True)]))) == datetime(
        2026, 5, 16, 12
    )


def test_what_must_follow_soon_is_taken_up_before_all_else() -> None:
    """The other work begins a long wait, and else goes first; but what was blasted is primed."""
    cure = hold("cure", "2 months")
    blast = task("c/blast", 2, most_people=1, due=date(2026, 5, 2))
    prime = task("c/prime", 5, after=("c/blast",), most_people=1)
    other = task("d/pour", 5, after=("c/blast",), hold=cure, most_people=1)
    soon = prime._replace(within={"c/blast": parse_duration("4 hours")})
    orders = []
    for jobs in ([blast, prime, other], [blast, soon, other]):
        model = sure(plan(jobs))
        orders.append(finish_of(model))
    assert orders[0] < orders[1]


@settings(max_examples=60, deadline=None)
@given(st.data(), st.integers(0, 1000))
def test_no_course_undercuts_the_soonest_of_all(data: st.DataObject, chance: int) -> None:
    of = data.draw(plans_with_enough())
    tasks = {
        name: one._replace(
            uses=("form",) if data.draw(st.booleans()) else (),
            place=data.draw(st.sampled_from(("", "tent"))),
            in_one_go=data.draw(st.booleans()),
        )
        for name, one in of.tasks.items()
    }
    vehicle = of.vehicle._replace(jigs=FORM)
    crew = sure_crew()
    on = board(of._replace(tasks=tasks, vehicle=vehicle, crew=crew))
    run = forecast(on, runs=10, seed=chance)
    assert all(run.soonest <= day for day in run.courses if day is not None)


def sure_crew() -> dict[str, Any]:
    from crewboard.plan.volunteer import Volunteer

    return {name: Volunteer(name, name, adult=True) for name in ("ada", "tom")}
