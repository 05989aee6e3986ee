"""Every hazard sheet against every rule: begin refused, begin allowed, hours logged and marked."""

from __future__ import annotations

from datetime import timedelta

import pytest

from crewboard.logbook.acts import Begun, CheckSigned, HoursWorked, SignOut
from crewboard.order.admit.rules import refusals
from crewboard.order.safety.checks import checks_of
from crewboard.order.safety.clocks import must_end_by
from crewboard.order.safety.unchecked import SAYS, unchecked_hours
from crewboard.plan.hazard import Hazard
from tests.order.safety.workshop import TODAY, Book, at, begin_refusals, sheets, shop_plan

PLAN = shop_plan()
TASKS = {h.id: h for h in sheets().values() if h.concerns != "day"}
GROWN_UPS = ("ada", "ben")
every_hazard = pytest.mark.parametrize("hazard", TASKS.values(), ids=TASKS)
pairs = sorted(
    {
        tuple(sorted((one.id, other)))
        for one in TASKS.values()
        for other in one.not_near
        if other in TASKS
    }
)
followers = sorted((one.id, other) for one in TASKS.values() for other in one.not_after)


def task_of(hazard: Hazard) -> str:
    return f"shop/{hazard.id}"


def team(hazard: Hazard) -> tuple[str, ...]:
    """Who does the work: the sheet for under-18s is about work that one of them takes part in."""
    if hazard.concerns == "minors":
        return (*GROWN_UPS, "dot")
    return (*GROWN_UPS, "cy")[: max(2, hazard.people)]


def codes(book: Book, hazard: Hazard, *people: str, hour: int = 10, minute: int = 0) -> set[str]:
    board = book.board(at(hour, minute))
    return {r.code for r in begin_refusals(board, task_of(hazard), people)}


def signed(hazard: Hazard, *people: str) -> Book:
    book = Book(PLAN).sign_in(*people)
    return book.sign_before(task_of(hazard), people, at(9, 30))


@every_hazard
def test_work_is_begun_when_all_is_signed_and_the_right_people_are_here(hazard: Hazard) -> None:
    book = signed(hazard, *team(hazard))
    assert begin_refusals(book.board(at(10)), task_of(hazard), team(hazard)) == []


@every_hazard
def test_each_unsigned_before_check_is_refused_by_name_and_told_who_may_sign(
    hazard: Hazard,
) -> None:
    board = Book(PLAN).sign_in(*team(hazard)).board(at(10))
    open_checks = [a for a in checks_of(board, task_of(hazard), team(hazard), "before") if a.open]
    found = [
        r for r in begin_refusals(board, task_of(hazard), team(hazard)) if r.code == "unsigned"
    ]
    assert len(found) == len(open_checks) > 0
    for asked, refusal in zip(open_checks, found, strict=True):
        assert asked.check.short in refusal.says
        assert asked.text.rstrip(".") in refusal.says
        assert "may" in refusal.mend
        assert not refusal.yields


@every_hazard
def test_every_single_missing_signature_is_enough_to_refuse(hazard: Hazard) -> None:
    for check in hazard.checks:
        if check.when == "before":
            book = signed(hazard, *team(hazard))
            book.entries = [e for e in book.entries if getattr(e.act, "check", "") != check.id]
            assert codes(book, hazard, *team(hazard)) == {"unsigned"}


@every_hazard
def test_a_check_that_does_not_apply_is_signed_with_its_reason_and_not_without(
    hazard: Hazard,
) -> None:
    before = (c for c in hazard.checks if c.when == "before" and c.signs in ("anyone", "lead"))
    check = next((c for c in before if c.waivable and not c.each_person), None)
    if check is None:
        return  # nothing of this sheet may be left undone
    book = signed(hazard, *team(hazard))
    for entry in book.entries:
        if isinstance(entry.act, CheckSigned) and entry.act.check == check.id:
            place = book.entries.index(entry)
            why = "nothing of the kind is here"
            act = entry.act._replace(who="lee", applies=False, why=why)
            book.entries[place] = entry._replace(act=act)
    board = book.board(at(10))
    assert begin_refusals(board, task_of(hazard), team(hazard)) == []
    answered = [
        a for a in checks_of(board, task_of(hazard), team(hazard)) if a.check.id == check.id
    ]
    assert {a.answer for a in answered} == {"does not apply"}
    assert {a.why for a in answered} == {"nothing of the kind is here"}
    for place, entry in enumerate(book.entries):
        if isinstance(entry.act, CheckSigned):
            book.entries[place] = entry._replace(act=entry.act._replace(applies=False, why=" "))
    assert "unsigned" in codes(book, hazard, *team(hazard))


