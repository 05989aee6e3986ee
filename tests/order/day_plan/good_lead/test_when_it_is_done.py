"""When a good lead has it done. Common practice of those who lead a work day, no source."""

from __future__ import annotations

from datetime import time

from crewboard.order.day_plan.plan_day import plan_day
from crewboard.order.day_plan.proposal import Placed
from crewboard.plan.vehicle import Break
from tests.order.day_plan.feasible import violations
from tests.order.day_plan.good_lead.small_day import (
    SmallDay,
    at,
    begun,
    comes,
    done,
    somebody,
    written,
)
from tests.order.day_plan.good_lead.test_who_does_what import by_both
from tests.order.day_plan.random_days import full_day
from tests.order.small_plans import hold, task

ADA, TOM, KIM = (somebody(name) for name in ("ada", "tom", "kim"))
LUNCH = Break(time(12, 30), time(13), "lunch")
TEA = Break(time(10, 15), time(10, 30), "tea")


@by_both
def test_what_is_done_in_one_go_is_not_begun_where_it_cannot_be_ended(effort: float) -> None:
    # Nine hours of pouring for one: the day has seven. The other work is done instead.
    day = SmallDay(
        [task("c/pour", 9, most_people=1, in_one_go=True), task("c/sand", 7, most_people=1)],
        [ADA],
    )
    found = day.planned(effort)
    assert written(found) == ["09:00-16:00 sand: ada"]
    assert [each.task for each in found.not_placed] == ["c/pour"]


@by_both
def test_nobody_works_through_lunch_and_work_goes_on_after_it(effort: float) -> None:
    # Seven hours by the clock are six and a half of work.
    day = SmallDay([task("c/sand", 6.5, most_people=1)], [ADA], breaks=[LUNCH])
    found = day.planned(effort)
    assert written(found) == ["09:00-16:00 sand: ada"]
    assert found.placed[0].finishes
    assert [pause.name for pause in found.pauses] == ["lunch"]


@by_both
def test_what_is_done_in_one_go_lies_between_two_breaks(effort: float) -> None:
    # Three hours in one go: from nine they would be disturbed by tea, from 10:30 by lunch. So the
    # sanding comes first, and the pouring after lunch.
    day = SmallDay(
        [task("c/pour", 3, most_people=1, in_one_go=True), task("c/sand", 3, most_people=1)],
        [ADA],
        breaks=[TEA, LUNCH],
    )
    assert written(day.planned(effort)) == ["09:00-12:30 sand: ada", "13:00-16:00 pour: ada"]


@by_both
def test_each_is_planned_for_the_hours_in_which_they_are_here(effort: float) -> None:
    # Tom comes at half past ten, Ada leaves at two.
    day = SmallDay(
        [task("c/plane", 20, most_people=1), task("c/sand", 20, most_people=1)],
        [ADA, TOM],
        said=[comes("ada", leaves=time(14)), comes("tom", arrives=time(10, 30))],
    )
    found = day.planned(effort)
    assert written(found) == ["09:00-14:00 plane: ada", "10:30-16:00 sand: tom"]
    assert found.hours["tom"][0] == at(10, 30)


@by_both
def test_several_jobs_go_on_in_a_place_that_has_room(effort: float) -> None:
    jobs = [task(f"c/{name}", 7, most_people=1, place="yard") for name in ("a", "b", "c")]
    people = [ADA, TOM, KIM]
    one = SmallDay(jobs, people).planned(effort)
    two = SmallDay(jobs, people, room={"yard": 2}).planned(effort)
    assert [len(found.placed) for found in (one, two)] == [1, 2]
    assert all(line.startswith("09:00-16:00") for line in written(two))


@by_both
def test_work_goes_on_after_the_look_at_a_hold_that_falls_due(effort: float) -> None:
    # The glue can be looked at from ten: then the deck goes on.
    day = SmallDay(
        [
            task("c/glue", 1, hold=hold("glue", "14 hours", "look")),
            task("c/deck", 12, most_people=2, after=("c/glue",)),
            task("c/sand", 1, most_people=1),
        ],
        [ADA, TOM],
        said=done("c/glue", hours_ago=13),
    )
    found = day.planned(effort)
    deck = next(p for p in found.placed if p.task == "c/deck")
    assert (deck.start, deck.end, set(deck.people)) == (at(10), at(16), {"ada", "tom"})
    assert len(deck.looks) == 1
    assert found.placed[0].task == "c/sand"


@by_both
def test_it_does_not_go_on_where_nobody_knows_when_the_hold_is_over(effort: float) -> None:
    day = SmallDay(
        [task("c/glue", 1, hold=hold("glue", "2 days", "look")), task("c/deck", after=("c/glue",))],
        [ADA],
        said=done("c/glue", hours_ago=13),
    )
    assert day.planned(effort).placed == ()


