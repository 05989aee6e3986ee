"""Who may sign a check, when, and what a signature is good for."""

from __future__ import annotations

from datetime import date

import pytest

from crewboard.logbook.acts import CheckSigned, Reopened, SignOut
from crewboard.order.safety.checks import checks_of, checks_of_the_day
from crewboard.order.safety.signing import sign_refusals, signers
from tests.order.safety.workshop import TODAY, Book, at, sheets, shop_plan

PLAN = shop_plan()
EVERYONE = ("ada", "ben", "cy", "dot", "eve")


def codes(book: Book, act: CheckSigned, by: str = "ada", hour: int = 10) -> set[str]:
    return {r.code for r in sign_refusals(book.board(at(hour)), act, by)}


def signature(hazard: str, check: str, who: str = "ada", task: str = "") -> CheckSigned:
    return CheckSigned(hazard, check, who, task or f"shop/{hazard}")


def everyone() -> Book:
    return Book(PLAN).sign_in(*EVERYONE)


@pytest.mark.parametrize("hazard", sheets().values(), ids=sheets())
def test_every_check_is_signed_by_exactly_those_whom_the_sheet_names(hazard: object) -> None:
    sheet = sheets()[getattr(hazard, "id", "")]
    for check in sheet.checks:
        book = everyone()
        if sheet.concerns != "day" and check.when != "before":
            book.begin(f"shop/{sheet.id}", "ada", "ben", moment=at(9, 30))
        board = book.board(at(10))
        able = set(signers(board, sheet, check))
        if check.signs == "anyone":
            assert able == {"ada", "ben", "cy", "eve"} | ({"dot"} if sheet.under_18 else set())
        elif check.signs == "lead":
            assert able == {"ada"}
        else:  # eve's papers have lapsed, dot is under 18
            assert able == {"ada", "ben"}
        for who in EVERYONE:
            act = signature(sheet.id, check.id, who)
            if check.each_person:
                act = act._replace(concerns="fay")
            if check.names:
                act = act._replace(named=("ada",))
            if sheet.concerns == "day":
                act = act._replace(task="")
            refused = {r.code for r in sign_refusals(board, act, who)} - {"clock", "still-in"}
            assert (refused == set()) == (who in able), (check.id, who)


def test_who_is_not_here_cannot_sign() -> None:
    book = Book(PLAN).sign_in("ben")
    assert codes(book, signature("hot-work", "extinguisher", "ada")) == {"not-here"}
    assert codes(book, signature("hot-work", "extinguisher", "ben")) == set()


def test_a_stranger_cannot_sign() -> None:
    found = sign_refusals(
        everyone().board(at(10)), signature("hot-work", "extinguisher", "zoe"), "ada"
    )
    assert [r.code for r in found] == ["signer"]
    assert "Ada or Ben or Cy or Eve may" in found[0].mend


def test_a_lapsed_paper_is_told_with_its_date() -> None:
    (refusal,) = sign_refusals(everyone().board(at(10)), signature("hot-work", "area", "eve"))
    assert 'Eve has no certificate "hot work" (it lapsed on Thu 30 Apr 2026)' in refusal.says


@pytest.mark.parametrize(
    ("act", "code"),
    [
        (signature("dragons", "fire"), "unknown-hazard"),
        (signature("hot-work", "dragons"), "unknown-check"),
        (CheckSigned("hot-work", "area", "ada"), "task"),
        (CheckSigned("hot-work", "area", "ada", "shop/noise"), "no-danger"),
        (CheckSigned("hot-work", "area", "ada", "shop/nothing"), "unknown-task"),
        (signature("hot-work", "no-vapour")._replace(applies=False), "why"),
    ],
)
def test_a_signature_that_makes_no_sense_is_refused(act: CheckSigned, code: str) -> None:
    assert code in codes(everyone(), act)


@pytest.mark.parametrize(
    ("who", "concerns", "by", "refused"),
    [
        ("ada", "cy", "ada", set()),
        ("ada", "cy", "cy", set()),  # whoever writes it down: Ada signed
        ("cy", "ada", "ada", {"signer"}),  # Cy may not show a machine
        ("ada", "ada", "ben", {"signer"}),  # nobody shows themselves a machine
        ("ada", "", "ada", {"for-whom"}),
    ],
)
def test_who_was_shown_a_machine_is_signed_for_by_somebody_else_who_may(
    who: str, concerns: str, by: str, refused: set[str]
) -> None:
    act = signature("power-saws", "shown", who)._replace(concerns=concerns)
    assert codes(everyone(), act, by=by) == refused


@pytest.mark.parametrize(
    ("who", "concerns", "by", "answer", "signer"),
    [
        ("ada", "cy", "ben", "signed", "ada"),
        ("cy", "", "ada", "signed", "ada"),  # as older lines say it
        ("cy", "", "cy", "unsigned", ""),
        ("ada", "ada", "ada", "unsigned", ""),
        ("ada", "", "ada", "unsigned", ""),
    ],
)
def test_a_line_says_who_signed_and_for_whom_and_nobody_signs_for_themselves(
    who: str, concerns: str, by: str, answer: str, signer: str
) -> None:
    act = signature("power-saws", "shown", who)._replace(concerns=concerns)
    board = everyone().say(at(9, 10), act, by=by).board(at(10))
    whom = concerns or who
    found = [a for a in checks_of(board, "shop/power-saws", (whom,)) if a.check.id == "shown"]
    assert [(a.who, a.answer, a.signed_by) for a in found] == [(whom, answer, signer)]


