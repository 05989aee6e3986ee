"""Finishing is no way round the begin: it is taken, marked, and answered for by a lead."""

from __future__ import annotations

import pytest

from crewboard.logbook.acts import Begun, Finished, HoursWorked, Reopened
from crewboard.logbook.day import Day
from crewboard.logbook.logbook import Logbook
from crewboard.order.admit.rules import refusals
from crewboard.order.safety.finished_without import finished_without
from crewboard.plan.duration import Duration
from crewboard.plan.hazard import Hazard
from crewboard.plan.hold import Hold
from crewboard.plan.task import Task
from tests.order.safety.workshop import TODAY, Book, at, begin_refusals, sheets, shop_plan

SHEETS = {h.id: h for h in sheets().values() if h.concerns == "task"}
every_hazard = pytest.mark.parametrize("hazard", SHEETS.values(), ids=SHEETS)
TASKS = [
    Task("shop/coat", "coat it", "shop", place="booth", hold=Hold("dry", Duration(days=2))),
    Task("shop/after", "polish it", "shop", place="yard", after=("shop/coat",)),
    Task("body/there", "fit it", "body", place="booth"),
    Task("body/else", "draw it", "body", place="loft"),
]
PLAN = shop_plan(tasks=TASKS)
PLAN = PLAN._replace(
    components={**PLAN.components, "body": PLAN.components["shop"]._replace(id="body")}
)


def lacks(book: Book) -> list[tuple[str, ...]]:
    return [mark.lacks for mark in finished_without(PLAN, book.logbook())]


def codes(book: Book, task: str, hour: int = 13) -> dict[str, bool]:
    """What stands against beginning it, and whether only a lead overrules that."""
    return {r.code: r.lead for r in begin_refusals(book.board(at(hour)), task, ("cy",))}


def test_finishing_what_was_never_begun_asks_who_did_it_and_when() -> None:
    board = Book(PLAN).sign_in("cy").board(at(12))
    (asked,) = refusals(board, Finished("shop/coat"))
    assert asked.code == "never-begun"
    assert asked.says.endswith("say who did it and when it began")
    assert asked.yields
    assert not asked.lead
    answered = Finished("shop/coat", crew=("cy",), began=at(10))
    assert refusals(board, answered) == []
    assert [r.says for r in refusals(board, answered._replace(began=at(13)))] == [
        "it cannot have begun later than it was finished"
    ]


def test_hours_on_the_task_say_who_did_it_and_when() -> None:
    book = Book(PLAN).sign_in("cy", "fay").say(at(11), HoursWorked("cy", 2, "shop/coat"))
    assert refusals(book.board(at(12)), Finished("shop/coat")) == []
    assert lacks(book.say(at(12), Finished("shop/coat"))) == [("a begin",)]


def test_waiting_work_is_finished_too_and_the_coat_really_lies_there() -> None:
    book = Book(PLAN).sign_in("cy")
    act = Finished("shop/after", crew=("cy",), began=at(10))
    assert refusals(book.board(at(12)), act) == []
    wet = Finished("shop/coat", crew=("cy",), began=at(10))
    book.say(at(12), wet)
    board = book.board(at(13))
    assert board["shop/coat"].state == "on hold"
    assert [hold.since for hold in board.stopping()] == [at(12)]
    assert refusals(board, act) == []


@every_hazard
def test_the_mark_names_every_check_certificate_person_and_number_left_out(hazard: Hazard) -> None:
    task = f"shop/{hazard.id}"
    book = Book(PLAN).sign_in("fay", "dot")
    board = book.board(at(12))
    assert refusals(board, Finished(task, crew=("fay",), began=at(10))) == []
    book.say(at(12), Finished(task, crew=("fay",), began=at(10)))
    (mark,) = finished_without(PLAN, book.logbook())
    assert mark.says.startswith("finished without: a begin; the check")
    for check in hazard.checks:
        if check.when == "before":
            assert f'"{check.title}"' in mark.says
    for need in hazard.certificates:
        assert f'certificate "{need.kind}"' in mark.says
    few = f"{hazard.people} people for {hazard.short} (1 of those named were here)"
    assert (few in mark.says) == (hazard.people > 1)
    young = Book(PLAN).sign_in("dot").say(at(12), Finished(task, crew=("dot",), began=at(10)))
    (mark,) = finished_without(PLAN, young.logbook())
    assert (f"keeping Dot, under 18, from {hazard.short}" in mark.says) == (not hazard.under_18)


@every_hazard
def test_what_was_signed_before_it_began_is_not_left_out(hazard: Hazard) -> None:
    task = f"shop/{hazard.id}"
    party = ("ada", "ben", "fay")[: max(2, hazard.people)]
    book = Book(PLAN).sign_in(*party).sign_before(task, party, at(9, 30))
    book.say(at(12), Finished(task, crew=party, began=at(10)))
    assert lacks(book) == [("a begin",)]
    late = Book(PLAN).sign_in(*party).sign_before(task, party, at(11))
    late.say(at(12), Finished(task, crew=party, began=at(10)))
    assert lacks(late) != [("a begin",)]


@every_hazard
def test_its_protective_clocks_run_from_then(hazard: Hazard) -> None:
    from crewboard.order.safety.clocks import still_running

    book = Book(PLAN).sign_in("ada", "ben")
    book.say(at(12), Finished(f"shop/{hazard.id}", crew=("ada", "ben"), began=at(10)))
    running = [(c.clock.id, c.since) for c in still_running(book.board(at(12, 1)))]
    assert sorted(running) == sorted((clock.id, at(12)) for clock in hazard.clocks)


def test_the_next_begin_there_waits_for_a_lead_once() -> None:
    book = Book(PLAN).sign_in("ada", "cy")
    book.say(at(12), Finished("shop/coat", crew=("cy",), began=at(10)))
    for task in ("shop/plain", "body/there"):  # of that component, in that place
        assert codes(book, task) == {"finished-without": True}
    assert codes(book, "body/else") == {}
    book.say(at(13), Begun("body/there", ("cy",), despite="looked"), by="cy")
    assert codes(book, "shop/plain", 14) == {"finished-without": True}  # Cy is no lead
    book.say(at(14), Begun("body/there", ("cy",), despite="looked at the coat"), by="ada")
    assert codes(book, "shop/plain", 15) == {}


def test_work_that_was_begun_leaves_nothing_to_answer() -> None:
    book = (
        Book(PLAN).sign_in("cy", "fay").begin("shop/coat", "cy").say(at(12), Finished("shop/coat"))
    )
    assert lacks(book) == []
    assert codes(book, "shop/plain") == {}
    book.say(at(13), Reopened("shop/coat", "it ran"))
    book.say(at(14), Finished("shop/coat", crew=("cy",), began=at(13)))
    assert lacks(book) == [("a begin",)]


def test_taking_the_line_back_or_its_correction_into_a_begun_one_ends_it() -> None:
    book = Book(PLAN).sign_in("cy").say(at(12), Finished("shop/coat", crew=("cy",), began=at(10)))
    book.begin("shop/coat", "cy", moment=at(10))  # written afterwards
    assert lacks(book) == []
    logbook = Logbook({TODAY: Day(TODAY, book.entries)})
    assert finished_without(PLAN, logbook) == []
