"""What a good lead says when the day does not go as it was planned. Each day is planned by hand as
it is written beside it; common practice of those who lead a work day, no source."""

from __future__ import annotations

from datetime import datetime

import pytest

from crewboard.logbook.acts import Act, Begun, Finished, SignIn
from crewboard.plan.hazard import Check, Hazard
from tests.order.day_plan.good_lead.small_day import SmallDay, at, begun, somebody, written
from tests.order.day_plan.good_lead.test_who_does_what import by_both
from tests.order.day_plan.random_days import count_of
from tests.order.small_plans import FIRST_SATURDAY, task

ADA, KIM = somebody("ada", "joinery"), somebody("kim", "metal")
JOINERS = {"skills": ("joinery",), "most_people": 1}
# Of Ada's work the first holds up the last, so it is done first; Kim planes all day.
TASKS = (
    task("c/a", 2, **JOINERS),
    task("c/b", 3, after=("c/a",), **JOINERS),
    task("c/wax", 2, **JOINERS),
    task("c/plane", 7, skills=("metal",), most_people=1),
)
MORNING = SmallDay(TASKS, [ADA, KIM])
CAME: list[tuple[datetime, Act]] = [
    (FIRST_SATURDAY, SignIn("ada")),
    (FIRST_SATURDAY, SignIn("kim")),
]
PLANED: list[tuple[datetime, Act]] = [*CAME, (FIRST_SATURDAY, Begun("c/plane", ("kim",)))]


@by_both
def test_whoever_takes_longer_goes_on_with_it_before_the_next(effort: float) -> None:
    # At half past eleven Ada is still on what should have been over at eleven: she finishes it,
    # which is no change, and waxes half an hour later than planned.
    morning = MORNING.planned(effort)
    assert written(morning)[0] == "09:00-11:00 a: ada"
    said: list[tuple[datetime, Act]] = [*PLANED, (FIRST_SATURDAY, Begun("c/a", ("ada",)))]
    found = MORNING._replace(at=at(11, 30), said=said).planned(effort, morning.placed)
    assert written(found)[0] == "09:00-12:00 a: ada"
    assert "12:00-13:00 wax: ada" in written(found)
    assert [(change.task, change.since) for change in found.changes] == [("c/wax", at(12))]


@by_both
def test_what_should_be_over_and_nobody_has_begun_comes_now(effort: float) -> None:
    # Ada came late: she begins with what goes first, and the rest moves behind it.
    morning = MORNING.planned(effort)
    found = MORNING._replace(at=at(11, 30), said=PLANED).planned(effort, morning.placed)
    assert "11:30-13:30 a: ada" in written(found)
    first = found.changes[0]
    assert (first.task, first.since, first.joined, first.left) == ("c/a", at(11, 30), (), ())
    assert first.before is not None
    assert first.before.start == at(9)


@by_both
def test_what_ends_early_lets_its_people_begin_the_next_earlier(effort: float) -> None:
    # The plane is done at eleven instead of four: there is nothing else that Kim can do; Ada, who
    # is on hers, is not moved.
    morning = MORNING.planned(effort)
    said: list[tuple[datetime, Act]] = [
        *PLANED,
        (FIRST_SATURDAY, Begun("c/a", ("ada",))),
        (at(10), Finished("c/a")),
        (at(10), Begun("c/wax", ("ada",))),
        (at(11), Finished("c/plane")),
    ]
    found = MORNING._replace(at=at(11), said=said).planned(effort, morning.placed)
    assert [line for line in written(found) if "plane" in line] == []
    assert written(found)[0].endswith("wax: ada")
    assert found.idle == ("kim",)
    assert {change.task for change in found.changes} <= {"c/plane", "c/b"}


@by_both
def test_what_ends_before_the_next_half_hour_begins_ends_then(effort: float) -> None:
    # At a quarter to eleven Ada is on what ends at eleven, and the plan speaks of what comes from
    # eleven on: asked for then, nothing is otherwise, and what comes after it still comes.
    morning = MORNING.planned(effort)
    said: list[tuple[datetime, Act]] = [*PLANED, (FIRST_SATURDAY, Begun("c/a", ("ada",)))]
    found = MORNING._replace(at=at(10, 45), said=said).planned(effort, morning.placed)
    assert found.changes == ()
    assert written(found) == written(morning)


@by_both
@pytest.mark.parametrize("is_running", [True, False], ids=["a plan runs", "none does"])
def test_what_a_lift_keeps_out_comes_when_it_is_over(effort: float, is_running: bool) -> None:
    # Three are at the lift until eleven, and nobody else may be in the bay: those three stay at it,
    # and from eleven the bay is primed and swept, though at half past nine nothing may begin there.
    over = Check("over", "after", "Is she down on the cribs?")
    lift = Hazard(
        "lift",
        "Lifting: invented",
        (),
        numbers=(count_of("two", 2),),
        least_people="two",
        closes_place=True,
        checks=(over,),
    )
    ada, bo, cy, dee = (somebody(name) for name in ("ada", "bo", "cy", "dee"))
    morning = SmallDay(
        [
            task("c/lift", 6, most_people=3, hazards=("lift",), place="bay"),
            task("c/prime", 2, after=("c/lift",), most_people=2, place="bay"),
            task("c/sweep", 1, most_people=1, place="bay"),
        ],
        [ada, bo, cy, dee],
        hazards=(lift,),
    )
    said = [*begun("c/lift", "ada", "bo", "cy"), (FIRST_SATURDAY, SignIn("dee"))]
    running = morning.planned(effort).placed if is_running else ()
    found = morning._replace(at=at(9, 30), said=said).planned(effort, running)
    lines = written(found)
    assert [line.endswith(" lift: ada, bo, cy") for line in lines] == [True, False, False]
    assert min(placed.start for placed in found.placed[1:]) == found.placed[0].end
    assert not found.not_placed