@every_hazard
def test_a_missing_certificate_is_refused_and_told_who_holds_it(hazard: Hazard) -> None:
    people = ("cy", "fay")
    book = Book(PLAN).sign_in(*people, "ada")
    found = [
        r
        for r in begin_refusals(book.board(at(10)), task_of(hazard), people)
        if r.code == "certificate"
    ]
    expected = sum(2 if need.who == "each" else 1 for need in hazard.certificates)
    assert len(found) == expected
    for refusal in found:
        assert "Ada and Ben" in refusal.mend


@every_hazard
def test_one_person_with_the_certificate_is_enough_where_the_sheet_asks_for_one(
    hazard: Hazard,
) -> None:
    found = codes(Book(PLAN).sign_in("ada", "cy"), hazard, "ada", "cy")
    asks_each = any(need.who == "each" for need in hazard.certificates)
    assert ("certificate" in found) == asks_each


@every_hazard
def test_a_lapsed_certificate_is_no_certificate(hazard: Hazard) -> None:
    book = Book(PLAN).sign_in("eve", "cy")
    found = [
        r
        for r in begin_refusals(book.board(at(10)), task_of(hazard), ("eve", "cy"))
        if r.code == "certificate"
    ]
    assert bool(found) == bool(hazard.certificates)
    if any(need.who == "each" for need in hazard.certificates):
        assert any("lapsed on Thu 30 Apr 2026" in r.says for r in found)


@every_hazard
def test_too_few_people_here_is_refused_and_told_whom_to_sign_in(hazard: Hazard) -> None:
    *others, last = team(hazard)
    alone = signed(hazard, last)
    assert ("people" in codes(alone, hazard, last)) == (hazard.people > 1)
    found = begin_refusals(alone.board(at(10)), task_of(hazard), team(hazard))
    missing = " and ".join(each.title() for each in others)
    (away,) = [r for r in found if r.code == "away"]
    few = [r for r in found if r.code == "people"]
    assert {r.mend for r in (away, *few)} == {f"sign in {missing}"}
    assert [f"at least {hazard.people} people" in r.says for r in few] == [True] * (
        hazard.people > 1
    )
    gone = signed(hazard, *team(hazard)).say(at(9, 45), *map(SignOut, others))
    assert "away" in codes(gone, hazard, *team(hazard))
    assert ("people" in codes(gone, hazard, last)) == (hazard.people > 1)


@every_hazard
def test_under_18s_are_refused_where_the_sheet_bars_them(hazard: Hazard) -> None:
    people = ("ada", "ben", "dot")
    book = signed(hazard, *people)
    assert ("under-18" in codes(book, hazard, *people)) == (not hazard.under_18)
    if hazard.under_18:
        assert codes(book, hazard, *people) == set()


@every_hazard
def test_nobody_begins_danger_without_being_named(hazard: Hazard) -> None:
    assert codes(signed(hazard, *team(hazard)), hazard) == {"who"}


@every_hazard
def test_danger_is_begun_too_late_once_its_closing_clock_would_outlast_the_shop(
    hazard: Hazard,
) -> None:
    book = signed(hazard, *team(hazard))
    latest = must_end_by(book.board(at(10)), hazard)
    closing = [c for c in hazard.clocks if c.guards == "closing"]
    assert (latest is not None) == bool(closing)
    if latest is None:
        assert "too-late" not in codes(book, hazard, *team(hazard), hour=15, minute=59)
        return
    end, clock, rule = latest
    just_before = book.board(end - timedelta(minutes=1))
    assert begin_refusals(just_before, task_of(hazard), team(hazard)) == []
    (refusal,) = begin_refusals(book.board(end), task_of(hazard), team(hazard))
    assert refusal.code == "too-late"
    assert refusal.says == (
        f"{hazard.short} must end by {end:%H:%M}: the {clock.kind} is {rule.amount} "
        "and the shop closes at 16:00"
    )


@every_hazard
def test_hours_are_logged_whatever_was_signed_and_marked_where_nothing_was(
    hazard: Hazard,
) -> None:
    who = "dot" if hazard.concerns == "minors" else "cy"
    hours = HoursWorked(who, 2.5, task_of(hazard))
    book = Book(PLAN).sign_in(who)
    assert refusals(book.board(at(15)), hours) == []
    book.say(at(15), hours)
    logbook = book.logbook()
    (marked,) = unchecked_hours(PLAN, logbook, logbook.days[TODAY])
    assert marked.says.startswith(SAYS)
    assert hazard.short in marked.says
    assert {c.id for _, c in marked.checks} == {c.id for c in hazard.checks if c.when == "before"}