def test_a_check_that_is_no_persons_own_is_signed_for_nobody() -> None:
    act = signature("hot-work", "area")._replace(concerns="cy")
    assert codes(everyone(), act) == {"for-whom"}


def test_a_daily_signature_lasts_the_day_and_serves_every_task() -> None:
    book = everyone().say(at(9, 10), CheckSigned("oily-rags", "can", "cy"))

    def answer(moment_day: date) -> str:
        board = book.board(at(10, 0, moment_day))
        return next(a.answer for a in checks_of(board, "shop/oily-rags") if a.check.id == "can")

    assert answer(TODAY) == "signed"
    assert answer(date(2026, 5, 3)) == "unsigned"


def test_a_signature_for_each_task_each_day_serves_neither_another_day_nor_another_task() -> None:
    from crewboard.plan.task import Task

    plan = shop_plan(tasks=[Task("shop/second", "braze", "shop", hazards=("hot-work",))])
    book = Book(plan).sign_in("ada").say(at(9, 10), signature("hot-work", "area"))

    def answer(task: str, day: date = TODAY) -> str:
        return next(
            a.answer for a in checks_of(book.board(at(10, 0, day)), task) if a.check.id == "area"
        )

    assert answer("shop/hot-work") == "signed"
    assert answer("shop/second") == "unsigned"
    assert answer("shop/hot-work", date(2026, 5, 9)) == "unsigned"


def test_a_signature_for_each_task_lasts_until_the_task_is_reopened() -> None:
    book = everyone().say(at(9, 10), signature("lead-paint", "tested"))

    def answer(day: date) -> str:
        board = book.board(at(12, 0, day))
        return next(a.answer for a in checks_of(board, "shop/lead-paint") if a.check.id == "tested")

    assert answer(date(2027, 6, 5)) == "signed"
    book.say(at(11), Reopened("shop/lead-paint", "missed a corner"))
    assert answer(TODAY) == "unsigned"


@pytest.mark.parametrize(
    ("day", "answer"),
    [(date(2027, 5, 1), "signed"), (date(2027, 5, 2), "unsigned")],
)
def test_a_yearly_signature_lasts_a_calendar_year_for_that_person(day: date, answer: str) -> None:
    shown = signature("power-saws", "shown", "ada")._replace(concerns="cy")
    book = everyone().say(at(9, 10), shown)
    board = book.board(at(10, 0, day))
    found = {
        a.who: a.answer
        for a in checks_of(board, "shop/power-saws", ("cy", "ben"))
        if a.check.id == "shown"
    }
    assert found == {"cy": answer, "ben": "unsigned"}


def test_a_line_written_by_hand_under_a_wrong_name_leaves_the_check_unsigned() -> None:
    book = everyone().say(at(9, 10), signature("hot-work", "area", "cy"))
    answers = {a.check.id: a.answer for a in checks_of(book.board(at(10)), "shop/hot-work")}
    assert answers["area"] == "unsigned"


def test_an_after_check_signed_before_the_work_was_taken_up_again_is_out_of_date() -> None:
    book = everyone().begin("shop/hot-work", "ada", "ben", moment=at(10))
    book.say(at(11), signature("hot-work", "ended"))

    def ended(hour: int) -> str:
        board = book.board(at(hour))
        return next(a.answer for a in checks_of(board, "shop/hot-work") if a.check.id == "ended")

    assert ended(12) == "signed"
    book.begin("shop/hot-work", "eve", moment=at(13))
    assert ended(14) == "unsigned"


def test_that_a_watch_was_kept_cannot_be_signed_before_its_end() -> None:
    book = everyone().begin("shop/hot-work", "ada", "ben", moment=at(10))
    kept = signature("hot-work", "watch-kept")
    (refusal,) = sign_refusals(book.board(at(11)), kept)
    assert refusal.code == "clock"
    assert "first sign that the work has ended" in refusal.says
    book.say(at(13), signature("hot-work", "ended"))
    (refusal,) = sign_refusals(book.board(at(13, 59)), kept)
    assert refusal.says == "the fire watch runs until 14:00"
    assert sign_refusals(book.board(at(14)), kept) == []


def test_the_days_own_checks_are_signed_once_for_the_whole_shop() -> None:
    book = everyone()
    asked = checks_of_the_day(book.board(at(10)))
    assert {a.check.when for a in asked} == {"before", "after"}
    assert all(a.open for a in asked)
    book.say(at(9, 5), CheckSigned("the-shop", "ways-out", "cy"))
    signed = [a.check.id for a in checks_of_the_day(book.board(at(10))) if not a.open]
    assert signed == ["ways-out"]


def test_an_under_18_signs_nothing_that_a_lead_or_a_certificate_answers_for() -> None:
    plan = shop_plan()
    young_lead = plan.crew["dot"]._replace(lead=True)
    book = Book(plan._replace(crew={**plan.crew, "dot": young_lead})).sign_in("dot")
    everyone_out = CheckSigned("the-shop", "everyone-out", "dot")
    assert codes(book, everyone_out) == {"signer"}
    assert codes(book, CheckSigned("the-shop", "tools", "dot")) == set()


def test_that_everybody_is_out_is_signed_by_the_last_one_in() -> None:
    book = Book(PLAN).sign_in("ada", "ben")
    everyone_out = CheckSigned("the-shop", "everyone-out", "ada")
    (refusal,) = sign_refusals(book.board(at(10)), everyone_out)
    assert refusal.says == "Ben is still signed in"
    book.say(at(10), SignOut("ben"))
    assert codes(book, everyone_out) == set()
