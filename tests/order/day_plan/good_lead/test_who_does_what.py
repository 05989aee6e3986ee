"""Whom a good lead puts where. Each day is planned by hand as it is written beside it; common
practice of those who lead a work day, no source."""

from __future__ import annotations

from datetime import date, time

import pytest

from crewboard.plan.hazard import CertificateNeed, Hazard
from crewboard.plan.vehicle import Break
from crewboard.plan.volunteer import Certificate, Volunteer
from tests.order.day_plan.good_lead.small_day import EFFORTS, SmallDay, at, comes, somebody, written
from tests.order.day_plan.random_days import HOT, WATCHED, YOUNG, count_of
from tests.order.small_plans import hold, task

PAPER = (Certificate("hot work", date(2027, 1, 1)),)
LIFTING = Certificate("lifting", date(2027, 1, 1))
LIFT = Hazard("lift", "Lifting: invented", (), certificates=(CertificateNeed("lifting", "one"),))
PAIR = Hazard("pair", "Not alone: invented", (), numbers=(count_of("two", 2),), least_people="two")
ADA, TOM, KIM, EVA = (somebody(name) for name in ("ada", "tom", "kim", "eva"))

by_both = pytest.mark.parametrize("effort", EFFORTS, ids=["plain rule", "solver"])


@by_both
def test_number_one_begins_first(effort: float) -> None:
    # The glue holds up the deck for a month: it begins at nine, whatever else would fill the day.
    day = SmallDay(
        [
            task("c/tidy", 14, most_people=2),
            task("c/glue", 2, most_people=1, hold=hold("glue", "1 month")),
            task("c/deck", 20, after=("c/glue",)),
        ],
        [ADA, TOM],
    )
    lines = written(day.planned(effort))
    assert lines[0].startswith("09:00-11:00 glue: ")
    assert len(lines) == 2
    assert " tidy: " in lines[1]


@by_both
def test_number_one_waits_where_it_must_and_the_plan_says_for_what(effort: float) -> None:
    # Only Eva can glue, and she comes at eleven: the plan says so, and the others tidy meanwhile.
    day = SmallDay(
        [
            task("c/tidy", 14, most_people=2),
            task("c/glue", 2, most_people=1, skills=("joinery",), hold=hold("glue", "1 month")),
            task("c/deck", 20, after=("c/glue",)),
        ],
        [ADA, TOM, somebody("eva", "joinery")],
        said=[comes("eva", time(11))],
    )
    found = day.planned(effort)
    assert written(found) == ["09:00-16:00 tidy: ada, tom", "11:00-13:00 glue: eva"]
    assert 'What goes first, "c/glue", begins at 11:00: Eva comes at 11:00.' in found.remarks


@by_both
def test_the_only_holder_of_a_certificate_does_what_only_they_can(effort: float) -> None:
    # Planing is worth more by the hour and could use Ada all day; only she may weld.
    day = SmallDay(
        [
            task("c/plane", 28, most_people=2),
            task("c/fit", 5, after=("c/plane",)),
            task("c/weld", 4, most_people=2, hazards=("hot",)),
        ],
        [Volunteer("ada", "Ada", (), PAPER, adult=True), TOM, KIM],
        hazards=(HOT,),
    )
    weld = next(p for p in day.planned(effort).placed if p.task == "c/weld")
    assert "ada" in weld.people
    assert weld.finishes


@by_both
def test_nor_is_the_only_holder_of_a_skill_given_to_what_others_can_do(effort: float) -> None:
    day = SmallDay(
        [task("c/plane", 28, most_people=2), task("c/wire", 6, most_people=1, skills=("wire",))],
        [somebody("ada", "wire"), TOM, KIM],
    )
    assert written(day.planned(effort)) == [
        "09:00-15:00 wire: ada",
        "09:00-16:00 plane: kim, tom",
    ]


@by_both
def test_nobody_with_a_skill_stands_idle_beside_its_task(effort: float) -> None:
    # Ada and Tom are joiners, Kim paints; there is a morning's painting and a day's joinery.
    day = SmallDay(
        [
            task("c/joint", 14, most_people=2, skills=("joinery",)),
            task("c/paint", 7, most_people=1, skills=("painting",)),
        ],
        [somebody("ada", "joinery"), somebody("tom", "joinery"), somebody("kim", "painting")],
    )
    assert written(day.planned(effort)) == [
        "09:00-16:00 joint: ada, tom",
        "09:00-16:00 paint: kim",
    ]


@by_both
def test_small_jobs_are_for_who_is_left(effort: float) -> None:
    # One bench, one job at it: Kim sorts screws, then sweeps, then sorts again.
    day = SmallDay(
        [task("c/plane", 14, most_people=2, place="bench"), task("c/saw", 4, place="bench")],
        [ADA, TOM, KIM],
        small_jobs=("sort screws", "sweep"),
    )
    assert written(day.planned(effort)) == [
        "09:00-11:00 sort screws: kim",
        "09:00-16:00 plane: ada, tom",
        "11:00-13:00 sweep: kim",
        "13:00-15:00 sort screws: kim",
        "15:00-16:00 sweep: kim",
    ]


