"""Work that stops for the day: nobody is on it, and nothing that protects is any shorter for it."""

from __future__ import annotations

import pytest

from crewboard.logbook.acts import Act, Finished, Stopped
from crewboard.order.board import Board
from crewboard.order.may.on_it import on_it, people_at, under_way_now
from crewboard.order.may.party import parties
from crewboard.order.safety.checks import going_on
from crewboard.order.safety.clocks import still_running
from crewboard.order.safety.closing import close_refusals
from tests.order.safety.workshop import Book, at, begin_refusals, sheets, shop_plan

PLAN = shop_plan()
TASKS = [sheet.id for sheet in sheets().values() if sheet.concerns == "task"]
GROWN_UPS = ("ada", "ben")


def begun(sheet: str) -> Book:
    return Book(PLAN).sign_in(*GROWN_UPS, "cy").begin(f"shop/{sheet}", *GROWN_UPS, moment=at(9))


def said(sheet: str, act: Act) -> Book:
    return begun(sheet).say(at(10), act)


def against(board: Board, task: str) -> set[tuple[str, bool]]:
    """What stands against other work, and whether it yields to a reason."""
    return {(r.code, r.yields) for r in begin_refusals(board, f"shop/{task}", ("ada", "ben"))}


@pytest.mark.parametrize("sheet", TASKS)
def test_stopping_opens_nothing_that_finishing_would_not(sheet: str) -> None:
    task = f"shop/{sheet}"
    stopped, finished = (said(sheet, act(task)).board(at(10, 1)) for act in (Stopped, Finished))
    for other in TASKS:
        if other != sheet:
            kept = against(stopped, other)
            for code, yields in against(finished, other):
                assert (code, yields) in kept or (code, False) in kept
    clocks = [(c.clock.id, c.since, c.until) for c in still_running(stopped)]
    assert clocks == [(c.clock.id, c.since, c.until) for c in still_running(finished)]


def test_the_fire_watch_runs_from_the_stop_and_keeps_the_shop_open() -> None:
    book = said("hot-work", Stopped("shop/hot-work"))
    (clock,) = [c for c in still_running(book.board(at(10, 1))) if c.clock.id == "fire-watch"]
    assert clock.since == at(10)
    assert clock.until is not None
    assert any("fire watch" in r.says for r in close_refusals(book.board(at(10, 1))))


def test_nobody_is_on_it_any_more_and_whoever_was_can_begin_something_else() -> None:
    book = begun("manual-handling")
    assert under_way_now(book.board(at(9, 30))) == ("shop/manual-handling",)
    book.say(at(10), Stopped("shop/manual-handling"))
    board = book.board(at(10, 1))
    assert board["shop/manual-handling"].state == "under way"
    assert board["shop/manual-handling"].stopped == at(10)
    assert not under_way_now(board)
    assert not people_at(board, "shop/manual-handling")
    assert not parties(board)["shop/manual-handling"].crew
    assert "busy" not in {r.code for r in begin_refusals(board, "shop/noise", GROWN_UPS)}


def test_beginning_it_again_takes_it_up_with_its_danger() -> None:
    book = said("hot-work", Stopped("shop/hot-work"))
    assert not list(going_on(book.board(at(10, 1))))
    book.begin("shop/hot-work", *GROWN_UPS, moment=at(11))
    board = book.board(at(11, 1))
    assert [task for task, _ in going_on(board)] == ["shop/hot-work"]
    assert set(on_it(board, "shop/hot-work")) == set(GROWN_UPS)
    assert board["shop/hot-work"].stopped is None
    clocks = [c for c in still_running(board) if c.clock.id == "fire-watch"]
    assert [c.since for c in clocks] == [None], "its watch is to start anew"


def test_its_place_stays_closed_until_somebody_signs_that_it_has_ended() -> None:
    closing = [s for s in sheets().values() if s.closes_place and s.concerns == "task"]
    assert closing
    for sheet in closing:
        book = said(sheet.id, Stopped(f"shop/{sheet.id}"))
        codes = {code for code, _ in against(book.board(at(10, 1)), "manual-handling")}
        assert codes & {"place-closed", "clock", "entry"}, sheet.id


def test_work_begun_in_december_is_not_under_way_by_people_who_are_not_here() -> None:
    book = Book(PLAN).begin("shop/plain", "ada", moment=at(9).replace(year=2025, month=12))
    board = book.sign_in("ben").board(at(9, 30))
    assert board["shop/plain"].state == "under way"
    assert not under_way_now(board)
