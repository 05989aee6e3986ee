"""What is now and next by the plan that was taken over, told on the work day and on the wall."""

from __future__ import annotations

from datetime import time

from crewboard.logbook.acts import Act, Begun, Planned, SignIn
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.plan.volunteer import Volunteer
from crewboard.telling.by_plan import by_plan_lines, planned_in_words, planned_shortly
from crewboard.telling.wall import wall
from crewboard.telling.wall_ahead import walls
from crewboard.telling.work_day import sections
from tests.order.small_plans import FIRST_SATURDAY, logbook, plan, task

CREW = [Volunteer("ada", "Ada Test", adult=True), Volunteer("tom", "Tom Test", adult=True)]
OF = plan(
    [
        task("c/long", 30, title="Lay the deck"),
        task("c/sand", 2, title="Sand the rail"),
        task("c/late", 2, title="Oil the rail"),
    ],
    crew=CREW,
)
PLANNED = (
    SignIn("ada"),
    SignIn("tom"),
    Planned(("tom",), time(9), time(10), "c/sand"),
    Planned(("ada",), time(9), time(12), "c/long"),
    Planned(("tom", "ada"), time(13), time(15), "c/late"),
)


def at(hour: int, *acts: Act) -> Board:
    said = ((FIRST_SATURDAY, act) for act in (*PLANNED, *acts))
    return assess(OF, logbook(*said), FIRST_SATURDAY.replace(hour=hour))


def told(board: Board) -> list[str]:
    return [f"{line.word} {line.text}" for line in by_plan_lines(board)]


def test_the_day_says_what_should_be_begun_now_and_what_comes_next() -> None:
    assert told(at(9)) == [
        "By the plan now: Sand the rail (Tom Test); Lay the deck (Ada Test)",
        "Next: 13:00 Oil the rail (Tom Test and Ada Test)",
    ]


def test_what_is_under_way_by_those_people_is_not_said_again() -> None:
    assert told(at(9, Begun("c/sand", ("tom",))))[0] == ("By the plan now: Lay the deck (Ada Test)")
    other = told(at(9, Begun("c/sand", ("ada",))))[0]
    assert "Sand the rail (Tom Test)" in other


def test_after_its_last_job_nothing_is_said() -> None:
    assert told(at(15)) == []


def test_a_row_says_when_it_is_to_begin_and_who() -> None:
    on = at(10)
    assert planned_shortly(on, ["c/long"]) == "now"
    assert planned_shortly(on, ["c/late"]) == "13:00"
    assert planned_shortly(on, ["c/sand"]) == ""
    assert planned_in_words(on, "c/late") == "by the plan 13:00 to 15:00: Tom and Ada"
    rows = {row.id: row for row in sections(on).first}
    assert (rows["c/long"].planned, rows["c/late"].planned) == ("now", "13:00")
    assert "by the plan 09:00 to 12:00: Ada" in rows["c/long"].below


def test_the_order_of_what_goes_first_is_not_changed_by_a_plan() -> None:
    bare = assess(
        OF, logbook((FIRST_SATURDAY, SignIn("ada")), (FIRST_SATURDAY, SignIn("tom"))), at(9).at
    )
    assert [row.id for row in sections(at(9)).first] == [row.id for row in sections(bare).first]


def test_the_wall_has_the_next_job_of_the_plan_and_changes_with_it_by_itself() -> None:
    def job(board: Board) -> tuple[str, str]:
        part = wall(board).parts[-1]
        return part.lines[0].text, part.lines[0].small

    assert job(at(9)) == ("Sand the rail", "Tom")
    assert job(at(12)) == ("Oil the rail", "13:00 Tom, Ada")
    later = [(when.hour, shown.parts[-1].lines[0].text) for when, shown in walls(at(9))]
    assert later[:2] == [(9, "Sand the rail"), (10, "Lay the deck")]
    assert (12, "Oil the rail") in later
