"""Near misses and injuries: kept in full, shared without names."""

from __future__ import annotations

from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from crewboard.logbook.acts import Incident
from crewboard.plan.volunteer import Volunteer
from crewboard.telling.incidents import (
    READ_FIRST,
    IncidentTold,
    incident_lines,
    incident_page,
    incidents,
    incidents_told,
)
from tests.long_form import cases
from tests.order.safety.workshop import TODAY, Book, at, shop_plan

CREW = {
    "mika": Volunteer("mika", "Mika Torvald"),
    "jo": Volunteer("jo", "Jo Lind-Aspen"),
    "sam2": Volunteer("sam2", "Sam O'Neill"),
}
PLAN = shop_plan(crew=CREW)


def book() -> Book:
    fell = Incident(
        "Mika's ladder slipped; JO caught Torvald before the fall",
        place="roof, by Sam O'Neill's bench",
        task="shop/work-at-height",
        who=("mika",),
        seen_by=("jo", "sam2"),
        done="mika tied it; sam2 told everyone",
    )
    cut = Incident("cut thumb", injury=True, who=("jo",), done="cleaned by Mika")
    made = Book(PLAN).say(at(11), fell, by="sam2")
    return made.say(at(14, 0, date(2026, 5, 16)), cut, by="mika")


def told(*, names: bool) -> list[IncidentTold]:
    return incidents_told(PLAN, incidents(book().logbook()), names=names)


def test_the_crews_own_record_has_everything() -> None:
    first, second = told(names=True)
    assert first.kind == "near miss"
    assert first.who == "Mika Torvald"
    assert first.seen_by == "Jo Lind-Aspen and Sam O'Neill"
    assert first.task == "work at height"
    assert first.written_by == "Sam O'Neill"
    assert second.kind == "injury"
    assert "not to be shared" in " ".join(incident_lines(told(names=True), names=True))


def test_the_shared_report_calls_the_same_person_by_the_same_letter() -> None:
    first, second = told(names=False)
    a, b, c = first.what.split("'")[0], second.who, first.written_by
    assert len({a, b, c}) == 3
    assert first.what == f"{a}'s ladder slipped; {b} caught {a} before the fall"
    assert first.place == f"roof, by {c}'s bench"
    assert first.who == a
    assert first.seen_by == f"{b} and {c}"
    assert first.done == f"{a} tied it; {c} told everyone"
    assert second.done == f"cleaned by {a}"


def test_no_name_of_the_crew_is_left_in_the_shared_report() -> None:
    text = " ".join(incident_lines(told(names=False), names=False)).lower()
    page = incident_page(told(names=False), names=False).lower()
    for name in ("mika", "torvald", "lind-aspen", "sam2", "o'neill", "o&#x27;neill"):
        assert name not in text
        assert name not in page
    assert READ_FIRST.split(".")[0].lower() in text


@cases(50, 1000)
@given(
    st.text(max_size=40), st.sampled_from(["Mika Torvald", "torvald", "MIKA", "sam2"]), st.text()
)
def test_a_name_is_left_out_wherever_it_stands_as_a_word(
    before: str, name: str, after: str
) -> None:
    made = Book(PLAN).say(at(11), Incident(f"{before} {name} {after}"))
    (one,) = incidents_told(PLAN, incidents(made.logbook()), names=False)
    rest = f"{before}  {after}".lower()
    if not any(part in rest for part in ("mika", "torvald", "sam", "jo", "lind", "neill")):
        assert name.lower() not in one.what.lower()
        assert "person A" in one.what


def test_only_the_days_asked_for_are_reported() -> None:
    logbook = book().logbook()
    assert [e.id for e in incidents(logbook, until=TODAY)] == ["e0000"]
    assert [e.id for e in incidents(logbook, since=date(2026, 5, 3))] == ["e0001"]


def test_an_empty_report_says_so() -> None:
    assert (
        incident_lines([], names=False)[0] == "Near misses and injuries: 0 near misses, 0 injuries"
    )


def test_a_name_typed_as_markup_is_shown_as_typed() -> None:
    made = Book(PLAN).say(at(11), Incident("<img src=x onerror=alert(1)> \x1b[2J"))
    page = incident_page(incidents_told(PLAN, incidents(made.logbook()), names=True), names=True)
    assert "<img" not in page
    assert "\x1b" not in page
