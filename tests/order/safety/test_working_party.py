"""Every hazard against the working party: nobody counted twice, words where too few are left."""

from __future__ import annotations

import pytest

from crewboard.logbook.acts import Begun, SignOut
from crewboard.order.may.ask import against_doing
from crewboard.order.may.left_short_words import left_short_in_words
from crewboard.plan.hazard import Hazard
from tests.order.safety.workshop import Book, at, sheets, shop_plan

PLAN = shop_plan()
SHEETS = {h.id: h for h in sheets().values() if h.concerns == "task"}
every_hazard = pytest.mark.parametrize("hazard", SHEETS.values(), ids=SHEETS)
CROWD = ("ada", "ben", "cy", "fay", "lee")


def under_way(hazard: Hazard, *people: str) -> Book:
    """The danger goes on with these people on it; the others are about."""
    return Book(PLAN).sign_in(*CROWD).begin(f"shop/{hazard.id}", *people)


def taken(book: Book, act: Begun) -> list[bool]:
    """Whether each that somebody is needed elsewhere refuses for good."""
    board = book.board(at(11))
    against = against_doing(board, act.task, act.crew, act.watch, act.adult)
    return [obstacle.strict for obstacle in against if obstacle.code == "busy"]


@every_hazard
def test_nobody_is_taken_from_a_danger_that_would_be_left_with_too_few(hazard: Hazard) -> None:
    book = under_way(hazard, "ada", "ben")
    for who in ("ada", "ben"):
        wanted = [True] if hazard.people > 1 else []
        assert taken(book, Begun("shop/plain", (who,))) == wanted
        assert taken(book, Begun("shop/plain", ("cy",), watch=(who,))) == wanted


@every_hazard
def test_one_too_many_may_go_on_to_something_else_but_not_who_watches(hazard: Hazard) -> None:
    more = ("fay",) if hazard.people > 2 else ()
    book = under_way(hazard, "ada", *more, "cy", "ben")  # Ben watches where that is asked
    assert taken(book, Begun("shop/plain", ("cy",))) == []
    assert taken(book, Begun("shop/plain", ("ben",))) == ([True] if hazard.watch else [])


@every_hazard
def test_a_watcher_is_free_once_another_has_taken_over(hazard: Hazard) -> None:
    book = under_way(hazard, "ada", "cy", "ben")
    book.say(at(10, 30), Begun(f"shop/{hazard.id}", watch=("fay",) if hazard.watch else ()))
    assert taken(book, Begun("shop/plain", ("ben",))) == []


@every_hazard
def test_a_danger_that_has_ended_keeps_nobody(hazard: Hazard) -> None:
    book = under_way(hazard, "ada", "ben").sign_after(f"shop/{hazard.id}", at(10, 30))
    # Only the fire watch goes on: a lead says who keeps it instead.
    watching = any(clock.guards == "closing" for clock in hazard.clocks) and hazard.watch
    strict = taken(book, Begun("shop/plain", ("ben",)))
    assert strict == ([False] if watching else [])
    assert taken(book, Begun("shop/plain", ("ada",))) == []


@every_hazard
def test_who_goes_home_and_leaves_too_few_is_told_of_at_once(hazard: Hazard) -> None:
    more = ("fay",) if hazard.people > 2 else ()
    book = under_way(hazard, "ada", *more, "ben")
    assert left_short_in_words(book.board(at(11))) == []
    book.say(at(11), SignOut("ben"))
    said = " ".join(left_short_in_words(book.board(at(11))))
    short = f"{hazard.short} needs {hazard.people} people, only {1 + len(more)} left"
    assert (short in said) == (hazard.people > 1)
    assert (f"no {hazard.watch} is there" in said) == bool(hazard.watch)


def test_an_under_18_whose_adult_has_left_is_told_of_at_once() -> None:
    book = Book(PLAN).sign_in(*CROWD, "dot")
    book.say(at(10), Begun("shop/plain", ("ada", "dot"), adult="ada"))
    assert left_short_in_words(book.board(at(11))) == []
    assert taken(book, Begun("shop/noise", ("ada", "ben"))) == [False]  # or a lead says who is
    book.say(at(11), SignOut("ada"))
    said = " ".join(left_short_in_words(book.board(at(11))))
    assert "Dot is without the adult who was to stay beside" in said


def test_finishing_and_going_home_are_possible_whoever_is_left() -> None:
    book = under_way(SHEETS["hot-work"], "ada", "ben").say(at(11), SignOut("ben"))
    assert left_short_in_words(book.board(at(11)))
    book.sign_after("shop/hot-work", at(11, 10))
    assert not any("needs 2 people" in said for said in left_short_in_words(book.board(at(11, 10))))
