"""Certificates that lapse before the work days that need them are told in time."""

from __future__ import annotations

from datetime import date

import pytest

from crewboard.folder.read.hazard_sheets import read_sheets
from crewboard.logbook.acts import Finished
from crewboard.logbook.logbook import Logbook
from crewboard.order.assess import assess
from crewboard.order.may.needs import certificate_in_question, good_until, has_certificate
from crewboard.order.safety.certificates import Lapse, lapses
from crewboard.plan.component import Component
from crewboard.plan.hazard import CertificateNeed, Hazard, Mark
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from crewboard.plan.vehicle import Vehicle
from crewboard.plan.volunteer import Certificate, Volunteer
from crewboard.plan.workdays import WorkDays, parse_rule
from tests.order.safety.workshop import TODAY, Book, at, sheets

# The work days from 2 May 2026 on: 2 and 16 May, 6 and 20 June.
DAYS = WorkDays((parse_rule("first saturday"), parse_rule("third saturday")))
WELDING = Task("frame/weld", "weld the bracket", "frame", hazards=("hot-work",))


def told(*people: Volunteer, tasks: tuple[Task, ...] = (WELDING,), ahead: int = 4) -> list[Lapse]:
    wanted = {hazard for task in tasks for hazard in task.hazards}
    plan = Plan(
        Vehicle("Dining trailer", work_days=DAYS),
        {"frame": Component("frame", "Frame")},
        {task.id: task for task in tasks},
        {each.id: each for each in people},
        {},
        read_sheets(wanted).hazards,
    )
    return lapses(assess(plan, Logbook(), at(9)), ahead)


def welder(name: str, until: date | None) -> Volunteer:
    return Volunteer(name.lower(), name, certificates=(Certificate("hot work", until),))


@pytest.mark.parametrize(
    ("until", "first_day_without"),
    [
        (date(2026, 5, 1), date(2026, 5, 2)),  # lapsed already
        (date(2026, 5, 2), date(2026, 5, 16)),  # good today, not next time
        (date(2026, 6, 19), date(2026, 6, 20)),
        (date(2026, 6, 20), None),  # good on the last of the four days
        (None, None),
    ],
)
def test_a_lapse_is_told_for_the_first_work_day_without_the_certificate(
    until: date | None, first_day_without: date | None
) -> None:
    found = told(welder("Ada", until))
    assert [lapse.day for lapse in found] == ([first_day_without] if first_day_without else [])


def test_the_warning_names_the_person_the_date_the_work_and_who_still_holds_it() -> None:
    (lapse,) = told(welder("Ada", date(2026, 5, 10)), welder("Ben", date(2030, 1, 1)))
    assert lapse == Lapse(
        "ada",
        "hot work",
        date(2026, 5, 10),
        date(2026, 5, 16),
        ("frame/weld",),
        1,
        'Ada\'s certificate "hot work" lapses on Sun 10 May 2026, before the work day of '
        'Sat 16 May 2026; 1 other still holds it: "weld the bracket" needs it',
    )


def test_a_certificate_that_nobody_holds_is_told_once() -> None:
    (lapse,) = told(Volunteer("cy", "Cy"))
    assert lapse.who == ""
    assert 'nobody holds the certificate "hot work"' in lapse.says


def test_what_no_unfinished_work_needs_may_lapse_in_peace() -> None:
    lapsed = welder("Ada", date(2026, 5, 1))
    assert told(lapsed, tasks=(WELDING._replace(hazards=("noise",)),)) == []
    assert told(lapsed, tasks=(WELDING._replace(finished=date(2026, 4, 1)),)) == []
    assert told(lapsed, tasks=(WELDING._replace(set_aside="winter"),)) == []


def test_who_has_left_the_crew_is_not_reminded() -> None:
    gone = welder("Ada", date(2026, 5, 1))._replace(left=date(2026, 4, 30))
    assert [lapse.who for lapse in told(gone, welder("Ben", date(2030, 1, 1)))] == []


