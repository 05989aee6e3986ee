"""A clock that runs is a danger that still goes on; a closed place is closed: every sheet."""

from __future__ import annotations

from datetime import timedelta

import pytest

from crewboard.logbook.acts import Begun, CheckSigned, Finished, SignOut
from crewboard.order.may.apart import keep_apart
from crewboard.order.safety.clocks import must_end_by, still_running
from crewboard.plan.task import Task
from tests.order.safety.workshop import TODAY, Book, at, begin_refusals, sheets, shop_plan

PLAN = shop_plan()
SHEETS = {h.id: h for h in sheets().values() if h.concerns == "task"}
GROWN_UPS = ("ada", "ben")
clashes = [
    (first.id, then.id)
    for first in SHEETS.values()
    for then in SHEETS.values()
    if first is not then and first.clocks and keep_apart(first, then, beside=True)
]
closing = [sheet.id for sheet in SHEETS.values() if sheet.closes_place]
of_each_pair = pytest.mark.parametrize(
    ("first", "then"), clashes, ids=[f"{first}-then-{then}" for first, then in clashes]
)


def ended(first: str, hour: int = 10) -> Book:
    """Work begun at nine, and ended at that hour by the check that says so."""
    book = Book(PLAN).sign_in(*GROWN_UPS).begin(f"shop/{first}", *GROWN_UPS, moment=at(9))
    starts = {clock.starts for clock in SHEETS[first].clocks}
    return book.say(at(hour), *(CheckSigned(first, c, "ada", f"shop/{first}") for c in starts))


def codes(book: Book, task: str, hour: int, minute: int = 0) -> set[str]:
    board = book.board(at(hour, minute))
    return {r.code for r in begin_refusals(board, f"shop/{task}", GROWN_UPS)} - {
        "unsigned",
        "unopened",
    }


def test_no_spark_comes_into_vapour_and_no_vapour_to_a_spark_while_a_clock_runs() -> None:
    sparks = {"hot-work", "power-saws", "woodworking-machines", "abrasive-blasting", "batteries"}
    for vapour in ("solvent-strippers", "spray-coating"):
        assert {then for first, then in clashes if first == vapour} >= sparks
        assert ("hot-work", vapour) in clashes


@of_each_pair
def test_what_may_not_be_near_waits_until_the_clock_has_run_out(first: str, then: str) -> None:
    book = ended(first)
    end = max(c.until for c in still_running(book.board(at(10, 1))) if c.until is not None)
    assert "clock" in codes(book, then, 10, 1)
    for refusal in begin_refusals(book.board(at(10, 1)), f"shop/{then}", GROWN_UPS):
        assert refusal.code != "clock" or not refusal.yields
    later = book.board(end)
    assert "clock" not in {r.code for r in begin_refusals(later, f"shop/{then}", GROWN_UPS)}


@of_each_pair
def test_a_clock_that_nobody_started_keeps_them_apart_when_everyone_has_left(
    first: str, then: str
) -> None:
    book = Book(PLAN).sign_in(*GROWN_UPS).begin(f"shop/{first}", *GROWN_UPS, moment=at(9))
    book.say(at(10), *map(SignOut, GROWN_UPS))
    found = begin_refusals(book.board(at(13)), f"shop/{then}", GROWN_UPS)
    assert any(r.code == "clock" and "has not started" in r.says for r in found)


@of_each_pair
@pytest.mark.parametrize("how", ["hazard", "task", "sheet"])
def test_taking_a_danger_out_of_the_plan_ends_no_clock(first: str, then: str, how: str) -> None:
    book = ended(first)
    # What the program writes down when the work begins.
    clock = SHEETS[first].clocks[0]
    rule = SHEETS[first].ruling(clock)
    assert rule is not None
    starts = f", from {clock.starts}" if clock.starts else ""
    clocks = (f"{first}/{clock.id}: {rule.amount}, before {clock.guards}{starts}",)
    task = f"shop/{first}"
    place = next(n for n, entry in enumerate(book.entries) if isinstance(entry.act, Begun))
    act = Begun(task, GROWN_UPS, dangers=(first,), clocks=clocks, place="bench")
    book.entries[place] = book.entries[place]._replace(act=act)
    tasks = dict(PLAN.tasks)
    if how == "hazard":
        tasks[task] = tasks[task]._replace(hazards=())
    elif how == "task":
        del tasks[task]
    hazards = {**PLAN.hazards, first: PLAN.hazards[first]._replace(clocks=())}
    book.plan = PLAN._replace(tasks=tasks, hazards=hazards if how == "sheet" else PLAN.hazards)
    (running,) = [c for c in still_running(book.board(at(10, 5))) if c.clock.id == clock.id]
    assert rule.span is not None
    assert running.until == at(10) + timedelta(minutes=rule.span.minutes, days=rule.span.days)
    assert "clock" in codes(book, then, 10, 5)


