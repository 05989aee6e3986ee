"""Near misses and injuries: kept in full, shared without names."""

from __future__ import annotations

from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from crewboard.logbook.acts import Incident
from crewboard.paper.page import sheet_page
from crewboard.paper.plain import plain_lines
from crewboard.plan.volunteer import Volunteer
from crewboard.telling.incidents import READ_FIRST, incident_sheet, incidents
from crewboard.telling.report import Chapter, Sheet, sheet_lines
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


def sheet(*, names: bool) -> Sheet:
    return incident_sheet(PLAN, incidents(book().logbook()), names=names)


def facts(chapter: Chapter) -> dict[str, str]:
    """What is said of an incident, by the word before it."""
    return {line.word.rstrip(":"): line.text for line in chapter.points}


def printed(of: Sheet) -> list[str]:
    return plain_lines(sheet_lines(of), 80)


def test_the_crews_own_record_has_everything() -> None:
    chapters = sheet(names=True).chapters
    first = facts(chapters[0])
    assert chapters[0].heading.endswith(": near miss")
    assert first["who"] == "Mika Torvald"
    assert first["seen by"] == "Jo Lind-Aspen and Sam O'Neill"
    assert first["task"] == "work at height"
    assert first["written by"] == "Sam O'Neill"
    assert chapters[1].heading.endswith(": injury")
    assert "not to be shared" in " ".join(printed(sheet(names=True)))


def test_the_shared_report_calls_the_same_person_by_the_same_letter() -> None:
    first, second = map(facts, sheet(names=False).chapters)
    a, b, c = first["what"].split("'")[0], second["who"], first["written by"]
    assert len({a, b, c}) == 3
    assert first["what"] == f"{a}'s ladder slipped; {b} caught {a} before the fall"
    assert first["where"] == f"roof, by {c}'s bench"
    assert first["who"] == a
    assert first["seen by"] == f"{b} and {c}"
    assert first["done"] == f"{a} tied it; {c} told everyone"
    assert second["done"] == f"cleaned by {a}"


def test_no_name_of_the_crew_is_left_in_the_shared_report() -> None:
    text = " ".join(printed(sheet(names=False))).lower()
    page = sheet_page(sheet(names=False)).lower()
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
    (chapter,) = incident_sheet(PLAN, incidents(made.logbook()), names=False).chapters
    what = facts(chapter)["what"]
    rest = f"{before}  {after}".lower()
    if not any(part in rest for part in ("mika", "torvald", "sam", "jo", "lind", "neill")):
        assert name.lower() not in what.lower()
        assert "person A" in what


def test_only_the_days_asked_for_are_reported() -> None:
    logbook = book().logbook()
    assert [e.id for e in incidents(logbook, until=TODAY)] == ["e0000"]
    assert [e.id for e in incidents(logbook, since=date(2026, 5, 3))] == ["e0001"]


def test_an_empty_report_says_so() -> None:
    empty = incident_sheet(PLAN, [], names=False)
    assert printed(empty)[0] == "Near misses and injuries: 0 near misses, 0 injuries"


def test_a_name_typed_as_markup_is_shown_as_typed() -> None:
    made = Book(PLAN).say(at(11), Incident("<img src=x onerror=alert(1)> \x1b[2J"))
    page = sheet_page(incident_sheet(PLAN, incidents(made.logbook()), names=True))
    assert "<img" not in page
    assert "\x1b" not in page