def test_a_shorter_look_ahead_tells_less() -> None:
    assert told(welder("Ada", date(2026, 5, 10)), ahead=1) == []


def test_a_card_without_an_end_lapses_by_the_sheets_rule_where_that_rule_may_gate() -> None:
    sheet = sheets()["hot-work"]
    need = sheet.certificates[0]
    since = Certificate("hot work", since=date(2025, 5, 3))
    # Rule of the crew: a hot-work certificate is good for 12 months.
    assert good_until(since, need, sheet) == date(2026, 5, 2)
    ada = Volunteer("ada", "Ada", certificates=(since,))
    assert has_certificate(ada, need, sheet, date(2026, 5, 2))
    assert not has_certificate(ada, need, sheet, date(2026, 5, 3))


def test_a_length_ends_a_paper_without_an_end_however_surely_the_length_is_known() -> None:
    # 29 CFR 1910.134(f)(2): fit test again after 12 months. However it was looked up.
    sheet = sheets()["lead-paint"]
    number = sheet.number("fit-test")
    assert number is not None
    need = CertificateNeed("fit test", "each", "fit-test")
    old = Certificate("fit test", since=date(2020, 1, 1))
    marks: tuple[Mark, ...] = ("verified", "from memory")
    for mark in marks:
        others = [n for n in sheet.numbers if n != number]
        marked = sheet._replace(numbers=(*others, number._replace(mark=mark)))
        assert good_until(old, need, marked) == date(2020, 12, 31)


LIVE = sheets()["live-voltage"], sheets()["live-voltage"].certificates[0]
HOT = sheets()["hot-work"], sheets()["hot-work"].certificates[0]


@pytest.mark.parametrize(
    ("sheet_and_need", "paper", "good", "asked"),
    [
        (LIVE, Certificate("electrical"), False, True),  # true: seen, nobody knows when
        (LIVE, Certificate("electrical", seen=date(2025, 5, 3)), True, False),
        (LIVE, Certificate("electrical", seen=date(2025, 5, 2)), False, True),
        (LIVE, Certificate("electrical", since=date(2020, 1, 1)), False, True),
        (
            LIVE,
            Certificate("electrical", since=date(2020, 1, 1), seen=date(2026, 1, 1)),
            True,
            False,
        ),
        (LIVE, Certificate("electrical", date(2026, 5, 2)), True, False),
        (LIVE, Certificate("electrical", date(2026, 5, 1)), False, False),
        (HOT, Certificate("hot work", since=date(2025, 5, 3)), True, False),
        (HOT, Certificate("hot work", since=date(2025, 5, 2)), False, False),
        # Its own end lies ahead, but it is older than the sheet says such a paper lasts.
        (HOT, Certificate("hot work", date(2030, 1, 1), date(2025, 5, 2)), False, True),
        (HOT, Certificate("hot work", date(2030, 1, 1)), True, False),
    ],
)
def test_a_paper_is_good_or_asked_about_or_lapsed(
    sheet_and_need: tuple[Hazard, CertificateNeed], paper: Certificate, good: bool, asked: bool
) -> None:
    sheet, need = sheet_and_need
    holder = Volunteer("ada", "Ada", certificates=(paper,))
    assert has_certificate(holder, need, sheet, TODAY) == good
    assert certificate_in_question(holder, need, sheet, TODAY) == asked


def test_a_renewed_certificate_counts_from_its_later_date() -> None:
    twice = Volunteer(
        "ada",
        "Ada",
        certificates=(
            Certificate("hot work", date(2026, 5, 1)),
            Certificate("hot work", date(2027, 5, 1)),
        ),
    )
    assert told(twice) == []


def test_finished_work_asks_for_no_certificate_any_more() -> None:
    book = Book().sign_in("ada")
    before = {lapse.kind for lapse in lapses(book.board(at(10)))}
    assert "asbestos licence" in before
    book.say(at(11), Finished("shop/asbestos"))
    assert "asbestos licence" not in {lapse.kind for lapse in lapses(book.board(at(12)))}
