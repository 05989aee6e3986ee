"""Fire watch, airing, cooling: clocks that protect; and what stands in the way of going home."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from crewboard.logbook.acts import (
    CheckSigned,
    ClosedDay,
    Finished,
    HoursWorked,
    SignOut,
)
from crewboard.order.admit.rules import refusals
from crewboard.order.safety.checks import coming_round, going_on
from crewboard.order.safety.clocks import must_end_by, protective_clocks, still_running
from crewboard.order.safety.closing import after_checks, close_refusals, closing_clocks
from crewboard.plan.hazard import Hazard
from crewboard.plan.task import Task
from tests.order.safety.workshop import TODAY, Book, at, begin_refusals, sheets, shop_plan

PLAN = shop_plan()
TASKS = {h.id: h for h in sheets().values() if h.concerns == "task"}
every_hazard = pytest.mark.parametrize("hazard", TASKS.values(), ids=TASKS)


def working(hazard: str, hour: int = 10) -> Book:
    return Book(PLAN).sign_in("ada", "ben").begin(f"shop/{hazard}", "ada", "ben", moment=at(hour))


def ended(hazard: str) -> CheckSigned:
    return CheckSigned(hazard, "ended", "ada", f"shop/{hazard}")


def sign_the_shop(book: Book, hour: int, minute: int = 0) -> Book:
    shop = sheets()["the-shop"]
    acts = [CheckSigned("the-shop", c.id, "ada") for c in shop.checks if c.when == "after"]
    return book.say(at(hour, minute), *acts)


def test_hot_work_must_end_an_hour_before_the_shop_closes() -> None:
    # NFPA 51B-2019: the watch stays an hour; the longer of the quoted rules is the default.
    found = must_end_by(Book(PLAN).board(at(9)), sheets()["hot-work"])
    assert found is not None
    assert found[0] == at(15)


def test_a_day_that_closes_earlier_moves_the_end_of_hot_work() -> None:
    from crewboard.logbook.day import Day
    from crewboard.logbook.logbook import Logbook
    from crewboard.order.assess import assess

    early = Logbook({TODAY: Day(TODAY, closes=at(13).time())})
    found = must_end_by(assess(PLAN, early, at(9)), sheets()["hot-work"])
    assert found is not None
    assert found[0] == at(12)


def test_the_watch_runs_from_the_moment_somebody_signed_that_the_work_ended() -> None:
    book = working("hot-work").say(at(14, 20), ended("hot-work"))
    (watch,) = protective_clocks(book.board(at(14, 30)))
    assert (watch.since, watch.until) == (at(14, 20), at(15, 20))
    assert watch.running(at(15, 19))
    assert not watch.running(at(15, 20))


def test_a_finished_task_starts_its_watch_where_nobody_signed_the_end() -> None:
    book = working("hot-work").say(at(14), Finished("shop/hot-work"))
    (watch,) = closing_clocks(book.board(at(14, 30)))
    assert (watch.since, watch.until) == (at(14), at(15))


def test_work_that_ended_in_the_minute_in_which_it_was_begun_is_watched_too() -> None:
    book = working("hot-work").say(at(10), ended("hot-work"))
    assert [(c.since, c.until) for c in still_running(book.board(at(10, 30)))] == [(at(10), at(11))]


def test_taking_the_work_up_again_puts_the_watch_back_to_its_start() -> None:
    book = working("hot-work").say(at(11), ended("hot-work"))
    assert closing_clocks(book.board(at(12, 30))) == []
    book.begin("shop/hot-work", "ada", "ben", moment=at(13))
    (watch,) = closing_clocks(book.board(at(14)))
    assert not watch.started
    assert "nobody has said that hot work" in close_refusals(book.board(at(14)))[0].says


def test_a_long_re_entry_clock_is_still_running_on_the_next_day() -> None:
    book = working("methylene-chloride").say(at(14), ended("methylene-chloride"))
    tomorrow = date(2026, 5, 3)
    running = still_running(book.board(at(13, 59, tomorrow)))
    assert [c.clock.id for c in running] == ["re-entry"]
    assert still_running(book.board(at(14, 0, tomorrow))) == []


def test_nobody_works_where_it_was_just_sprayed_but_elsewhere_they_may() -> None:
    from tests.order.safety.workshop import begin_refusals

    tasks = [
        Task("shop/near", "fit the trim", "shop", hazards=("noise",), place="booth"),
        Task("shop/spray", "spray the doors", "shop", hazards=("spray-coating",), place="booth"),
    ]
    book = Book(shop_plan(tasks=tasks)).sign_in("ada", "ben")
    book.sign_before("shop/near", ("ada",), at(9, 30)).sign_before(
        "shop/noise", ("ada",), at(9, 30)
    )
    book.begin("shop/spray", "ada", "ben", moment=at(10))
    book.say(at(11), CheckSigned("spray-coating", "ended", "ada", "shop/spray"))
    board = book.board(at(11, 30))
    assert {r.code for r in begin_refusals(board, "shop/near", ("ada",))} == {"clock"}
    assert begin_refusals(board, "shop/noise", ("ada",)) == []
    assert begin_refusals(book.board(at(12)), "shop/near", ("ada",)) == []


@every_hazard
def test_the_day_is_not_closed_while_an_after_check_of_its_work_is_unsigned(
    hazard: Hazard,
) -> None:
    book = working(hazard.id).say(at(11), Finished(f"shop/{hazard.id}"))
    sign_the_shop(book, 12)
    found = close_refusals(book.board(at(15)))
    wanted = [c for c in hazard.checks if c.when == "after"]
    assert len([r for r in found if r.code == "unsigned"]) == len(wanted)
    assert all(r.mend for r in found)
    assert all(r.yields for r in found if r.code == "unsigned")
    book.sign_after(f"shop/{hazard.id}", at(15))
    assert close_refusals(book.board(at(15, 30))) == [] or any(
        c.running(at(15, 30)) for c in closing_clocks(book.board(at(15, 30)))
    )
    assert close_refusals(book.board(at(16, 30))) == []


@pytest.mark.parametrize(
    "hazard", [h for h in TASKS.values() if any(c.guards == "closing" for c in h.clocks)]
)
def test_the_day_is_not_closed_inside_a_protective_clock(hazard: Hazard) -> None:
    clock = next(c for c in hazard.clocks if c.guards == "closing")
    book = sign_the_shop(working(hazard.id), 10, 30)
    # Every after-check stands signed, and still the clock keeps the shop open.
    book.sign_after(f"shop/{hazard.id}", at(14))
    rule = hazard.ruling(clock)
    assert rule is not None
    assert rule.span is not None
    until = at(14) + timedelta(minutes=rule.span.minutes)
    inside = close_refusals(book.board(until - timedelta(minutes=1)))
    (refusal,) = [r for r in inside if r.code == "clock"]
    assert refusal.lead
    assert f"runs until {until:%H:%M}" in refusal.says
    assert close_refusals(book.board(until)) == []


def test_only_a_lead_who_is_here_closes_a_day_inside_a_watch_and_says_who_stays() -> None:
    book = working("hot-work").sign_in("uma", "dot").say(at(15, 30), ended("hot-work"))
    board, why = book.board(at(16)), "the heating failed"

    def codes(despite: str = why, by: str = "ada", stays: str = "ben") -> set[str]:
        found = close_refusals(board, despite=despite, by=by, stays=stays)
        return {r.code for r in found} - {"unsigned"}

    assert codes() == set()
    assert codes(stays="ada") == set()
    assert codes(despite="  ") == {"clock"}
    assert codes(by="") == {"by", "clock"}
    assert codes(by="zoe") == {"by", "clock"}
    assert codes(by="ben") == {"clock"}  # no lead
    for nobody in ("", "eve", "dot", "uma"):  # nobody, away, under 18, of no known age
        assert codes(stays=nobody) == {"stays"}
    book.say(at(15, 45), SignOut("ada"))
    board = book.board(at(16))
    assert codes() == {"lead-here"}
    asked = refusals(board, ClosedDay(why, stays="ben"), "ada")
    assert [r.code for r in asked if not r.yields] == ["lead-here"]


def test_a_past_day_is_closed_inside_its_watch_by_a_lead_and_nobody_can_stay_any_more() -> None:
    book = working("hot-work").say(at(15, 30), ended("hot-work"))
    book.say(at(15, 45), SignOut("ada"), SignOut("ben"))
    found = refusals(book.board(at(16)), ClosedDay("we had gone"), "ada", at(9) + timedelta(days=7))
    assert {r.code for r in found} == {"clock", "unsigned"}
    assert all(r.yields for r in found)


def test_who_stays_is_not_signed_out_with_the_others_and_signs_the_watch() -> None:
    from crewboard.order.presence import who_stays
    from crewboard.order.safety.closing import closing_acts
    from crewboard.order.safety.signing import sign_refusals

    book = working("hot-work").say(at(15, 30), ended("hot-work"))
    closed = ClosedDay("the heating failed", stays="ben")
    acts = closing_acts(book.board(at(16)), closed)
    assert acts == [closed, SignOut("ada")]
    book.say(at(16), *acts)
    assert who_stays(book.board(at(16, 1))) == "ben"
    (early,) = refusals(book.board(at(16, 10)), SignOut("ben"))
    assert early.lead
    assert early.says == "Ben stays: the fire watch runs until 16:30"
    kept = CheckSigned("hot-work", "watch-kept", "ben", "shop/hot-work")
    assert sign_refusals(book.board(at(16, 30)), kept) == []
    assert refusals(book.board(at(16, 31)), SignOut("ben")) == []
    assert who_stays(book.say(at(16, 31), SignOut("ben")).board(at(16, 32))) == ""


def test_a_quiet_day_asks_for_the_shops_own_checks_only() -> None:
    asked = after_checks(Book(PLAN).sign_in("ada").board(at(15)))
    assert {a.hazard.id for a in asked} == {"the-shop"}
    # Fire watch, rags, tools, covers, lamps, mains off. (Common practice, no source.)
    assert {"tools", "rags", "covers", "lamps", "mains-off"} <= {a.check.id for a in asked}


def test_an_after_check_of_each_task_waits_until_the_task_is_finished() -> None:
    book = working("epoxy")
    assert "no-dust" not in {a.check.id for a in after_checks(book.board(at(15)))}
    book.say(at(15), Finished("shop/epoxy"))
    assert "no-dust" in {a.check.id for a in after_checks(book.board(at(15)))}


def test_nothing_dangerous_is_begun_once_the_day_is_closed() -> None:
    from tests.order.safety.workshop import begin_refusals

    book = Book(PLAN).sign_in("ada", "ben").sign_before("shop/noise", ("ada",), at(9))
    book.say(at(12), ClosedDay("everyone goes home"))
    found = begin_refusals(book.board(at(12, 30)), "shop/noise", ("ada",))
    assert [r.code for r in found] == ["day-closed"]
    # Nor is it said afterwards that it was begun before.
    found = begin_refusals(book.board(at(11)), "shop/noise", ("ada",))
    assert [r.code for r in found] == ["day-closed"]


def test_a_during_check_comes_round_at_its_interval() -> None:
    book = working("hot-work", 10)
    (watching,) = coming_round(book.board(at(10, 5)))
    assert watching.check.id == "watching"
    assert watching.due == at(10, 15)
    assert not watching.overdue(at(10, 14))
    assert watching.overdue(at(10, 15))
    book.say(at(10, 12), CheckSigned("hot-work", "watching", "cy", "shop/hot-work"))
    (watching,) = coming_round(book.board(at(10, 20)))
    assert watching.due == at(10, 27)
    book.say(at(11), ended("hot-work"))
    assert coming_round(book.board(at(11, 30))) == []


def test_the_check_that_is_due_first_comes_first() -> None:
    book = working("noise", 9).begin("shop/hot-work", "ada", "ben", moment=at(10))
    assert [a.check.id for a in coming_round(book.board(at(10, 1)))] == ["still-on", "watching"]
    assert [a.due for a in coming_round(book.board(at(10, 1)))] == [at(10), at(10, 15)]


def test_danger_is_going_on_until_it_ends_or_everyone_has_left() -> None:
    book = working("hot-work")

    def dangers(hour: int, day: date = TODAY) -> list[str]:
        going = [h.id for _, h in going_on(book.board(at(hour, 0, day)))]
        return [danger for danger in going if danger != "working-alone"]

    assert dangers(11) == ["hot-work"]
    assert dangers(11, date(2026, 5, 9)) == []  # under way still, but nobody is at it
    book.say(at(12), SignOut("ada"))
    assert dangers(13) == ["hot-work"]
    book.say(at(14), SignOut("ben"))
    assert dangers(15) == []


def test_work_of_an_earlier_day_taken_up_again_is_going_on_and_asks_for_its_after_checks() -> None:
    book = working("hot-work")
    later = date(2026, 5, 9)
    book.sign_in("ada", "ben", moment=at(9, 0, later))
    book.say(at(10, 0, later), CheckSigned("hot-work", "extinguisher", "ada", "shop/hot-work"))
    board = book.board(at(10, 30, later))
    assert [h.id for _, h in going_on(board)] == ["hot-work"]
    assert {"ended", "watch-kept"} <= {a.check.id for a in after_checks(board)}


def test_hours_logged_today_ask_for_the_after_checks_too() -> None:
    book = Book(PLAN).sign_in("ada").say(at(15), HoursWorked("ada", 3, "shop/oily-rags"))
    assert "rags-out" in {a.check.id for a in after_checks(book.board(at(15, 30)))}
    assert [c.clock.id for c in closing_clocks(book.board(at(15, 30)))] == ["rag-watch"]


def test_a_signature_given_for_work_that_was_finished_before_takes_nothing_up_again() -> None:
    book = working("lead-paint").say(at(15), Finished("shop/lead-paint"))
    later = date(2026, 5, 9)
    book.sign_in("ada", moment=at(9, 0, later))
    book.say(at(10, 0, later), CheckSigned("lead-paint", "tested", "ada", "shop/lead-paint"))
    assert {a.hazard.id for a in after_checks(book.board(at(11, 0, later)))} == {"the-shop"}


def test_a_reopened_task_starts_again_with_its_checks() -> None:
    from crewboard.logbook.acts import Reopened
    from crewboard.order.safety.checks import checks_of

    book = working("lead-paint").sign_before("shop/lead-paint", ("ada",), at(9, 30))
    book.say(at(11), Finished("shop/lead-paint")).sign_after("shop/lead-paint", at(11, 30))
    book.say(at(12), Reopened("shop/lead-paint", "missed a corner"))
    answers = {a.check.id: a.answer for a in checks_of(book.board(at(13)), "shop/lead-paint")}
    assert answers["tested"] == "unsigned"  # for each task, and the task begins anew
    assert answers["area"] == "signed"  # for the task on this day


def places(first: tuple[str, str], second: tuple[str, str]) -> set[str]:
    """What is said of beginning the second (hazard, place) while the first is going on."""
    from tests.order.safety.workshop import begin_refusals

    tasks = [
        Task(f"shop/{number}", f"task {number}", "shop", hazards=(hazard,), place=place)
        for number, (hazard, place) in enumerate((first, second))
    ]
    book = Book(shop_plan(tasks=tasks)).sign_in("ada", "ben")
    book.begin("shop/0", "ada", "ben", moment=at(10))
    return {r.code for r in begin_refusals(book.board(at(10, 30)), "shop/1", ("ada", "ben"))}


def test_sparks_and_vapour_are_near_in_the_whole_shop() -> None:
    assert "near" in places(("solvent-strippers", "yard"), ("hot-work", "bench"))
    assert "near" in places(("hot-work", "yard"), ("solvent-strippers", "bench"))


def test_what_must_not_share_a_place_is_near_in_the_same_place_or_where_none_is_named() -> None:
    # Both sheets say "the same place": steam and live wires.
    assert "near" in places(("steam-box", "bench"), ("live-voltage", "bench"))
    assert "near" not in places(("steam-box", "yard"), ("live-voltage", "bench"))
    for named in (("", "bench"), ("yard", ""), ("", "")):
        assert "near" in places(("steam-box", named[0]), ("live-voltage", named[1]))


def test_only_the_check_that_says_so_ends_work_with_a_clock() -> None:
    book = working("hot-work")
    # Written by hand, before the work had ended: the watch cannot have been kept yet.
    book.say(at(11), CheckSigned("hot-work", "watch-kept", "ada", "shop/hot-work"))
    assert [h.id for _, h in going_on(book.board(at(12)))] == ["hot-work"]
    assert [c.started for c in closing_clocks(book.board(at(12)))] == [False]


def test_a_check_of_the_day_waits_for_the_clock_of_every_task() -> None:
    from crewboard.order.safety.signing import sign_refusals

    book = working("oily-rags").say(at(14), ended("oily-rags"))
    for task in ("", "shop/oily-rags"):
        rags_out = CheckSigned("oily-rags", "rags-out", "ada", task)
        (refusal,) = sign_refusals(book.board(at(14, 30)), rags_out)
        assert refusal.says == "the rag watch runs until 15:00"
        assert sign_refusals(book.board(at(15)), rags_out) == []


def test_a_during_check_that_does_not_apply_comes_round_no_more() -> None:
    book = working("power-saws")
    waived = CheckSigned(
        "power-saws", "floor", "lee", "shop/power-saws", applies=False, why="nothing lies about"
    )
    book.say(at(10, 5), waived)
    assert coming_round(book.board(at(11))) == []


@pytest.mark.parametrize("longest", [None, 60, 1440])
def test_a_fire_watch_goes_on_over_midnight(longest: int | None) -> None:
    # Known from the folder or not, how long a clock lasts at most changes nothing.
    night, morning = at(23, 40), TODAY + timedelta(days=1)
    book = Book(shop_plan(longest_clock=longest)).sign_in("ada", "ben")
    book.begin("shop/hot-work", "ada", "ben", moment=at(23))
    book.say(night, CheckSigned("hot-work", "ended", "ben", "shop/hot-work"))
    board = book.board(at(0, 10, morning))
    assert [(c.clock.kind, c.until) for c in still_running(board)] == [
        ("fire watch", at(0, 40, morning))
    ]
    assert [r.says for r in close_refusals(board) if r.code == "clock"] == [
        'the fire watch after "hot work" runs until 00:40'
    ]
    assert still_running(book.board(at(0, 40, morning))) == []


def test_what_must_wait_out_an_airing_waits_over_midnight_too() -> None:
    morning = TODAY + timedelta(days=1)
    book = Book().sign_in("ada", "ben")
    book.begin("shop/solvent-strippers", "ada", "ben", moment=at(23))
    book.say(at(23, 40), CheckSigned("solvent-strippers", "ended", "ben", "shop/solvent-strippers"))
    (refusal,) = [
        r
        for r in begin_refusals(book.board(at(0, 10, morning)), "shop/hot-work", ("ada", "ben"))
        if r.code == "clock"
    ]
    assert refusal.mend == "wait until 00:40"
    later = begin_refusals(book.board(at(0, 40, morning)), "shop/hot-work", ("ada", "ben"))
    assert "clock" not in {r.code for r in later}