@every_hazard
def test_hours_of_work_that_was_checked_are_not_marked(hazard: Hazard) -> None:
    book = signed(hazard, *team(hazard)).begin(task_of(hazard), *team(hazard))
    book.say(at(15), *(HoursWorked(who, 2, task_of(hazard)) for who in team(hazard)))
    logbook = book.logbook()
    assert unchecked_hours(PLAN, logbook, logbook.days[TODAY]) == []


@every_hazard
def test_a_check_signed_after_the_work_began_does_not_unmark_the_hours(hazard: Hazard) -> None:
    book = Book(PLAN).sign_in(*team(hazard)).begin(task_of(hazard), *team(hazard), moment=at(10))
    book.sign_before(task_of(hazard), team(hazard), at(11))
    book.say(at(15), HoursWorked(team(hazard)[-1], 2, task_of(hazard)))
    logbook = book.logbook()
    (marked,) = unchecked_hours(PLAN, logbook, logbook.days[TODAY])
    assert {c.id for _, c in marked.checks} == {c.id for c in hazard.checks if c.when == "before"}


@every_hazard
def test_hours_of_work_begun_twice_on_a_day_are_judged_by_the_first_begin(hazard: Hazard) -> None:
    book = Book(PLAN).sign_in(*team(hazard)).begin(task_of(hazard), *team(hazard), moment=at(10))
    book.sign_before(task_of(hazard), team(hazard), at(11))
    book.begin(task_of(hazard), *team(hazard), moment=at(12))
    book.say(at(15), HoursWorked(team(hazard)[-1], 2, task_of(hazard)))
    logbook = book.logbook()
    (marked,) = unchecked_hours(PLAN, logbook, logbook.days[TODAY])
    assert {c.id for _, c in marked.checks} == {c.id for c in hazard.checks if c.when == "before"}


@pytest.mark.parametrize(("one", "other"), pairs, ids=[f"{a}-{b}" for a, b in pairs])
def test_what_may_not_be_near_is_refused_from_both_sides_while_it_is_going_on(
    one: str, other: str
) -> None:
    for first, second in ((TASKS[one], TASKS[other]), (TASKS[other], TASKS[one])):
        book = signed(second, *team(second), *team(first))
        book.sign_before(task_of(first), team(first), at(9, 30))
        book.begin(task_of(first), *team(first), moment=at(9, 40))
        found = [
            r
            for r in begin_refusals(book.board(at(10)), task_of(second), team(second))
            if r.code == "near"
        ]
        assert [r.says for r in found] == [
            f"{second.short} must not be near {first.short}: "
            f'"{first.id.replace("-", " ")}" is under way'
        ]
        book.sign_after(task_of(first), at(9, 50))
        assert "near" not in codes(book, second, *team(second))


@pytest.mark.parametrize(("then", "first"), followers, ids=[f"{b}-{a}" for a, b in followers])
def test_what_may_not_follow_waits_until_the_clock_has_run_out(then: str, first: str) -> None:
    before, after = TASKS[first], TASKS[then]
    assert before.clocks, "there must be a clock to wait for"
    book = signed(after, *GROWN_UPS)
    book.sign_before(task_of(before), GROWN_UPS, at(9, 30))
    book.begin(task_of(before), *GROWN_UPS, moment=at(9, 40))
    book.sign_after(task_of(before), at(10))
    running = [
        r
        for r in begin_refusals(book.board(at(10, 30)), task_of(after), GROWN_UPS)
        if r.code == "clock"
    ]
    assert running
    assert all("is still running" in r.says for r in running)
    ends = [before.ruling(clock) for clock in before.clocks]
    longest = max(n.span.minutes + 1440 * n.span.days for n in ends if n and n.span)
    if longest <= 60:
        assert "clock" not in codes(book, after, *GROWN_UPS, hour=11, minute=0)
    else:
        assert "clock" in codes(book, after, *GROWN_UPS, hour=14)


def test_a_task_without_dangers_is_begun_without_more_ado() -> None:
    board = Book(PLAN).board(at(10))
    assert begin_refusals(board, "shop/plain", ()) == []
    assert refusals(board, Begun("shop/plain")) == []


def test_the_door_of_the_logbook_asks_the_safety_sheets() -> None:
    book = Book(PLAN).sign_in(*GROWN_UPS)
    begun = Begun("shop/hot-work", ("ada",), "in a hurry", watch=("ben",))
    found = refusals(book.board(at(10)), begun)
    assert {r.code for r in found} == {"unsigned", "unopened"}
    assert not any(r.yields for r in found)