@by_both
def test_two_learn_beside_one_who_can(effort: float) -> None:
    # There is as much to sand: it costs nothing that Tom and Kim, who want to learn, do the joint
    # with Ada, and Eva and Ben sand.
    day = SmallDay(
        [task("c/joint", 21, skills=("joinery",)), task("c/sand", 14, most_people=2)],
        [
            somebody("ada", "joinery"),
            EVA,
            somebody("ben"),
            somebody("tom", learning=("joinery",)),
            somebody("kim", learning=("joinery",)),
        ],
    )
    found = day.planned(effort)
    assert written(found) == ["09:00-16:00 joint: ada, kim, tom", "09:00-16:00 sand: ben, eva"]
    assert set(found.placed[0].learning) == {"tom", "kim"}


@by_both
def test_a_danger_that_is_watched_keeps_its_watcher_until_the_watch_is_over(effort: float) -> None:
    # Two hours by torch: one works, one watches, and for 45 minutes afterwards does nothing else.
    day = SmallDay(
        [
            task("c/strip", 2, most_people=2, hazards=("watched",), hold=hold("glue", "1 month")),
            task("c/prime", 1, after=("c/strip",)),
            task("c/plane", 6, most_people=2),
        ],
        [ADA, TOM],
        hazards=(WATCHED,),
    )
    found = day.planned(effort)
    strip = next(p for p in found.placed if p.task == "c/strip")
    assert (strip.start.hour, strip.end.hour) == (9, 11)
    assert strip.watched_until is not None
    assert strip.watched_until.time() >= time(11, 45)
    (watcher,) = strip.watch
    assert all(p.start >= strip.watched_until for p in found.placed[1:] if watcher in p.people)


@by_both
def test_one_who_holds_two_certificates_does_both_works(effort: float) -> None:
    # Only Ada may weld and lift; there is sand enough for everybody.
    day = SmallDay(
        [
            task("c/sand", 14, most_people=2),
            task("c/weld", 3, most_people=2, hazards=("hot",)),
            task("c/lift", 2, most_people=1, hazards=("lift",)),
        ],
        [Volunteer("ada", "Ada", (), (*PAPER, LIFTING), adult=True), TOM, KIM],
        hazards=(HOT, LIFT),
    )
    done = {placed.task: placed for placed in day.planned(effort).placed if placed.finishes}
    assert {"c/weld", "c/lift"} <= done.keys()
    assert all("ada" in done[name].people for name in ("c/weld", "c/lift"))


@by_both
def test_who_leaves_at_noon_is_on_what_has_to_end_then(effort: float) -> None:
    # Two have to be at the saw, and Tom and Kim go home at twelve: so they are, and Ada, who is
    # here alone after that, sands all day.
    day = SmallDay(
        [task("c/saw", 12, most_people=2, hazards=("pair",)), task("c/sand", 7, most_people=1)],
        [ADA, TOM, KIM],
        hazards=(PAIR,),
        said=[comes("tom", leaves=time(12)), comes("kim", leaves=time(12))],
    )
    assert written(day.planned(effort)) == ["09:00-12:00 saw: kim, tom", "09:00-16:00 sand: ada"]


@by_both
def test_what_two_do_in_one_go_finds_the_only_time_that_is_long_enough(effort: float) -> None:
    # Tom comes at ten, and lunch is at half past twelve: three hours for both there are only
    # afterwards. Till then Ada sands, though more of it could be done without the press.
    day = SmallDay(
        [
            task("c/press", 6, least_people=2, most_people=2, in_one_go=True),
            task("c/sand", 6, most_people=1),
        ],
        [ADA, TOM],
        breaks=[Break(time(12, 30), time(13), "lunch")],
        said=[comes("tom", time(10))],
    )
    assert written(day.planned(effort)) == ["09:00-12:30 sand: ada", "13:00-16:00 press: ada, tom"]


@by_both
def test_whoever_is_under_18_works_from_when_somebody_signs_for_them(effort: float) -> None:
    # Kim is there at nine; Ada, the only lead, comes at eleven and signs: then they sand together.
    day = SmallDay(
        [
            task("c/oil", 7, most_people=1),
            task("c/sand", 10, most_people=2),
            task("c/wax", 7, after=("c/oil",)),
        ],
        [somebody("ada", lead=True), TOM, Volunteer("kim", "Kim", adult=False)],
        hazards=(YOUNG,),
        said=[comes("ada", time(11))],
    )
    assert written(day.planned(effort)) == ["09:00-16:00 oil: tom", "11:00-16:00 sand: ada, kim"]


@by_both
def test_nobody_signs_for_them_who_has_left(effort: float) -> None:
    day = SmallDay(
        [task("c/sand", 10, most_people=2)],
        [somebody("ada", lead=True), TOM, Volunteer("kim", "Kim", adult=False)],
        hazards=(YOUNG,),
        said=[comes("ada", leaves=time(10)), comes("kim", arrives=time(11))],
    )
    assert all("kim" not in placed.people for placed in day.planned(effort).placed)


@by_both
def test_nobody_stands_by_while_work_has_room_and_nothing_waits_for_no_reason(
    effort: float,
) -> None:
    # All three take part in what comes first, though two would be enough for the day; what comes
    # after it begins as soon as it is done.
    day = SmallDay(
        [
            task("c/a", 6, most_people=3, place="bay"),
            task("c/b", 6, most_people=2, place="bay", after=("c/a",)),
        ],
        [ADA, TOM, KIM],
    )
    first, then = day.planned(effort).placed
    assert (first.start, first.end, set(first.people)) == (at(9), at(11), {"ada", "tom", "kim"})
    assert (then.start, then.end, then.finishes) == (at(11), at(14), True)
