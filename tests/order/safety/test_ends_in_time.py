"""Work whose clock keeps the shop open ends early enough for it: by its hours, before closing."""

from __future__ import annotations

from datetime import time, timedelta

import pytest

from crewboard.logbook.acts import OpenUntil
from crewboard.order.admit.rules import refusals
from crewboard.order.ahead.first import what_goes_first
from crewboard.order.day_plan.plan_day import plan_day
from crewboard.order.day_plan.proposal import Fixed, Wish
from crewboard.order.said import how_many
from crewboard.plan.hazard import Hazard
from crewboard.plan.task import Estimate, Task
from tests.order.safety.workshop import TODAY, Book, at, begin_refusals, sheets, shop_plan

CLOSING = {
    h.id: h for h in sheets().values() if any(clock.guards == "closing" for clock in h.clocks)
}
each_closing = pytest.mark.parametrize("hazard", CLOSING.values(), ids=CLOSING)


def book(hazard: Hazard, hours: float) -> Book:
    task = Task("shop/long", "long", "shop", hazards=(hazard.id,), estimate=Estimate(*[hours] * 3))
    return Book(shop_plan(tasks=[task])).sign_in("ada", "ben")


def codes(told: Book, people: tuple[str, ...] = ("ada", "ben"), hour: int = 11) -> set[str]:
    found = begin_refusals(told.board(at(hour)), "shop/long", people)
    return {r.code for r in found} - {"unsigned", "unopened", "few"}


@each_closing
def test_its_hours_and_its_clock_fit_before_closing_or_a_lead_says_how(hazard: Hazard) -> None:
    """Twelve hours of two people from eleven o'clock are done at five; the shop closes at four."""
    workers = 1 if hazard.watch else 2  # who watches does no work
    long = book(hazard, 6 * workers)
    assert codes(long) == {"ends-late"}
    (late,) = [
        r
        for r in begin_refusals(long.board(at(11)), "shop/long", ("ada", "ben"))
        if r.code == "ends-late"
    ]
    assert late.lead
    told = how_many(workers, "person")
    assert f"({6 * workers} h, {told}) it ends at 17:00" in late.says
    assert codes(book(hazard, 3 * workers)) == set()  # done at two
    assert codes(book(hazard, 6), ("ada",)) >= {"ends-late"}  # done at five


@each_closing
def test_what_cannot_end_in_time_is_not_planned(hazard: Hazard) -> None:
    def placed(hours: float) -> bool:
        wish = Wish(fixed=(Fixed("shop/long"),))
        day = plan_day(book(hazard, hours).board(at(9)), wish, effort=0)
        return any(slot.task == "shop/long" for slot in day.placed)

    assert not placed(40)
    assert placed(4)


@each_closing
def test_on_a_day_without_a_closing_time_it_is_asked_for_once(hazard: Hazard) -> None:
    sunday = TODAY + timedelta(days=1)
    on_sunday = book(hazard, 2).sign_in("ada", "ben", moment=at(9, 0, sunday))

    def found(hour: int) -> dict[str, str]:
        board = on_sunday.board(at(hour, 0, sunday))
        return {r.code: r.mend for r in begin_refusals(board, "shop/long", ("ada", "ben"))}

    assert "open-until" in found(10)["no-closing"]
    assert refusals(on_sunday.board(at(10, 0, sunday)), OpenUntil(time(9))) != []
    assert refusals(on_sunday.board(at(10, 0, sunday)), OpenUntil(time(15))) == []
    on_sunday.say(at(10, 0, sunday), OpenUntil(time(15)))
    assert found(10).keys() & {"no-closing", "too-late", "ends-late"} == set()
    assert "too-late" in found(15)


def test_work_without_such_a_clock_asks_for_no_closing_time() -> None:
    sunday = TODAY + timedelta(days=1)
    noise = book(sheets()["noise"], 2).sign_in("ada", moment=at(9, 0, sunday))
    found = begin_refusals(noise.board(at(10, 0, sunday)), "shop/long", ("ada",))
    assert {r.code for r in found} == {"unsigned", "unopened"}


def test_a_word_on_the_closing_time_counts_before_the_plan() -> None:
    usual = book(sheets()["hot-work"], 2)
    assert codes(usual, hour=15) == {"too-late"}
    usual.say(at(14), OpenUntil(time(18)))
    assert codes(usual, hour=15) == set()
    usual.say(at(14, 30), OpenUntil(time(16)))
    assert codes(usual, hour=15) == {"too-late"}


@each_closing
def test_what_cannot_end_any_more_today_is_for_later_in_what_goes_first(hazard: Hazard) -> None:
    def against(hours: float, hour: int) -> set[str]:
        ranked = what_goes_first(book(hazard, hours).board(at(hour)))
        (long,) = [first for first in ranked if first.task == "shop/long"]
        return {obstacle.code for obstacle in long.against}

    workers = 1 if hazard.watch else 2  # who watches does no work
    fits = 3 * workers
    assert "ends-late" not in against(fits, 9)
    assert "ends-late" in against(fits, 13)
    # What takes more than any day is done in parts: whoever begins one says where it ends.
    assert "ends-late" not in against(20 * workers, 9)