@pytest.mark.parametrize("first", [h for h in SHEETS if SHEETS[h].clocks])
def test_the_checks_signed_for_the_work_tell_its_dangers_where_nothing_else_does(
    first: str,
) -> None:
    book = ended(first)
    tasks = {**PLAN.tasks, f"shop/{first}": PLAN.tasks[f"shop/{first}"]._replace(hazards=())}
    book.plan = PLAN._replace(tasks=tasks)
    assert {c.hazard.id for c in still_running(book.board(at(10, 5)))} == {first}


@pytest.mark.parametrize("first", [h for h in SHEETS if SHEETS[h].clocks])
def test_a_clock_of_work_that_nobody_said_had_ended_runs_from_the_end_of_its_day(
    first: str,
) -> None:
    tomorrow = TODAY + timedelta(days=1)
    book = Book(PLAN).sign_in(*GROWN_UPS).begin(f"shop/{first}", *GROWN_UPS, moment=at(15))
    midnight = at(0, 1, tomorrow)
    assert [c.hazard.id for c in still_running(book.board(midnight)) if c.started][:1] == [first]
    book.say(at(17), *map(SignOut, GROWN_UPS))
    longest = max(
        rule.span.about
        for clock in SHEETS[first].clocks
        if (rule := SHEETS[first].ruling(clock)) and rule.span
    )
    late = [c.until for c in still_running(book.board(at(0, 1, tomorrow)))]
    assert late == ([at(17) + longest] if at(17) + longest > midnight else [])


# --- closed places -------------------------------------------------------------------------------


def in_places(first: str, there: str, then: tuple[str, ...], here: str) -> Book:
    tasks = [
        Task("shop/first", "first", "shop", hazards=(first,), place=there),
        Task("shop/then", "then", "shop", hazards=then, place=here),
    ]
    return Book(shop_plan(tasks=tasks)).sign_in(*GROWN_UPS, "cy", "fay")


def test_the_sheets_that_close_their_place() -> None:
    assert set(closing) >= {
        *("asbestos", "solvent-strippers", "methylene-chloride", "traction-voltage"),
        *("spray-coating", "abrasive-blasting", "jacks-and-lifting"),
    }


@pytest.mark.parametrize("first", closing)
def test_no_other_work_begins_in_a_closed_place_and_elsewhere_it_may(first: str) -> None:
    book = in_places(first, "booth", (), "booth").begin("shop/first", *GROWN_UPS)
    (refusal,) = begin_refusals(book.board(at(11)), "shop/then", ("cy",))
    assert refusal.code == "place-closed"
    assert not refusal.yields
    assert refusal.says == (
        f'the booth is closed to other work: {SHEETS[first].short}, in "first", has not ended there'
    )
    apart = in_places(first, "booth", (), "yard").begin("shop/first", *GROWN_UPS)
    assert begin_refusals(apart.board(at(11)), "shop/then", ("cy",)) == []


@pytest.mark.parametrize("first", closing)
@pytest.mark.parametrize(("there", "here"), [("", "yard"), ("booth", ""), ("", "")])
def test_where_no_place_is_named_a_lead_says_why_it_is_not_there(
    first: str, there: str, here: str
) -> None:
    book = in_places(first, there, (), here).begin("shop/first", *GROWN_UPS)
    (refusal,) = begin_refusals(book.board(at(11)), "shop/then", ("cy",))
    assert (refusal.code, refusal.yields, refusal.lead) == ("place-closed", True, True)


@pytest.mark.parametrize("first", closing)
def test_a_place_stays_closed_when_everyone_has_left_and_on_the_next_day(first: str) -> None:
    tomorrow = TODAY + timedelta(days=1)
    book = in_places(first, "booth", (), "booth").begin("shop/first", *GROWN_UPS)
    book.say(at(12), *map(SignOut, GROWN_UPS))
    book.sign_in("cy", moment=at(9, 0, tomorrow))
    for moment in (at(13), at(9, 30, tomorrow)):
        found = begin_refusals(book.board(moment), "shop/then", ("cy",))
        assert "place-closed" in {r.code for r in found}