@by_both
def test_asked_again_five_minutes_later_it_is_the_same_plan(effort: float) -> None:
    tasks = [task(f"c/t{number}", 1 + number / 2) for number in range(6)]
    at_nine = SmallDay(tasks, [ADA, TOM, KIM], breaks=[LUNCH])
    later = at_nine._replace(at=at(9, 5))
    assert later.planned(effort) == at_nine.planned(effort)


@by_both
def test_so_it_is_where_a_hold_has_to_be_looked_at_first(effort: float) -> None:
    at_nine = SmallDay(
        [
            task("c/glue", 1, hold=hold("glue", "10 hours", "look")),
            task("c/deck", after=("c/glue",)),
        ],
        [ADA],
        said=done("c/glue", hours_ago=13),
    )
    (deck,) = at_nine.planned(effort).placed
    assert deck.start == at(9)
    assert at_nine._replace(at=at(9, 5)).planned(effort).placed == (deck,)


@by_both
def test_whoever_walks_in_joins_and_the_others_stay(effort: float) -> None:
    # Ada and Tom are on the deck; at eleven Kim walks in: one more on the deck, nothing else moves.
    deck = task("c/deck", 28, most_people=3)
    morning = SmallDay([deck], [ADA, TOM]).planned(effort)
    day = SmallDay([deck], [ADA, TOM, KIM], said=begun("c/deck", "ada", "tom"), at=at(11))
    found = day.planned(effort, morning.placed)
    (change,) = found.changes
    assert (change.task, change.since, change.joined, change.left) == (
        "c/deck",
        at(11),
        ("kim",),
        (),
    )
    assert set(found.placed[0].people) == {"ada", "tom", "kim"}
    assert found.placed[0].start == at(9)


@by_both
def test_when_nothing_happens_nothing_changes(effort: float) -> None:
    tasks = [task("c/deck", 12, most_people=2), task("c/wax", 4), task("c/oil", 5, most_people=1)]
    morning = SmallDay(tasks, [ADA, TOM]).planned(effort)
    on_it = morning.placed[0]
    said = [
        *begun(on_it.task, *on_it.people),
    ]
    found = SmallDay(tasks, [ADA, TOM], said=said, at=at(11)).planned(effort, morning.placed)
    assert found.changes == ()
    assert [p for p in morning.placed if p.end > at(11)] == list(found.placed)


@by_both
def test_who_walks_in_to_small_jobs_is_named_and_who_has_one_keeps_it(effort: float) -> None:
    # One can plane. Tom sorts screws and sweeps in turn, and goes on with it when Kim comes at ten.
    plane, small = task("c/plane", 20, most_people=1), ("sort screws", "sweep")
    morning = SmallDay([plane], [ADA, TOM], small_jobs=small).planned(effort)
    both = [ADA, TOM, KIM]
    day = SmallDay([plane], both, small_jobs=small, said=begun("c/plane", "ada"), at=at(10))
    found = day.planned(effort, morning.placed, morning.small)
    toms = [(s.what, s.end) for s in morning.small if s.people == ("tom",) and s.end > at(10)]
    assert [(s.what, s.end) for s in found.small if s.people == ("tom",)] == toms
    assert {(change.task, change.joined, change.left) for change in found.changes} == {
        ("", ("kim",), ())
    }
    assert {change.what for change in found.changes} <= set(small)
    again = day._replace(people=[ADA, TOM], said=begun("c/plane", "ada"))
    gone = again.planned(effort, found.placed, found.small).changes
    assert {(change.joined, change.left) for change in gone} == {((), ("kim",))}


@by_both
def test_who_walks_in_to_learn_is_named_as_learning(effort: float) -> None:
    ada, tom = somebody("ada", "joinery"), somebody("tom", learning=("joinery",))
    joint = task("c/joint", 12, skills=("joinery",), most_people=2)
    morning = SmallDay([joint], [ada]).planned(effort)
    day = SmallDay([joint], [ada, tom], said=begun("c/joint", "ada"), at=at(11))
    (change,) = day.planned(effort, morning.placed).changes
    assert (change.joined, change.now and change.now.people) == (("tom",), ("ada", "tom"))
    assert isinstance(change.now, Placed)
    assert change.now.learning == ("tom",)


@by_both
def test_nothing_with_a_place_is_told_to_have_none(effort: float) -> None:
    for seed in range(100, 108):
        on, wish = full_day(seed)
        found = plan_day(on, wish, effort)
        assert violations(on, wish, found) == [], seed
        assert [each for each in found.not_placed if each.code == "room"] == [], seed