@pytest.mark.parametrize("first", closing)
def test_a_place_is_open_again_once_the_end_is_signed_and_its_clocks_have_run_out(
    first: str,
) -> None:
    book = in_places(first, "booth", (), "booth").begin("shop/first", *GROWN_UPS)
    book.say(at(10), Finished("shop/first")).sign_after("shop/first", at(10))
    running = [c.until for c in still_running(book.board(at(10, 1))) if c.until]
    found = begin_refusals(book.board(at(10, 1)), "shop/then", ("cy",))
    assert {r.code for r in found} == ({"entry"} if running else set())
    assert not any(r.yields for r in found)
    assert begin_refusals(book.board(max(running, default=at(11))), "shop/then", ("cy",)) == []


@pytest.mark.parametrize("first", [sheet for sheet in closing if not SHEETS[sheet].clocks])
def test_finished_work_whose_end_nobody_signed_keeps_its_place_closed(first: str) -> None:
    """What is on jacks stands on them still: to say that work is finished lets no load down."""
    tomorrow = TODAY + timedelta(days=1)
    book = in_places(first, "booth", (), "booth").begin("shop/first", *GROWN_UPS)
    book.say(at(10), Finished("shop/first")).sign_in("cy", moment=at(9, 0, tomorrow))
    for moment in (at(10, 1), at(9, 30, tomorrow)):
        against = {r.code: r for r in begin_refusals(book.board(moment), "shop/then", ("cy",))}
        assert against["place-closed"].lead
    book.sign_after("shop/first", at(9, 40, tomorrow))
    found = begin_refusals(book.board(at(10, 0, tomorrow)), "shop/then", ("cy",))
    assert "place-closed" not in {r.code for r in found}


@pytest.mark.parametrize("then", closing)
@pytest.mark.parametrize("hazards", [(), ("noise",)])
def test_work_that_closes_its_place_does_not_begin_while_others_work_there(
    then: str, hazards: tuple[str, ...]
) -> None:
    tasks = [
        Task("shop/first", "first", "shop", hazards=hazards, place="booth"),
        Task("shop/then", "then", "shop", hazards=(then,), place="booth"),
    ]
    book = Book(shop_plan(tasks=tasks)).sign_in(*GROWN_UPS, "cy").begin("shop/first", "cy")
    found = {r.code: r for r in begin_refusals(book.board(at(11)), "shop/then", GROWN_UPS)}
    assert found["place-taken"].lead
    assert 'and "first" is under way there' in found["place-taken"].says
    book.begin("shop/plain", "cy", moment=at(11))  # elsewhere
    board = book.board(at(11, 30))
    codes = {r.code for r in begin_refusals(board, "shop/then", GROWN_UPS)}
    assert "place-taken" in codes  # that other work has no place of its own
    book.say(at(12), SignOut("cy"))
    codes = {r.code for r in begin_refusals(book.board(at(12, 1)), "shop/then", GROWN_UPS)}
    assert "place-taken" not in codes


# --- hazards of one task -------------------------------------------------------------------------

together = sorted(
    {
        tuple(sorted((one.id, other.id)))
        for one in SHEETS.values()
        for other in SHEETS.values()
        if one is not other and keep_apart(one, other, beside=True)
    }
)


@pytest.mark.parametrize(("one", "other"), together, ids=["+".join(pair) for pair in together])
def test_dangers_that_may_not_be_near_are_refused_in_one_task(one: str, other: str) -> None:
    task = Task("shop/both", "both", "shop", hazards=(one, other), place="bench")
    book = Book(shop_plan(tasks=[task])).sign_in(*GROWN_UPS)
    found = [
        r
        for r in begin_refusals(book.board(at(10)), "shop/both", GROWN_UPS)
        if r.code == "together"
    ]
    assert len(found) == 1
    assert not found[0].yields
    assert found[0].says == (
        f'{SHEETS[one].short} must not be near {SHEETS[other].short}, and "both" has both'
    )


@pytest.mark.parametrize(
    "hazard", [h for h in SHEETS if keep_apart(SHEETS[h], sheets()["young-people"], True)]
)
def test_what_an_under_18_may_not_be_near_is_refused_where_one_is_on_the_task(hazard: str) -> None:
    book = Book(PLAN).sign_in(*GROWN_UPS, "dot")
    found = begin_refusals(book.board(at(10)), f"shop/{hazard}", (*GROWN_UPS, "dot"))
    assert f"{SHEETS[hazard].short} must not be near under-18s" in {r.says for r in found}


def test_hot_work_goes_on_in_its_own_watch() -> None:
    book = ended("hot-work")
    assert must_end_by(book.board(at(10)), SHEETS["hot-work"]) is not None
    assert codes(book, "hot-work", 10, 5) == set()
